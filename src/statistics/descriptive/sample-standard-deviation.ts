import { sampleStandardDeviation as twoPass } from 'simple-statistics';
import { finiteReadings } from '../numerics/guards.ts';

/**
 * Sample standard deviation, with divisor n - 1, in two passes: mean first, then squared deviations from it, so that
 * readings far from zero keep their digits. Cost: O(n).
 *
 * @throws Error with fewer than 2 readings, or when one is not finite
 */
export function sampleStandardDeviation(values: ArrayLike<number>): number {
  return twoPass(finiteReadings('standard deviation', values, 2));
}
