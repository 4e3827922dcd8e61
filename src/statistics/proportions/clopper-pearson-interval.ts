import { betaQuantile } from '../distributions/beta.ts';
import type { ShareInterval } from './interval.ts';
import { requireCounts } from './require-counts.ts';

/**
 * Clopper-Pearson ("exact") interval for a binomial share, two-sided with equal tails: never covers less than the
 * stated confidence, often more. Source: Clopper and Pearson 1934, Biometrika 26:404-413, in its beta quantile form.
 *
 * @throws Error unless 0 <= successes <= trials are whole, trials >= 1, and 0 < confidence < 1
 */
export function clopperPearsonInterval(successes: number, trials: number, confidence: number): ShareInterval {
  requireCounts('Clopper-Pearson interval', successes, trials, confidence);
  const tail = (1 - confidence) / 2;
  const failures = trials - successes;
  return {
    lower: successes === 0 ? 0 : betaQuantile(tail, successes, failures + 1),
    upper: failures === 0 ? 1 : betaQuantile(1 - tail, successes + 1, failures),
  };
}
