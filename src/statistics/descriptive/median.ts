import { medianSorted } from 'simple-statistics';
import { finiteReadings } from '../numerics/guards.ts';

/**
 * Median: the middle reading, or the mean of the two middle ones. Cost: O(n log n).
 *
 * @throws Error without readings, or when one is not finite
 */
export function median(values: ArrayLike<number>): number {
  return medianSorted(finiteReadings('median', values, 1).sort((a, b) => a - b));
}
