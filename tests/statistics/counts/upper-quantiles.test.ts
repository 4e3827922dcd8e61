import fc from '../../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { negativeBinomialMoments } from '../../../src/statistics/counts/negative-binomial-moments.ts';
import { negativeBinomialUpperQuantile } from '../../../src/statistics/counts/negative-binomial-upper-quantile.ts';
import { poissonUpperQuantile } from '../../../src/statistics/counts/poisson-upper-quantile.ts';
import { expectWithin } from '../expect-within.ts';

/** Adds up masses, each from the one before, until they reach `share`. */
function bySumming(first: number, next: (mass: number, count: number) => number, share: number): number {
  let [count, mass, sum] = [0, first, first];
  while (sum < share) {
    count += 1;
    mass = next(mass, count);
    sum += mass;
  }
  return count;
}

const means = fc.double({ min: 0.01, max: 60, noNaN: true });
const shares = fc.double({ min: 0.01, max: 0.9999, noNaN: true });

describe('poissonUpperQuantile', () => {
  test('agrees with adding up the masses', () => {
    fc.assert(
      fc.property(means, shares, (mean, share) => {
        expect(poissonUpperQuantile(mean, share)).toBe(
          bySumming(Math.exp(-mean), (mass, k) => (mass * mean) / k, share),
        );
      }),
    );
  });

  test('no demand needs no stock', () => {
    expect(poissonUpperQuantile(0, 0.999)).toBe(0);
  });

  test('refuses what has no meaning', () => {
    expect(() => poissonUpperQuantile(-1, 0.9)).toThrow('Poisson quantile needs a finite mean of at least 0');
    expect(() => poissonUpperQuantile(1, 1)).toThrow('share between 0 and 1');
  });
});

describe('negativeBinomialUpperQuantile', () => {
  test('agrees with adding up the masses', () => {
    fc.assert(
      fc.property(means, fc.double({ min: 0.1, max: 50, noNaN: true }), shares, (mean, size, share) => {
        const q = mean / (size + mean);
        const first = (size / (size + mean)) ** size;
        expect(negativeBinomialUpperQuantile(mean, size, share)).toBe(
          bySumming(first, (mass, k) => (mass * q * (size + k - 1)) / k, share),
        );
      }),
    );
  });

  test('bunched demand needs more, and nears Poisson as the size grows', () => {
    const stock = [0.5, 2, 10, 1e6].map((size) => negativeBinomialUpperQuantile(8, size, 0.95));
    expect(stock).toEqual([...stock].sort((a, b) => b - a));
    expect(stock[0]).toBeGreaterThan(poissonUpperQuantile(8, 0.95));
    expect(stock.at(-1)).toBe(poissonUpperQuantile(8, 0.95));
  });

  test('no demand needs no stock', () => {
    expect(negativeBinomialUpperQuantile(0, 2, 0.99)).toBe(0);
  });

  test('refuses what has no meaning', () => {
    expect(() => negativeBinomialUpperQuantile(1, 0, 0.9)).toThrow('negative binomial quantile needs a finite size');
    expect(() => negativeBinomialUpperQuantile(NaN, 1, 0.9)).toThrow('finite mean');
    expect(() => negativeBinomialUpperQuantile(1, 1, 0)).toThrow('share between 0 and 1');
  });
});

describe('negativeBinomialMoments', () => {
  test('the fitted size gives the sample variance back', () => {
    const { mean, variance, size } = negativeBinomialMoments(Object.freeze([0, 0, 7, 1, 0, 12, 2, 0]));
    expectWithin(mean, 2.75, 1e-14);
    expectWithin(mean + mean ** 2 / size!, variance, 1e-12);
  });

  test('there is no size where the counts vary no more than Poisson', () => {
    expect(negativeBinomialMoments([3, 3, 4, 3, 3]).size).toBeUndefined();
    expect(negativeBinomialMoments([0, 0]).size).toBeUndefined();
  });

  test('refuses what has no meaning', () => {
    expect(() => negativeBinomialMoments([3])).toThrow('at least 2 readings');
    expect(() => negativeBinomialMoments([3, 1.5])).toThrow('moments of counts needs a whole count');
  });
});
