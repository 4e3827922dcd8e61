import fc from '../../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { fisherExact } from '../../../src/statistics/significance/fisher-exact.ts';
import { expectWithin } from '../expect-within.ts';

const factorial = (n: number): bigint => (n < 2 ? 1n : BigInt(n) * factorial(n - 1));
const choose = (n: number, k: number): bigint =>
  k < 0 || k > n ? 0n : factorial(n) / (factorial(k) * factorial(n - k));

/**
 * The two-sided p-value by whole numbers: the ways of all tables that have as few ways as the observed one, over all
 * ways.
 */
function byWholeNumbers(a: number, b: number, c: number, d: number): number {
  const ways = (k: number): bigint => choose(a + b, k) * choose(c + d, a + c - k);
  let extreme = 0n;
  for (let k = 0; k <= a + c; k++) if (ways(k) <= ways(a)) extreme += ways(k);
  return Number(extreme) / Number(choose(a + b + c + d, a + c));
}

describe('fisherExact', () => {
  test('tea tasting, Fisher 1935, The Design of Experiments, ch. 2: 17/35, one-sided 17/70', () => {
    const { twoSided, greater } = fisherExact(3, 1, 1, 3);
    expectWithin(twoSided, 17 / 35, 1e-14);
    expectWithin(greater, 17 / 70, 1e-14);
  });

  test('tea tasting, all cups right: 1/35, one-sided 1/70', () => {
    const { twoSided, greater, less } = fisherExact(4, 0, 0, 4);
    expectWithin(twoSided, 1 / 35, 1e-14);
    expectWithin(greater, 1 / 70, 1e-14);
    expect(less).toBe(1);
  });

  test('criminal twins (Fisher, Statistical Methods for Research Workers)', () => {
    const { twoSided, less } = fisherExact(2, 15, 10, 3);
    expectWithin(twoSided, 0.000536724119143436, 1e-12);
    expectWithin(less, 0.000465180943362905, 1e-12);
  });

  test('8, 2 / 1, 5: 0.0350 (documentation of a general statistics library, recomputed)', () => {
    const { twoSided, greater } = fisherExact(8, 2, 1, 5);
    expectWithin(twoSided, 0.034965034965035, 1e-12);
    expectWithin(greater, 0.0244755244755245, 1e-12);
  });

  const count = fc.integer({ min: 0, max: 25 });

  test('agrees with whole-number arithmetic', () => {
    fc.assert(
      fc.property(count, count, count, count, (a, b, c, d) => {
        expectWithin(fisherExact(a, b, c, d).twoSided, byWholeNumbers(a, b, c, d), 1e-11);
      }),
    );
  });

  test('turning the table over leaves the two-sided value and swaps the sides', () => {
    fc.assert(
      fc.property(count, count, count, count, (a, b, c, d) => {
        const table = fisherExact(a, b, c, d);
        const turned = fisherExact(c, d, a, b);
        const transposed = fisherExact(a, c, b, d);
        expectWithin(turned.twoSided, table.twoSided, 1e-12);
        expectWithin(transposed.twoSided, table.twoSided, 1e-12);
        expectWithin(turned.less, table.greater, 1e-12);
      }),
    );
  });

  test('an empty diagonal is the most unlikely table: one of the 252 ways to choose 5 of 10', () => {
    expectWithin(fisherExact(0, 5, 5, 0).less, 1 / 252, 1e-12);
    expectWithin(fisherExact(0, 5, 5, 0).twoSided, 2 / 252, 1e-12);
    expectWithin(fisherExact(5, 0, 0, 5).greater, 1 / 252, 1e-12);
  });

  test('an empty row or column tells nothing, nor does no table at all', () => {
    const nothing = { less: 1, greater: 1, twoSided: 1 };
    expect(fisherExact(0, 0, 3, 4)).toEqual(nothing);
    expect(fisherExact(0, 5, 0, 7)).toEqual(nothing);
    expect(fisherExact(0, 0, 0, 0)).toEqual(nothing);
  });

  test('stays exact for large counts', () => {
    expectWithin(fisherExact(1000, 1000, 1000, 1000).twoSided, 1, 1e-12);
    expect(fisherExact(900, 100, 100, 900).twoSided).toBeLessThan(1e-250);
  });

  test('refuses counts that are not whole', () => {
    expect(() => fisherExact(1, 2, 3, -1)).toThrow("Fisher's exact test needs a whole count of at least 0, got -1");
    expect(() => fisherExact(1.5, 2, 3, 1)).toThrow('whole count');
  });
});
