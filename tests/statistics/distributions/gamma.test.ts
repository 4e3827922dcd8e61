import { describe, expect, test } from 'vitest';
import { incompleteGamma, logGamma } from '../../../src/statistics/distributions/gamma.ts';
import { expectWithin } from '../expect-within.ts';

// Reference numbers computed with mpmath 1.3 at 40 digits.
describe('gamma', () => {
  test.each([
    [0.001, 6.9071788853838537],
    [0.5, 0.5723649429247001],
    [1.5, -0.12078223763524522],
    [3, 0.6931471805599453],
    [10.3, 13.482036786138357],
    [1234.5, 7550.550901077895],
    [100000, 1051287.7089736569],
  ])('logGamma(%d) is right to 1e-14', (x, expected) => {
    expectWithin(logGamma(x), expected, 1e-14);
  });

  test('logGamma is 0 at 1 and at 2, to 1e-15', () => {
    expect(Math.abs(logGamma(1))).toBeLessThan(1e-15);
    expect(Math.abs(logGamma(2))).toBeLessThan(1e-15);
  });

  test.each([
    [0.5, 0.1, 0.34527915398142297, 0.654720846018577],
    [0.5, 8, 0.9999366575163338, 6.334248366623984e-5],
    [3, 2.5, 0.4561868841166705, 0.5438131158833295],
    [10, 20, 0.9950045876916924, 0.0049954123083075872],
    [100, 80, 0.017108313035133114, 0.9828916869648669],
    [4999.5, 5100, 0.9217071047846184, 0.07829289521538157],
    [4999.5, 4700, 7.847164746481581e-6, 0.9999921528352535],
  ])('incompleteGamma(%d, %d) is right in both tails to 1e-13', (shape, x, lower, upper) => {
    const result = incompleteGamma(shape, x);
    expectWithin(result.lower, lower, 1e-13);
    expectWithin(result.upper, upper, 1e-13);
  });

  test('incompleteGamma is 0 and 1 at 0', () => {
    expect(incompleteGamma(2, 0)).toEqual({ lower: 0, upper: 1 });
  });
});
