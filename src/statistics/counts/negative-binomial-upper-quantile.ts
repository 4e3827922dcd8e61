import { negativeBinomialCdf } from '../distributions/negative-binomial.ts';
import { requireAtLeast, requireShare } from '../numerics/guards.ts';
import { smallestCount } from './smallest-count.ts';

/**
 * Upper quantile of the negative binomial distribution: the fewest to keep in stock so that demand which comes in
 * batches, with variance mean + mean^2 / size, is met with at least the probability `share`.
 * Source: Johnson, Kemp and Kotz 2005, Univariate Discrete Distributions, ch. 5.
 *
 * @param mean expected demand, at least 0
 * @param size above 0; the smaller, the more bunched
 * @throws Error when mean, size or share is outside its range
 */
export function negativeBinomialUpperQuantile(mean: number, size: number, share: number): number {
  requireAtLeast('negative binomial quantile', 'mean', mean, 0);
  requireAtLeast('negative binomial quantile', 'size', size, Number.MIN_VALUE);
  requireShare('negative binomial quantile', 'share', share);
  return smallestCount((count) => negativeBinomialCdf(count, mean, size), share);
}
