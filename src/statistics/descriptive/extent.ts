import { finiteReadings } from '../numerics/guards.ts';

/**
 * The least and the greatest reading. Cost: O(n).
 *
 * @throws Error without readings, or when one is not finite
 */
export function extent(values: ArrayLike<number>): { readonly min: number; readonly max: number } {
  let min = Infinity;
  let max = -Infinity;
  for (const value of finiteReadings('extent', values, 1)) {
    if (value < min) min = value;
    if (value > max) max = value;
  }
  return { min, max };
}
