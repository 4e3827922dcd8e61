import fc from '../../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { theilSen } from '../../../src/statistics/trend/theil-sen.ts';
import { kendallVariance } from '../../../src/statistics/trend/kendall-variance.ts';
import { expectWithin } from '../expect-within.ts';

const years = (n: number): number[] => Array.from({ length: n }, (_, i) => i + 1);

describe('theilSen', () => {
  test('cloud seeding, Hollander and Wolfe, ch. 9 (data from memory): slope -0.05625', () => {
    const { slope } = theilSen(Object.freeze(years(5)), Object.freeze([1.26, 1.27, 1.12, 1.16, 1.03]), 0.95);
    expectWithin(slope, -0.05625, 1e-12);
  });

  test('EPA QA/G-9S, p. 109 and small sample (the latter from memory): slopes 1.0 and 1.125', () => {
    expectWithin(theilSen(years(11), [10, 10, 10, 5, 10, 20, 18, 17, 15, 24, 15], 0.95).slope, 1, 1e-12);
    expectWithin(theilSen(years(5), [5, 6, 11, 8, 10], 0.95).slope, 1.125, 1e-12);
  });

  test('the limits are the slopes of the ranks in Gilbert 1987, 16.5, rounded outward', () => {
    // 10 slopes; C = 1.645 sqrt(16.667) = 6.715, so ranks 1 and 10 at 90 %; at 60 % C = 3.436: ranks 3 and 8.
    const y = [1.26, 1.27, 1.12, 1.16, 1.03];
    const wide = theilSen(years(5), y, 0.9);
    expectWithin(wide.lower, -0.15, 1e-12);
    expectWithin(wide.upper, 0.04, 1e-12);
    const narrow = theilSen(years(5), y, 0.6);
    expectWithin(narrow.lower, -0.08, 1e-12);
    expectWithin(narrow.upper, -1 / 30, 1e-12);
  });

  test('too few pairs for the confidence give no limits', () => {
    expect(theilSen([1, 2, 3], [1, 2, 4], 0.999)).toMatchObject({ lower: -Infinity, upper: Infinity });
  });

  test('finds a line exactly, whatever one wild reading in seven says', () => {
    const x = years(7);
    const y = x.map((value) => (value === 4 ? 1e6 : 3 - 2 * value));
    const line = theilSen(x, y, 0.9);
    expectWithin(line.slope, -2, 1e-12);
    expectWithin(line.intercept, 3, 1e-12);
  });

  test('a steeper scale scales slope and limits', () => {
    const point = fc.tuple(fc.integer({ min: 0, max: 20 }), fc.integer({ min: -50, max: 50 }));
    fc.assert(
      fc.property(fc.array(point, { minLength: 6, maxLength: 20 }), (points) => {
        const x = points.map(([value]) => value);
        fc.pre(new Set(x).size > 1);
        const y = points.map(([, value]) => value);
        const once = theilSen(x, y, 0.8);
        const thrice = theilSen(
          x,
          y.map((value) => 3 * value),
          0.8,
        );
        expectWithin(thrice.slope, 3 * once.slope, 1e-9);
        expect(once.lower).toBeLessThanOrEqual(once.slope);
        expect(once.upper).toBeGreaterThanOrEqual(once.slope);
      }),
    );
  });

  test('covers the true slope about as often as it says', () => {
    let seed = 12345;
    const uniform = (): number => {
      seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
      return seed / 2 ** 32;
    };
    let covered = 0;
    for (let round = 0; round < 1000; round++) {
      const y = years(20).map((x) => 0.3 * x + uniform() + uniform() + uniform());
      const { lower, upper } = theilSen(years(20), y, 0.9);
      if (lower <= 0.3 && 0.3 <= upper) covered += 1;
    }
    // 0.9 of 1000, with three standard deviations of the binomial.
    expect(covered).toBeGreaterThan(870);
    expect(covered).toBeLessThan(935);
  });

  test('refuses what has no meaning', () => {
    expect(() => theilSen([1], [1], 0.9)).toThrow('Theil-Sen slope needs at least 2 readings, got 1');
    expect(() => theilSen([1, 2], [1, 2, 3], 0.9)).toThrow('as many x as y, got 2 and 3');
    expect(() => theilSen([1, 1], [1, 2], 0.9)).toThrow('needs x that differ');
    expect(() => theilSen([1, 2], [1, NaN], 0.9)).toThrow('finite');
    expect(() => theilSen([1, 2], [1, 2], 1)).toThrow('confidence between 0 and 1');
  });
});

describe('kendallVariance', () => {
  test('with ties on both sides it is the variance over all orders', () => {
    const x = [1, 1, 2, 3, 3, 3];
    const y = [4, 4, 5, 5, 6, 7];
    const orders = (left: readonly number[]): number[][] =>
      left.length === 0
        ? [[]]
        : left.flatMap((first, i) => orders(left.toSpliced(i, 1)).map((rest) => [first, ...rest]));
    const scores = orders(y).map((order) => {
      let s = 0;
      for (let i = 0; i < 6; i++) {
        for (let j = i + 1; j < 6; j++) s += Math.sign(x[j]! - x[i]!) * Math.sign(order[j]! - order[i]!);
      }
      return s;
    });
    const variance = scores.reduce((sum, s) => sum + s * s, 0) / scores.length;
    expectWithin(kendallVariance(x, y), variance, 1e-12);
  });
});
