import { mean as compensatedMean } from 'simple-statistics';
import { finiteReadings } from '../numerics/guards.ts';

/**
 * Arithmetic mean, by the compensated (Kahan-Babuska) sum. Cost: O(n).
 *
 * @throws Error without readings, or when one is not finite
 */
export function mean(values: ArrayLike<number>): number {
  return compensatedMean(finiteReadings('mean', values, 1));
}
