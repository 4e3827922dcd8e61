import { finiteReadings } from '../numerics/guards.ts';
import { distributionFreeConfidence } from './distribution-free-confidence.ts';
import { highestToleranceRank } from './highest-tolerance-rank.ts';

export interface DistributionFreeInterval {
  readonly lower: number;
  readonly upper: number;
  /** The limits are the readings of this rank from either end; 1 means least and greatest. */
  readonly rank: number;
  /** The confidence reached, at least the one asked for. */
  readonly confidence: number;
}

/**
 * Two-sided distribution-free tolerance interval: with at least the given confidence it holds at least the share
 * `content` of the population, whatever its continuous distribution. Takes as many readings off both ends as the
 * confidence allows; `undefined` when there are too few readings for any interval (Wilks 1941: 93 for 95 % and 95 %).
 * Source: Wilks 1941, Annals of Mathematical Statistics 12:91-96; Somerville 1958, ibid. 29:599-601. Cost: O(n log n).
 *
 * @throws Error without readings, when one is not finite, or when content or confidence is outside 0 to 1
 */
export function distributionFreeInterval(
  values: ArrayLike<number>,
  content: number,
  confidence: number,
): DistributionFreeInterval | undefined {
  const sorted = finiteReadings('distribution-free interval', values, 1).sort((a, b) => a - b);
  const rank = highestToleranceRank(sorted.length, content, confidence, 2);
  const lower = sorted[rank - 1];
  const upper = sorted[sorted.length - rank];
  if (lower === undefined || upper === undefined) return undefined;
  return { lower, upper, rank, confidence: distributionFreeConfidence(sorted.length, 2 * rank, content) };
}
