import fc from '../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { engineeringPrefix, prefixSymbol, SI_PREFIXES } from '../../src/domain/prefix.ts';
import { formatComputed, formatShown, joinQuantity, lastDigit, scaleBy, shownFor } from '../../src/domain/quantity.ts';

describe('SI prefixes', () => {
  // BIPM, The International System of Units, 9th edition, table 7.
  test('the table of the SI Brochure stands in full, each symbol with its power of ten', () => {
    const powers = [...SI_PREFIXES.values()];
    const expected = [30, 27, 24, 21, 18, 15, 12, 9, 6, 3, 2, 1, -1, -2, -3, -6, -9, -12, -15, -18, -21, -24, -27, -30];
    expect(powers).toEqual(expected);
    expect([...SI_PREFIXES.keys()].join(' ')).toBe('Q R Y Z E P T G M k h da d c m µ n p f a z y r q');
  });

  test('prefixSymbol(power) is empty for none and refuses a power that has no prefix', () => {
    expect(prefixSymbol(0)).toBe('');
    expect(prefixSymbol(6)).toBe('M');
    expect(() => prefixSymbol(4)).toThrow('10^4');
  });

  test('engineeringPrefix(value) leaves one to three digits before the mark', () => {
    expect([0.0047, 0.999, 1, 999, 1000, 640_000, 2.2e6, 470e-6].map(engineeringPrefix)).toEqual([
      -3, -3, 0, 0, 3, 3, 6, -6,
    ]);
    expect([0, NaN, Infinity].map(engineeringPrefix)).toEqual([0, 0, 0]);
    const value = fc.double({ min: 1e-29, max: 1e29, noNaN: true });
    fc.assert(
      fc.property(value, (number) => {
        const mantissa = scaleBy(number, -engineeringPrefix(number));
        expect(mantissa).toBeGreaterThan(0.9999999);
        expect(mantissa).toBeLessThan(1000.0000001);
      }),
    );
  });
});

describe('writing quantities', () => {
  test('formatShown(value, unit, shown, mark) keeps the digits and the prefix that the meter showed', () => {
    expect(formatShown(640_000, 'Ω', { prefix: 6, decimals: 3 }, '.')).toEqual({ number: '0.640', unit: 'MΩ' });
    expect(formatShown(12.7, 'V', { prefix: 0, decimals: 2 }, ',')).toEqual({ number: '12,70', unit: 'V' });
    expect(formatShown(-0.004, 'V', { prefix: 0, decimals: 3 }, '.').number).toBe('\u22120.004');
    expect(formatShown(-0.0001, 'V', { prefix: 0, decimals: 3 }, '.').number).toBe('0.000');
    expect(formatShown(470e-6, 'F', { prefix: -6, decimals: 1 }, '.')).toEqual({ number: '470.0', unit: 'µF' });
  });

  test('formatComputed(value, unit, last, mark) shows no digit below the last measured one', () => {
    expect(joinQuantity(formatComputed(12.5837, 'V', -2, '.'))).toBe('12.58\u00a0V');
    expect(joinQuantity(formatComputed(640_123, 'Ω', 3, '.'))).toBe('640\u00a0kΩ');
    expect(joinQuantity(formatComputed(0.4, 'Ω', -1, '.'))).toBe('0.4\u00a0Ω');
    expect(joinQuantity(formatComputed(1_234_567, 'Ω', 3, '.'))).toBe('1.235\u00a0MΩ');
  });

  test('shownFor(value, last) ends at the power of ten asked for, or above it where no prefix reaches it', () => {
    fc.assert(
      fc.property(fc.double({ min: -1e9, max: 1e9, noNaN: true }), fc.integer({ min: -12, max: 9 }), (value, last) => {
        expect(lastDigit(shownFor(value, last))).toBeGreaterThanOrEqual(last);
      }),
    );
  });

  test('a number written as shown reads back as the number', () => {
    const shown = fc.record({
      prefix: fc.constantFrom(-12, -9, -6, -3, 0, 3, 6),
      decimals: fc.integer({ min: 0, max: 4 }),
    });
    fc.assert(
      fc.property(fc.integer({ min: -59_999, max: 59_999 }), shown, (digits, form) => {
        const value = scaleBy(digits, lastDigit(form));
        const { number } = formatShown(value, 'V', form, '.');
        expect(Math.round(Number(number.replace('\u2212', '-')) * 10 ** form.decimals)).toBe(digits === 0 ? 0 : digits);
      }),
    );
  });
});
