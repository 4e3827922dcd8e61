import { finiteReadings } from '../numerics/guards.ts';
import { selectMedian } from '../numerics/select-median.ts';

/**
 * Median: the middle reading, or the mean of the two middle ones. Cost: O(n).
 *
 * @throws Error without readings, or when one is not finite
 */
export function median(values: ArrayLike<number>): number {
  return selectMedian(finiteReadings('median', values, 1));
}
