import fc from '../../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { kruskalWallis } from '../../../src/statistics/significance/kruskal-wallis.ts';
import { expectWithin } from '../expect-within.ts';

describe('kruskalWallis', () => {
  test('mucociliary efficiency, Hollander and Wolfe 1973, p. 115 (data and the printed 0.77, 0.68 from memory)', () => {
    const groups = [
      [2.9, 3.0, 2.5, 2.6, 3.2],
      [3.8, 2.7, 4.0, 2.4],
      [2.8, 3.4, 3.7, 2.2, 2.0],
    ];
    const { h, degrees, p } = kruskalWallis(Object.freeze(groups.map((group) => Object.freeze(group))));
    expectWithin(h, 0.771428571428572, 1e-12);
    expect(degrees).toBe(2);
    expectWithin(p, 0.679964773578894, 1e-12);
  });

  test('with ties H is (n - 1) times the share of the rank variance that lies between groups', () => {
    const group = fc.array(fc.integer({ min: 0, max: 6 }), { minLength: 1, maxLength: 8 });
    fc.assert(
      fc.property(fc.array(group, { minLength: 2, maxLength: 5 }), (groups) => {
        const all = groups.flat();
        fc.pre(new Set(all).size > 1);
        const rank = (value: number): number =>
          all.filter((v) => v < value).length + (all.filter((v) => v === value).length + 1) / 2;
        const centre = (all.length + 1) / 2;
        const whole = all.reduce((sum, value) => sum + (rank(value) - centre) ** 2, 0);
        const between = groups.reduce((sum, values) => {
          const average = values.reduce((s, value) => s + rank(value), 0) / values.length;
          return sum + values.length * (average - centre) ** 2;
        }, 0);
        expect(kruskalWallis(groups).h).toBeCloseTo(((all.length - 1) * between) / whole, 9);
      }),
    );
  });

  test('refuses what has no meaning', () => {
    expect(() => kruskalWallis([[1, 2]])).toThrow('Kruskal-Wallis test needs at least 2 groups, got 1');
    expect(() => kruskalWallis([[1, 2], []])).toThrow('in each group, needs at least 1 reading, got 0');
    expect(() => kruskalWallis([[1], [NaN]])).toThrow('finite');
    expect(() => kruskalWallis([[1, 1], [1]])).toThrow('needs readings that differ');
  });
});
