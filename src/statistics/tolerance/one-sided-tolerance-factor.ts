import { noncentralTQuantile } from '../distributions/noncentral-t.ts';
import { normalQuantile } from '../distributions/normal.ts';
import { requireEnough, requireShare } from '../numerics/guards.ts';

/**
 * Exact one-sided normal tolerance factor k: with the given confidence, at least the share `content` of a normal
 * population lies below mean + k s (or above mean - k s), where mean and s (n - 1) come from `n` readings of it.
 *
 * k is the `confidence` quantile of the noncentral t distribution with n - 1 degrees of freedom and noncentrality
 * z(content) sqrt(n), divided by sqrt(n). Source: Odeh and Owen 1980; NIST/SEMATECH e-Handbook 7.2.6.3.
 * Cost: O(sqrt(n)), well below a millisecond for ordinary n.
 *
 * @param n at least 2
 * @param content 0 to 1, for example 0.95
 * @param confidence 0 to 1, for example 0.95
 * @throws Error when n, content or confidence is outside its range
 */
export function oneSidedToleranceFactor(n: number, content: number, confidence: number): number {
  requireEnough('tolerance factor', n, 2);
  requireShare('tolerance factor', 'content', content);
  requireShare('tolerance factor', 'confidence', confidence);
  return noncentralTQuantile(confidence, n - 1, normalQuantile(content) * Math.sqrt(n)) / Math.sqrt(n);
}
