import { hypergeometricMasses } from '../distributions/hypergeometric.ts';
import { requireWhole } from '../numerics/guards.ts';

export interface FisherExact {
  /** P of a first cell as small as observed, or smaller. */
  readonly less: number;
  /** P of a first cell as large as observed, or larger. */
  readonly greater: number;
  /** P of all tables that are as unlikely as the observed one, or more so. */
  readonly twoSided: number;
}

/**
 * Fisher's exact test of the table (a b / c d): are rows and columns related, given their totals?
 *
 * Two-sided by the sum of all masses up to the observed one times (1 + 1e-7), which takes rounding ties in; doubling
 * the smaller tail is another convention. Source: Fisher 1935, The Design of Experiments, ch. 2. Cost: O(smallest
 * total).
 *
 * @throws Error when a count is negative or not whole
 */
export function fisherExact(a: number, b: number, c: number, d: number): FisherExact {
  for (const count of [a, b, c, d]) requireWhole("Fisher's exact test", 'count', count, 0);
  const { first, masses } = hypergeometricMasses(a + b, c + d, a + c);
  const observed = masses[a - first]!;
  const sum = (kept: readonly number[]): number =>
    Math.min(
      1,
      kept.reduce((total, mass) => total + mass, 0),
    );
  return {
    less: sum(masses.slice(0, a - first + 1)),
    greater: sum(masses.slice(a - first)),
    twoSided: sum(masses.filter((mass) => mass <= observed * (1 + 1e-7))),
  };
}
