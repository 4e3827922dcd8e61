import { median } from '../descriptive/median.ts';
import { mean } from '../descriptive/mean.ts';
import { finiteReadings } from '../numerics/guards.ts';

/**
 * Modified z-score of each reading: 0.6745 (x - median) / MAD, with the raw median absolute deviation. Beyond 3.5
 * either way a reading is labelled a possible outlier. Source: Iglewicz and Hoaglin 1993, How to Detect and Handle
 * Outliers.
 *
 * Where more than half of the readings agree, MAD is 0 and the formula has no value. Then (x - median) / (1.253314
 * times the mean absolute deviation about the median) is used, as common practice has it: 1.253314 is sqrt(pi / 2),
 * which makes that deviation estimate the standard deviation of a normal sample. Where all agree, every score is 0.
 * Cost: O(n log n).
 *
 * @throws Error without readings, or when one is not finite
 */
export function modifiedZScores(values: ArrayLike<number>): number[] {
  const readings = finiteReadings('modified z-score', values, 1);
  const middle = median(readings);
  const distances = readings.map((value) => Math.abs(value - middle));
  const deviation = median(distances);
  if (deviation > 0) return readings.map((value) => 0.6745 * ((value - middle) / deviation));
  const unit = mean(distances) * 1.253314;
  return readings.map((value) => (unit === 0 ? 0 : (value - middle) / unit));
}
