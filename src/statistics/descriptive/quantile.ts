import { quantileSorted } from 'simple-statistics';
import { finiteReadings } from '../numerics/guards.ts';

/**
 * Sample quantile, type 7 of Hyndman and Fan 1996 (The American Statistician 50:361-365): linear interpolation at
 * position (n - 1) p of the sorted readings. Cost: O(n log n).
 *
 * @param p 0 to 1, both ends included
 * @throws Error without readings, when one is not finite, or when p is outside 0 to 1
 */
export function quantile(values: ArrayLike<number>, p: number): number {
  const sorted = Float64Array.from(finiteReadings('quantile', values, 1)).sort();
  if (!(p >= 0 && p <= 1)) throw new Error(`quantile needs a p from 0 to 1, got ${String(p)}`);
  // The typings know plain arrays alone; the interpolation reads places and needs no more.
  return quantileSorted(sorted as unknown as number[], p);
}
