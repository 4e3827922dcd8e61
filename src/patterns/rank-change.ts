import { normalCdf } from '../statistics/distributions/normal.ts';
import { midRanks } from '../statistics/numerics/ranks.ts';

/** Where a level changed. */
export interface RankChange {
  /** Position of the first value after the change. */
  readonly at: number;
  /** Chance of so clear a change where there is none, at most: two-sided, times the number of splits tried (Bonferroni). */
  readonly p: number;
}

/**
 * One lasting change of level in values in order of time, by ranks, so that wild values do no harm: the split with the greatest standardised rank
 * sum. Source: Mann and Whitney 1947, Annals of Mathematical Statistics 18:50-60, normal approximation at every split, fair from about ten values
 * on either side; ties make it more cautious. Pettitt 1979, Applied Statistics 28:126-135, takes the greatest sum itself, which leans towards the
 * middle and overlooks an early or a late change. Cost: O(n log n).
 *
 * @param margin - fewest values on either side, at least 1
 * @returns undefined with fewer than twice as many
 */
export function rankChange(values: readonly number[], margin: number): RankChange | undefined {
  const n = values.length;
  if (n < 2 * margin) return undefined;
  let sum = 0;
  let [clearest, at] = [-1, margin];
  midRanks(values).forEach((rank, place) => {
    sum += rank;
    const before = place + 1;
    const after = n - before;
    if (before < margin || after < margin) return;
    const score = Math.abs(2 * sum - before * (n + 1)) / Math.sqrt((before * after * (n + 1)) / 3);
    if (score > clearest) [clearest, at] = [score, before];
  });
  const splits = n - 2 * margin + 1;
  return { at, p: Math.min(1, 2 * splits * normalCdf(-clearest)) };
}
