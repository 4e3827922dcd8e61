import { distributionFreeConfidence } from './distribution-free-confidence.ts';
import { requireShare } from '../numerics/guards.ts';

/** 1: a limit on one side only; 2: limits on both sides. */
export type Sides = 1 | 2;

/**
 * Highest rank r whose r-th extreme (one side), or r-th least to r-th greatest (both sides), of `n` readings is still a
 * distribution-free tolerance limit with the given content and confidence; 0 when `n` is too few for any.
 *
 * The higher the rank, the more wild readings may lie outside and the tighter the limit. Source: Somerville 1958,
 * Annals of Mathematical Statistics 29:599-601. Cost: O(log n) incomplete beta functions.
 *
 * @throws Error with fewer than 1 reading, or when content or confidence is outside 0 to 1
 */
export function highestToleranceRank(n: number, content: number, confidence: number, sides: Sides): number {
  requireShare('tolerance rank', 'confidence', confidence);
  const holds = (rank: number): boolean => distributionFreeConfidence(n, sides * rank, content) >= confidence;
  let good = 0;
  let bad = n + 1;
  while (bad - good > 1) {
    const middle = Math.floor((good + bad) / 2);
    if (holds(middle)) good = middle;
    else bad = middle;
  }
  return good;
}
