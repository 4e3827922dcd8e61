import { andersonDarling } from '../statistics/normality/anderson-darling.ts';
import { modifiedZScores } from '../statistics/outliers/modified-z-scores.ts';
import { generalizedEsd } from '../statistics/outliers/generalized-esd.ts';
import { spreadTies } from './spread-ties.ts';
import { FEWEST_FOR_NORMALITY, NORMALITY_LEVEL } from './tolerance-interval.ts';

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
const SCREENING_LEVEL = 0.001;
/** Rosner's test for several outliers is usable from here; below, one at most is looked for. */
const FEWEST_FOR_SEVERAL = 15;
const MOST = 10;
const FEWEST = 4;
/** What lies so far off by the modified z is no tail of any distribution but a slip (this project's choice). */
const NO_TAIL = 25;

/**
 * The outliers among readings by the generalised ESD test (Rosner 1983), in the order of removal; none among fewer than four.
 * The test holds for readings that are normal but for their outliers. Where those left are not, a far reading may belong to the tail of a
 * distribution that has one, so that only what no tail explains is taken out.
 * @param resolution - the step in which the readings come; 0 where unknown
 */
export function screenOutliers(values: readonly number[], resolution: number): readonly Screened[] {
  if (values.length < FEWEST) return [];
  const most = values.length < FEWEST_FOR_SEVERAL ? 1 : Math.min(MOST, Math.floor(values.length / 10) + 1);
  const { steps, outliers } = generalizedEsd(values, most, SCREENING_LEVEL);
  if (outliers.length === 0) return [];
  const scores = modifiedScores(values);
  const screened = steps
    .slice(0, outliers.length)
    .map(({ index, statistic, critical }) => ({ index, statistic, critical, modifiedZ: scores[index] ?? NaN }));
  const gone = new Set(outliers);
  const left = values.filter((_, index) => !gone.has(index));
  return mayBeNormal(left, resolution)
    ? screened
    : screened.filter(({ modifiedZ }) => !(Math.abs(modifiedZ) <= NO_TAIL));
}

function mayBeNormal(values: readonly number[], resolution: number): boolean {
  if (values.length < FEWEST_FOR_NORMALITY || values.every((value) => value === values[0])) return true;
  return andersonDarling(spreadTies(values, resolution)).p >= NORMALITY_LEVEL;
}

/** Modified z has no value where more than half of the readings are equal. */
function modifiedScores(values: readonly number[]): readonly number[] {
  try {
    return modifiedZScores(values);
  } catch {
    return [];
  }
}
