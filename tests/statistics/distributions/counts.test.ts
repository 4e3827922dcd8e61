import { describe, test } from 'vitest';
import { negativeBinomialCdf } from '../../../src/statistics/distributions/negative-binomial.ts';
import { poissonCdf } from '../../../src/statistics/distributions/poisson.ts';
import { binomialMass, poissonMass } from '../../../src/statistics/distributions/saddle-point.ts';
import { expectWithin } from '../expect-within.ts';

// Reference numbers computed with mpmath 1.3 at 40 digits.
describe('distributions of counts', () => {
  test.each([
    [0, 0.5, 0.6065306597126334],
    [7, 3.2, 0.9831701582510425],
    [120, 100, 0.9773306709216473],
  ])('P(X <= %d) of a Poisson with mean %d is right to 1e-13', (count, mean, expected) => {
    expectWithin(poissonCdf(count, mean), expected, 1e-13);
  });

  test.each([
    [0, 2, 0.8, 0.3670671877495541],
    [5, 2, 0.8, 0.9043826138489222],
    [40, 30, 5.5, 0.795505546283194],
  ])('P(X <= %d) of a negative binomial with mean %d, size %d is right to 1e-13', (count, mean, size, expected) => {
    expectWithin(negativeBinomialCdf(count, mean, size), expected, 1e-13);
  });

  test('the Poisson masses are mean^x e^-mean / x!', () => {
    let mass = Math.exp(-3.2);
    for (let x = 0; x < 60; x++) {
      expectWithin(poissonMass(x, 3.2), mass, 1e-13);
      mass *= 3.2 / (x + 1);
    }
    expectWithin(poissonMass(4, 0), 0, 0);
  });

  test('the binomial masses are the terms of (p + q)^n', () => {
    let mass = 0.7 ** 20;
    for (let x = 1; x < 20; x++) {
      mass *= ((21 - x) / x) * (0.3 / 0.7);
      expectWithin(binomialMass(x, 20, 0.3, 0.7), mass, 1e-13);
    }
  });
});
