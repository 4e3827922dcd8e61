import fc from '../../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { hypergeometricMasses } from '../../../src/statistics/distributions/hypergeometric.ts';
import { expectWithin } from '../expect-within.ts';

function choose(n: number, k: number): number {
  let result = 1;
  for (let i = 1; i <= k; i++) result = (result * (n - k + i)) / i;
  return result;
}

describe('hypergeometricMasses', () => {
  test('is the ratio of binomial coefficients at every point of its support', () => {
    const total = fc.integer({ min: 0, max: 12 });
    fc.assert(
      fc.property(total, total, fc.nat({ max: 24 }), (marked, unmarked, drawnAtMost) => {
        const drawn = Math.min(drawnAtMost, marked + unmarked);
        const { first, masses } = hypergeometricMasses(marked, unmarked, drawn);
        expect(first).toBe(Math.max(0, drawn - unmarked));
        expect(masses).toHaveLength(Math.min(drawn, marked) - first + 1);
        masses.forEach((mass, i) => {
          const k = first + i;
          expectWithin(
            mass,
            (choose(marked, k) * choose(unmarked, drawn - k)) / choose(marked + unmarked, drawn),
            1e-12,
          );
        });
      }),
    );
  });

  test('does not overflow for large totals', () => {
    const { masses } = hypergeometricMasses(5000, 5000, 5000);
    expect(masses.reduce((sum, mass) => sum + mass, 0)).toBeCloseTo(1, 12);
    expect(masses[2500]).toBeCloseTo(1 / Math.sqrt(2 * Math.PI * 625), 5);
  });
});
