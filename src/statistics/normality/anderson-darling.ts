import { mean } from '../descriptive/mean.ts';
import { sampleStandardDeviation } from '../descriptive/sample-standard-deviation.ts';
import { normalLogCdf } from '../distributions/normal.ts';
import { finiteReadings } from '../numerics/guards.ts';

export interface AndersonDarling {
  /** A squared, as computed. */
  readonly statistic: number;
  /**
   * A squared times (1 + 0.75 / n + 2.25 / n^2), the value that the p-value and the critical value 0.752 (5 %) belong
   * to.
   */
  readonly adjusted: number;
  /** Small when the readings are not normal. Below 3.7e-24 only the bound is given. */
  readonly p: number;
}

/**
 * Anderson-Darling test of normality, mean and standard deviation (n - 1) estimated from the readings ("case 3").
 *
 * Adjustment and p-value by D'Agostino and Stephens 1986, Goodness-of-Fit Techniques, table 4.9; Stephens' older factor
 * (1 + 4 / n - 25 / n^2, critical value 0.787) is another. Rounded readings make A squared larger. Cost: O(n log n).
 *
 * @throws Error with fewer than 8 readings, when one is not finite, or when all are equal
 */
export function andersonDarling(values: ArrayLike<number>): AndersonDarling {
  const readings = finiteReadings('Anderson-Darling test', values, 8).sort((a, b) => a - b);
  const n = readings.length;
  const centre = mean(readings);
  const spread = sampleStandardDeviation(readings);
  if (spread === 0) throw new Error('Anderson-Darling test needs readings that differ');
  let sum = 0;
  readings.forEach((value, i) => {
    const z = (value - centre) / spread;
    // Each reading counts once from below and, as its mirror image, once from above.
    sum += (2 * i + 1) * normalLogCdf(z) + (2 * (n - i) - 1) * normalLogCdf(-z);
  });
  const statistic = -n - sum / n;
  const adjusted = statistic * (1 + 0.75 / n + 2.25 / (n * n));
  return { statistic, adjusted, p: upperTail(adjusted) };
}

function upperTail(a: number): number {
  if (a < 0.2) return 1 - Math.exp(-13.436 + 101.14 * a - 223.73 * a * a);
  if (a < 0.34) return 1 - Math.exp(-8.318 + 42.796 * a - 59.938 * a * a);
  if (a < 0.6) return Math.exp(0.9177 - 4.279 * a - 1.38 * a * a);
  // The last polynomial turns upward far out, so it is followed to 10 only.
  const far = Math.min(a, 10);
  return Math.exp(1.2937 - 5.709 * far + 0.0186 * far * far);
}
