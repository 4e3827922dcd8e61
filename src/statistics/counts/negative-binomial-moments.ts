import { mean as meanOf } from '../descriptive/mean.ts';
import { sampleStandardDeviation } from '../descriptive/sample-standard-deviation.ts';
import { requireWhole } from '../numerics/guards.ts';

export interface CountMoments {
  readonly mean: number;
  /** Sample variance, divisor n - 1. */
  readonly variance: number;
  /**
   * Size of the negative binomial with these moments; undefined where the variance does not exceed the mean: use
   * Poisson.
   */
  readonly size: number | undefined;
}

/**
 * Negative binomial fitted to counts by the method of moments: size = mean^2 / (variance - mean).
 * Source: Anscombe 1950, Biometrika 37:358-382 (his method 1). Cost: O(n).
 *
 * @throws Error with fewer than 2 counts, or when one is negative or not whole
 */
export function negativeBinomialMoments(counts: ArrayLike<number>): CountMoments {
  const variance = sampleStandardDeviation(counts) ** 2;
  for (const count of Array.from(counts)) requireWhole('moments of counts', 'count', count, 0);
  const mean = meanOf(counts);
  return { mean, variance, size: variance > mean ? (mean * mean) / (variance - mean) : undefined };
}
