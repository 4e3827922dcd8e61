import { mean } from '../descriptive/mean.ts';
import { finiteReadings } from '../numerics/guards.ts';
import type { ControlLimits } from './limits.ts';

/** Mean range of two normal readings in standard deviations, d2 for n = 2, to the three places of the tables. */
const MEAN_RANGE_OF_TWO = 1.128;

/**
 * Limits of a control chart for single readings in order of time: the mean, and three mean moving ranges (of two) over
 * d2 = 1.128 either side. Source: NIST/SEMATECH e-Handbook 6.3.2.2. Cost: O(n).
 *
 * @throws Error with fewer than 2 readings, or when one is not finite
 */
export function individualsChartLimits(values: ArrayLike<number>): ControlLimits {
  const readings = finiteReadings('individuals chart', values, 2);
  const centre = mean(readings);
  const movingRanges = readings.slice(1).map((value, i) => Math.abs(value - readings[i]!));
  const reach = (3 * mean(movingRanges)) / MEAN_RANGE_OF_TWO;
  return { centre, lower: centre - reach, upper: centre + reach };
}
