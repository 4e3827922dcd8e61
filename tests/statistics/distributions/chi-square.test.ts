import { describe, expect, test } from 'vitest';
import {
  chiSquareCdf,
  chiSquareQuantile,
  chiSquareUpperTail,
} from '../../../src/statistics/distributions/chi-square.ts';
import { expectWithin } from '../expect-within.ts';

describe('chi-square', () => {
  // Computed with mpmath 1.3 at 40 digits; the first is printed as 23.650 in NIST/SEMATECH e-Handbook 7.2.6.3.
  test.each([
    [0.01, 42, 23.650094677826194],
    [0.05, 1, 0.003932140000019523],
    [1e-6, 1, 1.570796326795719e-12],
    [0.95, 3, 7.814727903251178],
    [0.001, 9, 1.1519495462235642],
    [0.999, 9, 27.87716487125657],
    [0.05, 9999, 9767.53676710613],
  ])('the %d quantile with %d degrees of freedom is right to 1e-13', (p, degrees, expected) => {
    expectWithin(chiSquareQuantile(p, degrees), expected, 1e-13);
  });

  test('with 2 degrees of freedom it is the exponential distribution', () => {
    expectWithin(chiSquareUpperTail(7, 2), Math.exp(-3.5), 1e-14);
    expectWithin(chiSquareCdf(0.001, 2), -Math.expm1(-0.0005), 1e-14);
  });

  test('both tails add up to 1', () => {
    for (const x of [0.1, 3, 40]) expect(chiSquareCdf(x, 5) + chiSquareUpperTail(x, 5)).toBeCloseTo(1, 15);
  });
});
