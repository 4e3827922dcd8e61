import fc from '../../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { betaQuantile, incompleteBeta } from '../../../src/statistics/distributions/beta.ts';
import { expectWithin } from '../expect-within.ts';

// Reference numbers computed with mpmath 1.3 at 40 digits.
describe('beta', () => {
  test.each([
    [0.5, 0.5, 0.3, 0.3690101195655454, 0.6309898804344546],
    [2, 3, 0.4, 0.5248, 0.4752],
    [81, 183, 0.3, 0.4114615980954786, 0.5885384019045214],
    [0.5, 20.5, 0.001, 0.15953930304016503, 0.840460696959835],
    [5000, 5000, 0.51, 0.9772579676754254, 0.022742032324574642],
    [200, 10000, 0.03, 0.9999999999766599, 2.33401046912669e-11],
    [1, 59, 0.05, 0.9515054747505768, 0.04849452524942324],
  ])('incompleteBeta with a %d, b %d at %d is right in both tails to 1e-12', (a, b, x, lower, upper) => {
    const result = incompleteBeta(x, a, b);
    expectWithin(result.lower, lower, 1e-12);
    expectWithin(result.upper, upper, 1e-12);
  });

  test.each([
    [0.025, 81, 183, 0.25273674558527116],
    [0.975, 0.5, 20.5, 0.11663898290487543],
    [0.025, 0.5, 20.5, 2.4246478459242744e-5],
    [0.999, 200, 10000, 0.024118935562315897],
    [0.5, 3, 7, 0.2862366680227827],
  ])('betaQuantile(%d) with a %d, b %d is right to 1e-13', (p, a, b, expected) => {
    expectWithin(betaQuantile(p, a, b), expected, 1e-13);
  });

  test('the ends are the ends', () => {
    expect(incompleteBeta(0, 2, 3)).toEqual({ lower: 0, upper: 1 });
    expect(incompleteBeta(1, 2, 3)).toEqual({ lower: 1, upper: 0 });
    expect([betaQuantile(0, 2, 3), betaQuantile(1, 2, 3)]).toEqual([0, 1]);
  });

  test('swapping a with b and x with 1 - x swaps the tails', () => {
    const parameter = fc.double({ min: 0.1, max: 500, noNaN: true });
    fc.assert(
      fc.property(parameter, parameter, fc.double({ min: 0.01, max: 0.99, noNaN: true }), (a, b, x) => {
        const one = incompleteBeta(x, a, b, 1 - x);
        const other = incompleteBeta(1 - x, b, a, x);
        expect(Math.abs(one.lower - other.upper)).toBeLessThan(1e-12);
        expect(Math.abs(one.upper - other.lower)).toBeLessThan(1e-12);
      }),
    );
  });
});
