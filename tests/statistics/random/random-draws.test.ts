import { describe, expect, test } from 'vitest';
import { betaDraw, dirichletDraw, gammaDraw } from '../../../src/statistics/random/gamma-draw.ts';
import { seededUniform } from '../../../src/statistics/random/seeded-random.ts';

describe('random draws', () => {
  test('the same seed gives the same numbers, another gives others', () => {
    const take = (seed: number) => Array.from({ length: 4 }, seededUniform(seed));
    expect(take(3)).toEqual(take(3));
    expect(take(3)).not.toEqual(take(4));
  });

  test('uniform numbers fill sixteen bins evenly (chi-square of 15 degrees of freedom below its 99.9 % point, 37.70)', () => {
    const uniform = seededUniform(1);
    const bins = new Float64Array(16);
    for (let draw = 0; draw < 160_000; draw += 1) bins[Math.floor(uniform() * 16)]! += 1;
    expect(bins.reduce((sum, count) => sum + (count - 10_000) ** 2 / 10_000, 0)).toBeLessThan(37.7);
  });

  test.each([0.05, 0.4, 1, 3.5, 80])('a gamma law of shape %s has its shape for mean and for variance', (shape) => {
    const uniform = seededUniform(2);
    const draws = Array.from({ length: 60_000 }, () => gammaDraw(shape, uniform));
    const mean = draws.reduce((sum, draw) => sum + draw, 0) / draws.length;
    const variance = draws.reduce((sum, draw) => sum + (draw - mean) ** 2, 0) / draws.length;
    expect(Math.abs(mean - shape)).toBeLessThan(4 * Math.sqrt(shape / draws.length));
    // The fourth moment about the mean is 3 shape² + 6 shape.
    expect(Math.abs(variance - shape)).toBeLessThan(5 * Math.sqrt((2 * shape ** 2 + 6 * shape) / draws.length));
  });

  test('a Dirichlet law shares out one by its weights', () => {
    const uniform = seededUniform(5);
    const into = new Float64Array(3);
    const sums = new Float64Array(3);
    for (let draw = 0; draw < 20_000; draw += 1) {
      dirichletDraw([1, 3, 6], uniform, into);
      expect(into.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12);
      for (const [at, share] of into.entries()) sums[at]! += share;
    }
    [0.1, 0.3, 0.6].forEach((share, at) => {
      expect(sums[at]! / 20_000).toBeCloseTo(share, 2);
    });
  });

  // Rao's linkage data, 125 18 20 34 with chances (2+t)/4, (1-t)/4, (1-t)/4, t/4: Dempster, Laird and Rubin 1977, JRSS B 39:1-38, whose EM ends at
  // 0.6268; Tanner and Wong 1987, JASA 82:528-540, draw the posterior from a uniform prior by data augmentation.
  test('data augmentation draws the posterior of the linkage data', () => {
    const grid = Array.from({ length: 20_000 }, (_, at) => (at + 0.5) / 20_000);
    const log = (t: number) => 125 * Math.log(2 + t) + 38 * Math.log(1 - t) + 34 * Math.log(t);
    const mode = grid.reduce((best, t) => (log(t) > log(best) ? t : best));
    expect(mode).toBeCloseTo(0.6268, 4);
    const weights = grid.map((t) => Math.exp(log(t) - log(mode)));
    const whole = weights.reduce((sum, weight) => sum + weight, 0);
    const exact = grid.reduce((sum, t, at) => sum + t * weights[at]!, 0) / whole;
    const uniform = seededUniform(1977);
    let t = 0.5;
    let sum = 0;
    for (let draw = 0; draw < 20_000; draw += 1) {
      let linked = 0;
      for (let one = 0; one < 125; one += 1) if (uniform() < t / (2 + t)) linked += 1;
      t = betaDraw(linked + 34 + 1, 38 + 1, uniform);
      sum += t;
    }
    expect(sum / 20_000).toBeCloseTo(exact, 2);
  });
});
