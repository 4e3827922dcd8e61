import { normalCdf } from '../distributions/normal.ts';
import { finiteReadings } from '../numerics/guards.ts';
import { kendallVariance } from './kendall-variance.ts';

export interface MannKendall {
  /** Rising pairs less falling pairs: positive for an upward trend. */
  readonly s: number;
  /** Variance of s without a trend, ties allowed for. */
  readonly variance: number;
  /** (s -+ 1) / sqrt(variance): standard normal score with continuity correction, 0 where s is 0. */
  readonly z: number;
  /** Two-sided p-value. */
  readonly p: number;
  /** `exact` for up to 10 readings without ties, else `normal`. */
  readonly method: 'exact' | 'normal';
}

/**
 * Mann-Kendall test for a steady upward or downward trend in readings given in order of time, of any shape.
 *
 * Source: Mann 1945, Econometrica 13:245-259; Kendall 1975, Rank Correlation Methods; ties, continuity correction and
 * the exact table for up to 10 as in Gilbert 1987, Statistical Methods for Environmental Pollution Monitoring, 16.4.
 * Cost: O(n^2).
 *
 * @throws Error with fewer than 3 readings, or when one is not finite
 */
export function mannKendall(values: ArrayLike<number>): MannKendall {
  const readings = finiteReadings('Mann-Kendall test', values, 3);
  const n = readings.length;
  let s = 0;
  for (let earlier = 0; earlier < n; earlier += 1) {
    const from = readings[earlier]!;
    for (let later = earlier + 1; later < n; later += 1) {
      const to = readings[later]!;
      if (to > from) s += 1;
      else if (to < from) s -= 1;
    }
  }
  const variance = kendallVariance(
    readings.map((_, i) => i),
    readings,
  );
  const z = s === 0 ? 0 : (s - Math.sign(s)) / Math.sqrt(variance);
  if (n <= 10 && new Set(readings).size === n) {
    return { s, variance, z, p: Math.min(1, 2 * exactUpperTail(n, Math.abs(s))), method: 'exact' };
  }
  return { s, variance, z, p: s === 0 ? 1 : 2 * normalCdf(-Math.abs(z)), method: 'normal' };
}

/** P(S >= s) over all orders of n different readings, from the number of orders with each count of falling pairs. */
function exactUpperTail(n: number, s: number): number {
  // orders[d] orders have d falling pairs; the k-th reading added can fall below 0 to k - 1 earlier ones.
  let orders = [1];
  for (let k = 2; k <= n; k++) {
    const grown = new Array<number>(orders.length + k - 1).fill(0);
    orders.forEach((count, d) => {
      for (let fallen = 0; fallen < k; fallen++) grown[d + fallen] = (grown[d + fallen] ?? 0) + count;
    });
    orders = grown;
  }
  const most = ((n * (n - 1)) / 2 - s) / 2;
  const total = orders.reduce((sum, count) => sum + count, 0);
  return orders.slice(0, most + 1).reduce((sum, count) => sum + count, 0) / total;
}
