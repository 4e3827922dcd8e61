import { betaQuantile } from '../distributions/beta.ts';
import type { ShareInterval } from './interval.ts';
import { requireCounts } from './require-counts.ts';

/**
 * Jeffreys interval for a binomial share: equal tails of the beta distribution with successes + 1/2 and failures + 1/2,
 * reaching to 0 when there are no successes and to 1 when there are no failures.
 * Source: Brown, Cai and DasGupta 2001, Statistical Science 16:101-133.
 *
 * @throws Error unless 0 <= successes <= trials are whole, trials >= 1, and 0 < confidence < 1
 */
export function jeffreysInterval(successes: number, trials: number, confidence: number): ShareInterval {
  requireCounts('Jeffreys interval', successes, trials, confidence);
  const tail = (1 - confidence) / 2;
  const failures = trials - successes;
  return {
    lower: successes === 0 ? 0 : betaQuantile(tail, successes + 0.5, failures + 0.5),
    upper: failures === 0 ? 1 : betaQuantile(1 - tail, successes + 0.5, failures + 0.5),
  };
}
