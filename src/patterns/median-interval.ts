import { incompleteBeta } from '../statistics/distributions/beta.ts';
import { median } from '../statistics/descriptive/median.ts';

/** A median with limits that hold whatever the distribution. */
export interface MedianInterval {
  readonly n: number;
  readonly median: number;
  readonly low: number;
  readonly high: number;
}

/**
 * Median with a distribution-free confidence interval: the widest-in pair of order statistics, equally far from both ends, that still has the
 * confidence, by the binomial law of the sign test. Source: David and Nagaraja 2003, Order Statistics, 3rd ed., 7.1. Cost: O(n log n).
 *
 * @returns undefined with too few values for the confidence (fewer than six for 95 %)
 */
export function medianInterval(values: readonly number[], confidence: number): MedianInterval | undefined {
  const n = values.length;
  const tail = (1 - confidence) / 2;
  // Chance that at most k of n lie below the median, rising in k.
  const atMost = (k: number): number => incompleteBeta(0.5, n - k, k + 1).lower;
  if (n === 0 || atMost(0) > tail) return undefined;
  let [inside, outside] = [0, Math.floor(n / 2) + 1];
  while (outside - inside > 1) {
    const middle = (inside + outside) >> 1;
    if (middle < n && atMost(middle) <= tail) inside = middle;
    else outside = middle;
  }
  const sorted = Float64Array.from(values).sort();
  return { n, median: median(values), low: sorted[inside]!, high: sorted[n - 1 - inside]! };
}
