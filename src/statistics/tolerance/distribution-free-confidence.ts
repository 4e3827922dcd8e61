import { incompleteBeta } from '../distributions/beta.ts';
import { requireEnough, requireShare, requireWhole } from '../numerics/guards.ts';

/**
 * Confidence with which the range of `n` readings, after `cut` ends are left off, holds at least the share `content` of
 * the population, whatever its continuous distribution.
 *
 * `cut` counts intervals between neighbouring readings that are given up: 1 for a one-sided limit at the extreme
 * reading, 2 for least to greatest, one more for each reading left off at either end. The content held is beta
 * distributed with n + 1 - cut and cut. Source: Wilks 1941, Annals of Mathematical Statistics 12:91-96.
 *
 * @throws Error with fewer than 1 reading, content outside 0 to 1, or cut below 1
 */
export function distributionFreeConfidence(n: number, cut: number, content: number): number {
  requireEnough('distribution-free limit', n, 1);
  requireWhole('distribution-free limit', 'cut', cut, 1);
  requireShare('distribution-free limit', 'content', content);
  return cut > n ? 0 : incompleteBeta(content, n + 1 - cut, cut).upper;
}
