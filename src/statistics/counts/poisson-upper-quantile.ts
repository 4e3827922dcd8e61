import { poissonCdf } from '../distributions/poisson.ts';
import { requireAtLeast, requireShare } from '../numerics/guards.ts';
import { smallestCount } from './smallest-count.ts';

/**
 * Upper quantile of the Poisson distribution: the fewest to keep in stock so that demand is met with at least the
 * probability `share`. Assumes demand whose variance equals its mean; see `negativeBinomialUpperQuantile` otherwise.
 * Source: Johnson, Kemp and Kotz 2005, Univariate Discrete Distributions, ch. 4.
 *
 * @param mean expected demand, at least 0
 * @throws Error when mean or share is outside its range
 */
export function poissonUpperQuantile(mean: number, share: number): number {
  requireAtLeast('Poisson quantile', 'mean', mean, 0);
  requireShare('Poisson quantile', 'share', share);
  return smallestCount((count) => poissonCdf(count, mean), share);
}
