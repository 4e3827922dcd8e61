import { describe, expect, test } from 'vitest';
import { Random } from './random.ts';

const many = (draw: () => number): number[] => Array.from({ length: 20_000 }, draw);
const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
const variance = (values: readonly number[]): number => {
  const middle = mean(values);
  return mean(values.map((value) => (value - middle) ** 2));
};

describe('Random', () => {
  test('gives the same numbers for the same seed and others for another', () => {
    const [first, again, other] = [new Random(7), new Random(7), new Random(8)].map((random) =>
      many(() => random.uniform()),
    );
    expect(again).toEqual(first);
    expect(other).not.toEqual(first);
  });

  // Means and variances are those of the distributions' definitions; the bounds are over five standard errors wide.
  test('draws from 0 up to 1 evenly', () => {
    const random = new Random(1);
    const values = many(() => random.uniform());
    expect(Math.min(...values)).toBeGreaterThanOrEqual(0);
    expect(Math.max(...values)).toBeLessThan(1);
    expect(Math.abs(mean(values) - 1 / 2)).toBeLessThan(0.011);
    expect(Math.abs(variance(values) - 1 / 12)).toBeLessThan(0.003);
  });

  test('draws normal numbers with the wanted mean, deviation and share within one deviation', () => {
    const random = new Random(2);
    const values = many(() => random.normal(10, 2));
    expect(Math.abs(mean(values) - 10)).toBeLessThan(0.08);
    expect(Math.abs(variance(values) - 4)).toBeLessThan(0.2);
    const within = values.filter((value) => Math.abs(value - 10) < 2).length / values.length;
    expect(Math.abs(within - 0.6827)).toBeLessThan(0.02);
  });

  test('draws exponential numbers with the wanted mean and a share of 1/e above it', () => {
    const random = new Random(3);
    const values = many(() => random.exponential(5));
    expect(Math.abs(mean(values) - 5)).toBeLessThan(0.2);
    expect(Math.abs(values.filter((value) => value > 5).length / values.length - Math.exp(-1))).toBeLessThan(0.018);
  });

  test('draws Poisson counts whose mean and variance are equal', () => {
    const random = new Random(4);
    const values = many(() => random.poisson(3));
    expect(Math.abs(mean(values) - 3)).toBeLessThan(0.065);
    expect(Math.abs(variance(values) - 3)).toBeLessThan(0.18);
  });

  test('picks by weight, and never what weighs nothing', () => {
    const random = new Random(5);
    const picks = Array.from({ length: 20_000 }, () => random.pick([['a', 3], ['b', 0], ['c', 1]])); // prettier-ignore
    expect(picks).not.toContain('b');
    expect(Math.abs(picks.filter((pick) => pick === 'a').length / picks.length - 3 / 4)).toBeLessThan(0.016);
  });

  test('refuses to pick from nothing', () => {
    expect(() => new Random(6).pick([])).toThrow(RangeError);
  });
});
