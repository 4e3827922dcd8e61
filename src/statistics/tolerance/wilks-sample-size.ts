import { requireShare, requireWhole } from '../numerics/guards.ts';
import { distributionFreeConfidence } from './distribution-free-confidence.ts';
import type { Sides } from './highest-tolerance-rank.ts';

/**
 * Fewest readings whose `rank`-th extreme (one side), or `rank`-th least to `rank`-th greatest (both sides), is a
 * distribution-free tolerance limit with the given content and confidence. Rank 1 is the extreme reading itself.
 *
 * Source: Wilks 1941 and 1942, Annals of Mathematical Statistics 12:91-96 and 13:400-409; higher ranks Somerville 1958,
 * ibid. 29:599-601. Cost: O(log n) incomplete beta functions.
 *
 * @throws Error when content or confidence is outside 0 to 1, or rank below 1
 */
export function wilksSampleSize(content: number, confidence: number, sides: Sides, rank = 1): number {
  requireShare('sample size', 'content', content);
  requireShare('sample size', 'confidence', confidence);
  requireWhole('sample size', 'rank', rank, 1);
  const cut = sides * rank;
  const enough = (n: number): boolean => distributionFreeConfidence(n, cut, content) >= confidence;
  let tooFew = 0;
  let plenty = cut;
  while (!enough(plenty)) [tooFew, plenty] = [plenty, 2 * plenty];
  while (plenty - tooFew > 1) {
    const middle = Math.floor((tooFew + plenty) / 2);
    if (enough(middle)) plenty = middle;
    else tooFew = middle;
  }
  return plenty;
}
