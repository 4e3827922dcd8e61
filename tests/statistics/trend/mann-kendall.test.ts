import fc from '../../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { mannKendall } from '../../../src/statistics/trend/mann-kendall.ts';
import { expectWithin } from '../expect-within.ts';

/** All orders of the numbers 0 to n - 1. */
function orders(n: number): number[][] {
  if (n === 0) return [[]];
  return orders(n - 1).flatMap((order) => Array.from({ length: n }, (_, at) => order.toSpliced(at, 0, n - 1)));
}

function score(values: readonly number[]): number {
  return values.reduce((sum, a, i) => sum + values.slice(i + 1).reduce((s, b) => s + Math.sign(b - a), 0), 0);
}

/** An ascending row in which neighbours are swapped until its score has come down to `s`. */
function orderWithScore(n: number, s: number): number[] {
  const order = Array.from({ length: n }, (_, i) => i);
  for (let at = 0; score(order) > s; at = (at + 1) % (n - 1)) {
    const [left, right] = [order[at]!, order[at + 1]!];
    if (left < right) order.splice(at, 2, right, left);
  }
  return order;
}

describe('mannKendall', () => {
  test('EPA QA/G-9S (EPA/240/B-06/003, 2006), p. 109, with ties: S 22, variance 155.33, Z 1.685', () => {
    const result = mannKendall(Object.freeze([10, 10, 10, 5, 10, 20, 18, 17, 15, 24, 15]));
    expect(result.s).toBe(22);
    expectWithin(result.variance, 155.333333333333, 1e-12);
    expectWithin(result.z, 1.68494978975381, 1e-12);
    expectWithin(result.p, 0.0919982592060549, 1e-12);
    expect(result.method).toBe('normal');
  });

  test('EPA QA/G-9S, small sample (data and the printed 0.117 from memory): S 6, one-sided 7/60', () => {
    const result = mannKendall([5, 6, 11, 8, 10]);
    expect(result.s).toBe(6);
    expectWithin(result.p, 14 / 60, 1e-14);
    expect(result.method).toBe('exact');
  });

  test.each([3, 4, 5, 6])('the exact p-value for %d readings is a count over all their orders', (n) => {
    const all = orders(n);
    const scores = all.map(score);
    for (const order of all.slice(0, 60)) {
      const s = score(order);
      const upper = scores.filter((other) => other >= Math.abs(s)).length / all.length;
      const result = mannKendall(order);
      expect(result.s).toBe(s);
      expectWithin(result.p, Math.min(1, 2 * upper), 1e-12);
    }
  });

  // Kendall 1975, Rank Correlation Methods, table of the upper tail of S; computed anew as exact fractions.
  test.each([
    [7, 11, 0.06805555555555555],
    [7, 15, 0.01507936507936508],
    [7, 21, 0.0001984126984126984],
    [8, 12, 0.08943452380952381],
    [8, 16, 0.03050595238095238],
    [8, 20, 0.007068452380952381],
    [8, 28, 2.48015873015873e-5],
  ])('of %d readings S of %d or more has the tabled chance', (n, s, tail) => {
    const result = mannKendall(orderWithScore(n, s));
    expect(result).toMatchObject({ s, method: 'exact' });
    expectWithin(result.p, 2 * tail, 1e-12);
  });

  test('without ties the variance is n (n - 1) (2 n + 5) / 18', () => {
    const { variance, method } = mannKendall(Array.from({ length: 12 }, (_, i) => (i * 5) % 12));
    expectWithin(variance, (12 * 11 * 29) / 18, 1e-12);
    expect(method).toBe('normal');
  });

  test('turning the readings round turns the sign, and leaves the p-value', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 3, maxLength: 25 }), (values) => {
        const forward = mannKendall(values);
        const backward = mannKendall(values.toReversed());
        expect(backward.s + forward.s).toBe(0);
        expect(backward.p).toBeCloseTo(forward.p, 12);
        expect(forward.p).toBeGreaterThanOrEqual(0);
        expect(forward.p).toBeLessThanOrEqual(1);
      }),
    );
  });

  test('equal readings have no trend', () => {
    expect(mannKendall([4, 4, 4, 4])).toEqual({ s: 0, variance: 0, z: 0, p: 1, method: 'normal' });
  });

  test('refuses fewer than 3 readings, and those that are not finite', () => {
    expect(() => mannKendall([1, 2])).toThrow('Mann-Kendall test needs at least 3 readings, got 2');
    expect(() => mannKendall([1, NaN, 2])).toThrow('finite');
  });
});
