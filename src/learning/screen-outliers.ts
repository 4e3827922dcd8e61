import { modifiedZScores } from '../statistics/outliers/modified-z-scores.ts';
import { generalizedEsd } from '../statistics/outliers/generalized-esd.ts';

/** A reading that screening takes out, and why. */
export interface Screened {
  /** Position in the readings given. */
  readonly index: number;
  /** Distance from the mean of what was left, in its standard deviations. */
  readonly statistic: number;
  /** The distance above which it is too far. */
  readonly critical: number;
  /** Modified z beside it (Iglewicz and Hoaglin 1993); beyond 3.5 is far. */
  readonly modifiedZ: number;
}

export interface Removed extends Screened {
  /** Whether the technician keeps it all the same. */
  readonly kept: boolean;
}

/** Strict, since each good reading wrongly screened makes the band too narrow: at 5 % one sample in twenty would lose its extreme. */
const LEVEL = 0.01;
/** Rosner's test for several outliers is usable from here; below, one at most is looked for. */
const FEWEST_FOR_SEVERAL = 15;
const MOST = 10;
const FEWEST = 4;

/** The outliers among readings by the generalised ESD test (Rosner 1983), in the order of removal; none among fewer than four. */
export function screenOutliers(values: readonly number[]): readonly Screened[] {
  if (values.length < FEWEST) return [];
  const most = values.length < FEWEST_FOR_SEVERAL ? 1 : Math.min(MOST, Math.floor(values.length / 10) + 1);
  const { steps, outliers } = generalizedEsd(values, most, LEVEL);
  if (outliers.length === 0) return [];
  const scores = modifiedScores(values);
  return steps
    .slice(0, outliers.length)
    .map(({ index, statistic, critical }) => ({ index, statistic, critical, modifiedZ: scores[index] ?? NaN }));
}

/** Modified z has no value where more than half of the readings are equal. */
function modifiedScores(values: readonly number[]): readonly number[] {
  try {
    return modifiedZScores(values);
  } catch {
    return [];
  }
}
