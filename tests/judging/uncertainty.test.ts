import { describe, expect, test } from 'vitest';
import { expandedUncertainty, rangeOf } from '../../src/judging/uncertainty.ts';

describe('expandedUncertainty(value, lastDigit, accuracy)', () => {
  // JCGM 100:2008, 4.3.7: bounds ±a of a rectangular distribution give u = a/√3; the last digit d gives d/√12.
  // Counts as ±(2.5 % + 3 digits) at 32.00 and 0.09 with a last digit of 0.01: ±0.83 and ±0.03225 (a Kwantlen University page).
  test('32.00 on ±(2.5 % + 3 counts) has a specification of ±0.83, u 0.4792007', () => {
    const accuracy = { mode: 'DC volts', upTo: 60, percent: 2.5, counts: 3 } as const;
    const digit = 0.01 / Math.sqrt(12);
    expect(expandedUncertainty(32, -2, accuracy)).toBeCloseTo(2 * Math.hypot(0.4792007, digit), 6);
    expect(expandedUncertainty(0.09, -2, accuracy)).toBeCloseTo(2 * Math.hypot(0.0186195, digit), 6);
  });

  // The digital voltmeter of the GUM: 0.928571 V, ±(14 ppm of reading + 2 ppm of the 1 V range), a 15 µV, u 8.7 µV (JCGM 100:2008, 4.3.7; inputs from memory).
  test('the voltmeter of JCGM 100 has u 8.66 µV', () => {
    const accuracy = { mode: 'DC volts', upTo: 1, percent: 0.0014, counts: 2 } as const;
    const specification = 8.6602506e-6;
    expect(expandedUncertainty(0.928571, -6, accuracy) / 2).toBeCloseTo(
      Math.hypot(specification, 1e-6 / Math.sqrt(12)),
      12,
    );
  });
});

describe('rangeOf(ranges, value, lastDigit)', () => {
  const ranges = [
    { mode: 'resistance', upTo: 600, percent: 0.9, counts: 5, resolution: 0.1, lastDigit: -1 },
    { mode: 'resistance', upTo: 6000, percent: 0.9, counts: 2, resolution: 1, lastDigit: 0 },
    { mode: 'resistance', upTo: 60_000, percent: 0.9, counts: 2, resolution: 10, lastDigit: 1 },
  ] as const;

  test('takes the range whose last digit was shown, however small the reading', () => {
    expect(rangeOf(ranges, 470.3, -1)).toBe(ranges[0]);
    expect(rangeOf(ranges, 470, 0)).toBe(ranges[1]);
  });

  test('takes the smallest range that holds the reading where no range shows that digit, and none beyond the last', () => {
    expect(rangeOf(ranges, 4700, -3)).toBe(ranges[1]);
    expect(rangeOf(ranges, 1e6, 3)).toBeUndefined();
  });
});
