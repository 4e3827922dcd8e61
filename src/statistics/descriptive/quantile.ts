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
  const readings = finiteReadings('quantile', values, 1);
  if (!(p >= 0 && p <= 1)) throw new Error(`quantile needs a p from 0 to 1, got ${String(p)}`);
  return quantileSorted(
    readings.sort((a, b) => a - b),
    p,
  );
}
