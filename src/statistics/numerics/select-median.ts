import { quickselect } from 'simple-statistics';

/**
 * The middle one of some numbers, or the mean of the two middle ones, exactly; `NaN` of none. The numbers change their
 * places. By Floyd and Rivest's selection (Communications of the ACM 18, 1975, algorithm 489). Cost: O(n).
 *
 * @param values finite numbers, which the caller vouches for
 */
export function selectMedian(values: Float64Array | number[]): number {
  const { length } = values;
  if (length === 0) return NaN;
  const half = length >> 1;
  // The typings know plain arrays alone; the algorithm swaps items and needs no more.
  quickselect(values as number[], half);
  if (length % 2 === 1) return values[half]!;
  // All that stands before the upper middle one is at most as large: the lower middle one is the largest of that.
  let lower = values[0]!;
  for (let at = 1; at < half; at += 1) if (values[at]! > lower) lower = values[at]!;
  return (lower + values[half]!) / 2;
}
