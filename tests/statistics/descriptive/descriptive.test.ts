import fc from '../../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { extent } from '../../../src/statistics/descriptive/extent.ts';
import { mean } from '../../../src/statistics/descriptive/mean.ts';
import { median } from '../../../src/statistics/descriptive/median.ts';
import { medianAbsoluteDeviation } from '../../../src/statistics/descriptive/median-absolute-deviation.ts';
import { quantile } from '../../../src/statistics/descriptive/quantile.ts';
import { robustStandardDeviation } from '../../../src/statistics/descriptive/robust-standard-deviation.ts';
import { sampleStandardDeviation } from '../../../src/statistics/descriptive/sample-standard-deviation.ts';
import { univariateReferenceSets } from '../../support/published/univariate-reference-sets.ts';
import { expectWithin } from '../expect-within.ts';

const finite = fc.double({ min: -1e6, max: 1e6, noNaN: true });
const some = fc.array(finite, { minLength: 1, maxLength: 30 });

/** Lag-1 autocorrelation from the project's mean, to check it and the readings against the certified coefficient. */
function lag1(readings: readonly number[]): number {
  const centre = mean(readings);
  const deviations = readings.map((value) => value - centre);
  const products = deviations.slice(1).reduce((sum, value, i) => sum + value * deviations[i]!, 0);
  return products / deviations.reduce((sum, value) => sum + value * value, 0);
}

describe('against NIST Statistical Reference Datasets, univariate', () => {
  test.each(univariateReferenceSets)('$name: mean, standard deviation (n - 1) and lag-1 coefficient', (set) => {
    const readings = Object.freeze([...set.readings]);
    expectWithin(mean(readings), set.mean, 1e-13);
    expectWithin(sampleStandardDeviation(readings), set.standardDeviation, set.within);
    expectWithin(lag1(readings), set.lag1, set.lag1Within);
  });
});

describe('quantile', () => {
  test('interpolates linearly at (n - 1) p, type 7 of Hyndman and Fan 1996', () => {
    const readings = Object.freeze([7, 1, 3, 10]);
    expect(quantile(readings, 0)).toBe(1);
    expect(quantile(readings, 1)).toBe(10);
    expect(quantile(readings, 1 / 3)).toBe(3);
    expect(quantile(readings, 0.5)).toBe(5);
    expect(quantile(readings, 0.9)).toBeCloseTo(9.1, 12);
  });

  test('at one half it is the median', () => {
    fc.assert(
      fc.property(some, (readings) => {
        expect(quantile(readings, 0.5)).toBeCloseTo(median(readings), 8);
      }),
    );
  });

  test.each([-0.1, 1.1, NaN])('refuses p = %d', (p) => {
    expect(() => quantile([1, 2], p)).toThrow('quantile needs a p from 0 to 1');
  });
});

describe('median absolute deviation', () => {
  test('is 0.15 for the readings of Iglewicz and Hoaglin 1993, and 1.4826 times that as a standard deviation', () => {
    const readings = Object.freeze([2.1, 2.6, 2.4, 2.5, 2.3, 2.1, 2.3, 2.6, 8.2, 8.3]);
    expect(median(readings)).toBeCloseTo(2.45, 12);
    expect(medianAbsoluteDeviation(readings)).toBeCloseTo(0.15, 12);
    expect(robustStandardDeviation(readings)).toBeCloseTo(0.22239, 12);
  });

  test('is not moved by one wild reading, unlike the standard deviation', () => {
    expect(medianAbsoluteDeviation([1, 2, 3, 4, 5])).toBe(1);
    expect(medianAbsoluteDeviation([1, 2, 3, 4, 5e9])).toBe(1);
  });
});

describe('extent', () => {
  test('agrees with sorting', () => {
    fc.assert(
      fc.property(some, (readings) => {
        const sorted = [...readings].sort((a, b) => a - b);
        const { min, max } = extent(Object.freeze(readings));
        // Not toBe, which tells -0 from 0.
        expect(min === sorted[0] && max === sorted.at(-1)).toBe(true);
      }),
    );
  });

  test('takes columns too long to spread into arguments', () => {
    const column = new Float64Array(300_000).fill(2);
    column[299_999] = -1;
    expect(extent(column)).toEqual({ min: -1, max: 2 });
  });
});

describe('all descriptive functions', () => {
  const functions = [mean, median, medianAbsoluteDeviation, robustStandardDeviation, extent];

  test.each(functions)('%o needs a reading, and finite ones', (f) => {
    expect(() => f([])).toThrow('needs at least 1 reading, got 0');
    expect(() => f([1, 2, NaN, 4, 5])).toThrow('needs finite readings, got NaN at position 2');
  });

  test('the standard deviation needs 2 readings, and finite ones', () => {
    expect(() => sampleStandardDeviation([1])).toThrow('standard deviation needs at least 2 readings, got 1');
    expect(() => sampleStandardDeviation([1, Infinity])).toThrow('finite');
  });

  test('a shift moves the mean and median, and leaves the deviations', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -1000, max: 1000 }), { minLength: 2, maxLength: 30 }), (readings) => {
        const shifted = readings.map((value) => value + 4096);
        expectWithin(mean(shifted), mean(readings) + 4096, 1e-12);
        expect(median(shifted)).toBe(median(readings) + 4096);
        expect(medianAbsoluteDeviation(shifted)).toBe(medianAbsoluteDeviation(readings));
        expect(sampleStandardDeviation(shifted)).toBeCloseTo(sampleStandardDeviation(readings), 9);
      }),
    );
  });
});
