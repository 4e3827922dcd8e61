import { mean } from '../descriptive/mean.ts';
import { sampleStandardDeviation } from '../descriptive/sample-standard-deviation.ts';
import { studentTQuantile } from '../distributions/student-t.ts';
import { finiteReadings, requireShare, requireWhole } from '../numerics/guards.ts';

/**
 * One step: the reading then farthest from the mean, how far in standard deviations, and the value that would be too
 * far.
 */
export interface EsdStep {
  readonly index: number;
  readonly statistic: number;
  readonly critical: number;
}

export interface EsdResult {
  /** All steps, also those after the last significant one. */
  readonly steps: readonly EsdStep[];
  /** Positions of the outliers in the input, in the order of removal. */
  readonly outliers: readonly number[];
}

/**
 * Generalised extreme studentised deviate test for up to `most` outliers, on either side, in a sample that is normal
 * but for them.
 *
 * The number of outliers is the *last* step whose statistic exceeds its critical value, not the first failure: outliers
 * can mask one another. With `most` = 1 it is the two-sided Grubbs test (Grubbs 1969, Technometrics 11:1-21).
 * Source: Rosner 1983, Technometrics 25:165-172; accurate from about 25 readings, usable from 15. Cost: O(most n).
 *
 * @param most at least 1, at most n - 2
 * @param level significance, for example 0.05
 * @throws Error with fewer than most + 2 readings, when one is not finite, or when most or level is outside its range
 */
export function generalizedEsd(values: ArrayLike<number>, most: number, level: number): EsdResult {
  requireWhole('extreme studentised deviate test', 'number of outliers', most, 1);
  requireShare('extreme studentised deviate test', 'level', level);
  const readings = finiteReadings('extreme studentised deviate test', values, most + 2);
  const left = readings.map((value, index) => ({ value, index }));
  const steps: EsdStep[] = [];
  for (let step = 0; step < most; step++) {
    const kept = left.map(({ value }) => value);
    const centre = mean(kept);
    const spread = sampleStandardDeviation(kept);
    let farthest = 0;
    let distance = 0;
    kept.forEach((value, place) => {
      if (Math.abs(value - centre) > distance) [farthest, distance] = [place, Math.abs(value - centre)];
    });
    const removed = left.splice(farthest, 1);
    for (const { index } of removed) {
      steps.push({
        index,
        statistic: spread === 0 ? 0 : distance / spread,
        critical: criticalValue(kept.length, level),
      });
    }
  }
  const count = 1 + steps.findLastIndex(({ statistic, critical }) => statistic > critical);
  return { steps, outliers: steps.slice(0, count).map(({ index }) => index) };
}

/** Rosner's lambda for a step that sees `n` readings. */
function criticalValue(n: number, level: number): number {
  const t = -studentTQuantile(level / (2 * n), n - 2);
  return ((n - 1) * t) / Math.sqrt((n - 2 + t * t) * n);
}
