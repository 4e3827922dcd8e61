import { chiSquareUpperTail } from '../distributions/chi-square.ts';
import { finiteReadings } from '../numerics/guards.ts';
import { midRanks, tieSizes } from '../numerics/ranks.ts';

export interface KruskalWallis {
  /** H, corrected for ties. */
  readonly h: number;
  /** Groups less one. */
  readonly degrees: number;
  /** Upper tail of chi-square: an approximation, fair from about 5 readings a group. */
  readonly p: number;
}

/**
 * Kruskal-Wallis rank test: do some of several groups tend to read higher than others? Equal readings share their mean
 * rank, and H is divided by the tie correction. Source: Kruskal and Wallis 1952, Journal of the American Statistical
 * Association 47:583-621. Cost: O(n log n).
 *
 * @throws Error with fewer than 2 groups, an empty group, a reading that is not finite, or all readings equal
 */
export function kruskalWallis(groups: readonly ArrayLike<number>[]): KruskalWallis {
  if (groups.length < 2) throw new Error(`Kruskal-Wallis test needs at least 2 groups, got ${String(groups.length)}`);
  const samples = groups.map((group) => finiteReadings('Kruskal-Wallis test, in each group,', group, 1));
  const all = samples.flat();
  const n = all.length;
  const ties = tieSizes(all).reduce((sum, size) => sum + size ** 3 - size, 0);
  if (ties === n ** 3 - n) throw new Error('Kruskal-Wallis test needs readings that differ');
  const ranks = midRanks(all);
  let start = 0;
  let sum = 0;
  for (const { length } of samples) {
    const mean = ranks.slice(start, start + length).reduce((total, rank) => total + rank, 0) / length;
    sum += length * (mean - (n + 1) / 2) ** 2;
    start += length;
  }
  const h = ((12 / (n * (n + 1))) * sum) / (1 - ties / (n ** 3 - n));
  const degrees = groups.length - 1;
  return { h, degrees, p: chiSquareUpperTail(h, degrees) };
}
