import { finiteReadings } from '../numerics/guards.ts';
import { selectMedian } from '../numerics/select-median.ts';

/**
 * Median absolute deviation from the median, raw: not scaled to a standard deviation. Cost: O(n).
 *
 * @throws Error without readings, or when one is not finite
 */
export function medianAbsoluteDeviation(values: ArrayLike<number>): number {
  const readings = finiteReadings('median absolute deviation', values, 1);
  const middle = selectMedian(readings);
  return selectMedian(readings.map((value) => Math.abs(value - middle)));
}
