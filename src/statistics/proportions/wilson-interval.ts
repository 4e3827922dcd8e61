import { normalQuantile } from '../distributions/normal.ts';
import type { ShareInterval } from './interval.ts';
import { requireCounts } from './require-counts.ts';

/**
 * Wilson score interval for a binomial share, two-sided, without continuity correction: covers the stated confidence
 * on average, for small counts too. Source: Wilson 1927, Journal of the American Statistical Association 22:209-212.
 *
 * @throws Error unless 0 <= successes <= trials are whole, trials >= 1, and 0 < confidence < 1
 */
export function wilsonInterval(successes: number, trials: number, confidence: number): ShareInterval {
  requireCounts('Wilson interval', successes, trials, confidence);
  return wilson(successes, trials, confidence);
}

/**
 * The same of a share told from an effective number of trials, which need not be whole.
 * @param share - 0 to 1
 * @param size - above 0
 */
export function wilsonOfShare(share: number, size: number, confidence: number): ShareInterval {
  return wilson(share >= 1 ? size : share * size, size, confidence);
}

function wilson(successes: number, trials: number, confidence: number): ShareInterval {
  const z = normalQuantile((1 + confidence) / 2);
  const centre = successes + 0.5 * z * z;
  const reach = z * Math.sqrt((successes * (trials - successes)) / trials + 0.25 * z * z);
  const whole = trials + z * z;
  return {
    lower: successes === 0 ? 0 : (centre - reach) / whole,
    upper: successes === trials ? 1 : (centre + reach) / whole,
  };
}
