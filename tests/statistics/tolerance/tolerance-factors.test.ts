import { describe, expect, test } from 'vitest';
import { mean } from '../../../src/statistics/descriptive/mean.ts';
import { sampleStandardDeviation } from '../../../src/statistics/descriptive/sample-standard-deviation.ts';
import { chiSquareQuantile, chiSquareUpperTail } from '../../../src/statistics/distributions/chi-square.ts';
import { normalCdf, normalDensity, normalQuantile } from '../../../src/statistics/distributions/normal.ts';
import { oneSidedToleranceFactor } from '../../../src/statistics/tolerance/one-sided-tolerance-factor.ts';
import { twoSidedToleranceFactor } from '../../../src/statistics/tolerance/two-sided-tolerance-factor.ts';
import { normalToleranceFactors } from '../../support/published/normal-tolerance-factors.ts';
import { resistivity100ohm } from '../../support/published/resistivity-100ohm.ts';
import { expectWithin } from '../expect-within.ts';

/** Howe 1969, Journal of the American Statistical Association 64:610-620: an approximation, as an independent bound. */
function howeFactor(n: number, content: number, confidence: number): number {
  const chi2 = chiSquareQuantile(1 - confidence, n - 1);
  return normalQuantile((1 + content) / 2) * Math.sqrt(((n - 1) * (1 + 1 / n)) / chi2);
}

/** Confidence that k reaches, by Simpson's rule over many nodes and bisected half-widths. */
function confidenceReached(n: number, content: number, k: number): number {
  const halfWidth = (z: number): number => {
    let [lower, upper] = [0, z + 10];
    for (let i = 0; i < 60; i++) {
      const r = (lower + upper) / 2;
      if (normalCdf(r - z) - normalCdf(-r - z) < content) lower = r;
      else upper = r;
    }
    return (lower + upper) / 2;
  };
  const intervals = 400;
  const step = 9 / intervals;
  let sum = 0;
  for (let i = 0; i <= intervals; i++) {
    const weight = i === 0 || i === intervals ? 1 : i % 2 === 1 ? 4 : 2;
    const r = halfWidth((i * step) / Math.sqrt(n));
    sum += weight * normalDensity(i * step) * chiSquareUpperTail((n - 1) * (r / k) ** 2, n - 1);
  }
  return (2 * sum * step) / 3;
}

describe('two-sided tolerance factor', () => {
  // Odeh and Owen 1980; ISO 16269-6:2014.
  test.each(normalToleranceFactors)('n %d, content %d, confidence %d is %d', (n, content, confidence, twoSided) => {
    expectWithin(twoSidedToleranceFactor(n, content, confidence), twoSided, 1e-9);
  });

  test('NIST/SEMATECH e-Handbook 7.2.6.3 with n = 43: exact, and above the printed factor, which is by Howe', () => {
    const exact = twoSidedToleranceFactor(43, 0.9, 0.99);
    expectWithin(exact, 2.22282517379, 1e-10);
    expectWithin(howeFactor(43, 0.9, 0.99), 2.2173158966536, 1e-10);
    expect(exact).toBeGreaterThan(howeFactor(43, 0.9, 0.99));
  });

  test.each([
    [0.5, 1.02987690396, 97.0422412205, 97.0974387795],
    [0.75, 1.75472176972, 97.0228167304, 97.1168632696],
    [0.9, 2.50592690539, 97.0026858343, 97.1369941657],
    [0.95, 2.98354896306, 96.9898864543, 97.1497935457],
    [0.99, 3.91489289, 96.9649281747, 97.1747518253],
  ])('data set 100OHM.DAT of the e-Handbook: content %d at confidence 0.99', (content, factor, lower, upper) => {
    const k = twoSidedToleranceFactor(resistivity100ohm.length, content, 0.99);
    const reach = k * sampleStandardDeviation(resistivity100ohm);
    expectWithin(k, factor, 1e-9);
    expectWithin(mean(resistivity100ohm) - reach, lower, 1e-10);
    expectWithin(mean(resistivity100ohm) + reach, upper, 1e-10);
  });

  test.each([
    [2, 0.999999, 0.999],
    [3, 0.5, 0.5],
    [2, 0.1, 0.1],
    [7, 0.99, 0.2],
    [60, 0.8, 0.95],
    [1000, 0.95, 0.95],
    [10000, 0.999, 0.99],
  ])('n %d, content %d, confidence %d reaches its confidence by another integration', (n, content, confidence) => {
    expect(confidenceReached(n, content, twoSidedToleranceFactor(n, content, confidence))).toBeCloseTo(confidence, 10);
  });

  test('falls toward the normal quantile as readings come in', () => {
    const factors = [2, 5, 20, 100, 1000, 10000].map((n) => twoSidedToleranceFactor(n, 0.95, 0.95));
    expect(factors).toEqual([...factors].sort((a, b) => b - a));
    expect(factors.at(-1)! - normalQuantile(0.975)).toBeGreaterThan(0);
    expect(factors.at(-1)! - normalQuantile(0.975)).toBeLessThan(0.03);
  });
});

describe('one-sided tolerance factor', () => {
  // Odeh and Owen 1980; ISO 16269-6:2014.
  test.each(normalToleranceFactors)(
    'n %d, content %d, confidence %d, beside %d',
    (n, content, confidence, _, oneSided) => {
      expectWithin(oneSidedToleranceFactor(n, content, confidence), oneSided, 1e-9);
    },
  );

  // Computed by two independent programs; some statistical software is off in the fourth digit here.
  test.each([
    [300, 0.99, 2.52188080086],
    [600, 0.95, 1.75229403796],
    [1000, 0.99, 2.43014015324],
  ])('n %d, content %d, confidence 0.95: right at a large noncentrality', (n, content, expected) => {
    expectWithin(oneSidedToleranceFactor(n, content, 0.95), expected, 1e-11);
  });

  test('NIST/SEMATECH e-Handbook 7.2.6.3 with n = 43: exact, where the page approximates by 1.8752', () => {
    expectWithin(oneSidedToleranceFactor(43, 0.9, 0.99), 1.87395360585, 1e-11);
  });

  test('at content one half it is the confidence limit of the mean', () => {
    // Student's t, 0.95 quantile with 9 degrees of freedom: 1.833112933 (any table).
    expectWithin(oneSidedToleranceFactor(10, 0.5, 0.95), 1.8331129326562368 / Math.sqrt(10), 1e-12);
  });
});

describe('both tolerance factors', () => {
  test.each([twoSidedToleranceFactor, oneSidedToleranceFactor])('%o refuses what has no meaning', (factor) => {
    expect(() => factor(1, 0.95, 0.95)).toThrow('tolerance factor needs at least 2 readings, got 1');
    expect(() => factor(2.5, 0.95, 0.95)).toThrow('at least 2 readings');
    expect(() => factor(10, 1, 0.95)).toThrow('tolerance factor needs a content between 0 and 1, got 1');
    expect(() => factor(10, 0.95, 95)).toThrow('tolerance factor needs a confidence between 0 and 1, got 95');
  });

  test('one side needs less than two', () => {
    for (const n of [2, 5, 30, 400]) {
      expect(oneSidedToleranceFactor(n, 0.95, 0.95)).toBeLessThan(twoSidedToleranceFactor(n, 0.95, 0.95));
    }
  });
});
