import { describe, expect, test } from 'vitest';
import { twoGroupEvidence } from '../../../src/statistics/clusters/two-group-evidence.ts';
import { normalQuantile } from '../../../src/statistics/distributions/normal.ts';
import { expectWithin } from '../expect-within.ts';

/** The quantiles of a normal: a sample as even as it can be. */
const evenNormal = (n: number, mean: number, deviation: number): number[] =>
  Array.from({ length: n }, (_, i) => mean + deviation * normalQuantile((i + 0.5) / n));

/** Normal readings from a seeded generator. */
function randomNormal(seed: number, n: number): number[] {
  let state = seed;
  return Array.from({ length: n }, () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return normalQuantile((state + 0.5) / 2 ** 32);
  });
}

describe('twoGroupEvidence', () => {
  test('two groups apart are very strong evidence, with their means, shares and common deviation', () => {
    const readings = Object.freeze([...evenNormal(30, 5, 0.1), ...evenNormal(60, 6, 0.1)]);
    const { gain, groups, deviation } = twoGroupEvidence(readings, 0);
    expect(gain).toBeGreaterThan(10);
    expectWithin(groups[0].mean, 5, 1e-3);
    expectWithin(groups[1].mean, 6, 1e-3);
    expectWithin(groups[0].share, 1 / 3, 1e-3);
    expectWithin(deviation, 0.1, 0.02);
  });

  test('one even normal is no evidence for two', () => {
    expect(twoGroupEvidence(evenNormal(80, 12, 0.2), 0).gain).toBeLessThan(0);
  });

  test('one random normal seldom gains, and hardly ever more than 10', () => {
    const gains = Array.from({ length: 300 }, (_, i) => twoGroupEvidence(randomNormal(i * 7919 + 1, 40), 0).gain);
    expect(gains.filter((gain) => gain > 0).length).toBeLessThan(30);
    expect(gains.filter((gain) => gain > 10).length).toBeLessThan(3);
  });

  test('is the same in other units', () => {
    const readings = [...evenNormal(20, 5, 0.3), ...evenNormal(20, 6, 0.3)];
    const volts = twoGroupEvidence(readings, 0.01);
    const millivolts = twoGroupEvidence(
      readings.map((value) => 1000 * value),
      10,
    );
    expectWithin(millivolts.gain, volts.gain, 1e-6);
    expectWithin(millivolts.deviation, 1000 * volts.deviation, 1e-6);
  });

  test('does not take two neighbouring digits of a meter for two groups', () => {
    const digits = [5.01, 5.02, 5.01, 5.02, 5.02, 5.01, 5.01, 5.02, 5.02, 5.01, 5.01, 5.02];
    expect(twoGroupEvidence(digits, 0.01).gain).toBeLessThan(0);
    expect(twoGroupEvidence(digits, 0).gain).toBeGreaterThan(10);
  });

  test('one wild reading shows as a group of one', () => {
    const { groups } = twoGroupEvidence([...evenNormal(19, 5, 0.1), 9], 0.01);
    expectWithin(groups[1].share, 1 / 20, 1e-9);
    expectWithin(groups[1].mean, 9, 1e-9);
  });

  test('refuses what has no meaning', () => {
    expect(() => twoGroupEvidence([1, 2, 3], 0)).toThrow('two-group evidence needs at least 8 readings, got 3');
    expect(() => twoGroupEvidence([1, 1, 1, 1, 1, 1, 1, 1], 0)).toThrow(
      'two-group evidence needs readings that differ',
    );
    expect(() => twoGroupEvidence([1, 2, 3, 4, 5, 6, 7, NaN], 0)).toThrow('finite');
    expect(() => twoGroupEvidence([1, 2, 3, 4, 5, 6, 7, 8], -1)).toThrow('finite resolution of at least 0');
  });
});
