import { kaplanMeier } from '../statistics/survival/kaplan-meier.ts';
import type { Lifetimes } from '../statistics/survival/lifetimes.ts';
import { wilsonOfShare } from '../statistics/proportions/wilson-interval.ts';

/** The share of returned boards that come back within some days, with 95 % limits. */
export interface ComebackShare {
  readonly share: number;
  readonly lower: number;
  readonly upper: number;
  /** Until when at least half of the boards were watched, or had come back. */
  readonly days: number;
}

const FEWEST = 5;

/**
 * The share that comes back, by the curve of whether repairs hold, so that boards returned lately count for as long as they were watched. It is told
 * up to the day to which half of the boards were followed, as further on the curve rests on few.
 *
 * Limits are Wilson's by the curve's effective sample size, S (1 - S) / variance: Dorey and Korn 1987, Statistics in Medicine 6:679-687; with none
 * back, by those followed to that day.
 * @param lifetimes - in days, see {@link holdingTimes}
 * @returns undefined with fewer than five boards
 */
export function comebackShare(lifetimes: Lifetimes): ComebackShare | undefined {
  const { times } = lifetimes;
  if (times.length < FEWEST) return undefined;
  const sorted = Float64Array.from(times).sort();
  const days = sorted[Math.floor(sorted.length / 2)]!;
  const followed = sorted.filter((time) => time >= days).length;
  const last = kaplanMeier(lifetimes, 0.95).findLast(({ time }) => time <= days);
  if (last === undefined) return { share: 0, ...wilsonOfShare(0, followed, 0.95), days };
  const { survival, standardError } = last;
  const size = survival === 0 ? last.atRisk : (survival * (1 - survival)) / standardError ** 2;
  return { share: 1 - survival, ...wilsonOfShare(1 - survival, size, 0.95), days };
}
