import { median } from '../statistics/descriptive/median.ts';
import type { ReadingLog } from '../columns/reading-log.ts';

/** What a check costs on this bench. */
export interface CheckSeconds {
  /** Median gap to the reading before it in the same repair, in seconds. */
  readonly seconds: number;
  /** How many gaps it rests on. */
  readonly gaps: number;
}

/** Longer gaps hold something else than the check, and count as this long, in seconds (common practice, no source). */
const LONGEST_GAP = 300;

/**
 * The seconds that each check takes, learned from the log's own timestamps, by check code. Gaps are winsorised from above at five minutes; gaps
 * of no length, as from times without seconds, are left out. Checks that were only ever the first of their repair have no entry.
 * @param rowsByRepair - rows of each repair, in order of time
 */
export function secondsPerCheck(
  log: ReadingLog,
  rowsByRepair: readonly ArrayLike<number>[],
): ReadonlyMap<number, CheckSeconds> {
  const gaps = new Map<number, number[]>();
  for (const rows of rowsByRepair) {
    for (let place = 1; place < rows.length; place += 1) {
      const row = rows[place]!;
      const gap = (log.time[row]! - log.time[rows[place - 1]!]!) / 1000;
      if (!(gap > 0)) continue;
      const check = log.check[row]!;
      const known = gaps.get(check);
      if (known) known.push(Math.min(gap, LONGEST_GAP));
      else gaps.set(check, [Math.min(gap, LONGEST_GAP)]);
    }
  }
  return new Map([...gaps].map(([check, own]) => [check, { seconds: median(own), gaps: own.length }]));
}
