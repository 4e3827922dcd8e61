import type { Limits } from '../domain/band.ts';
import { mean } from '../statistics/descriptive/mean.ts';
import { sampleStandardDeviation } from '../statistics/descriptive/sample-standard-deviation.ts';
import { andersonDarling } from '../statistics/normality/anderson-darling.ts';
import { highestToleranceRank } from '../statistics/tolerance/highest-tolerance-rank.ts';
import { oneSidedToleranceFactor } from '../statistics/tolerance/one-sided-tolerance-factor.ts';
import { twoSidedToleranceFactor } from '../statistics/tolerance/two-sided-tolerance-factor.ts';
import { wilksSampleSize } from '../statistics/tolerance/wilks-sample-size.ts';
import { spreadTies } from './spread-ties.ts';

/** Which side of a band is wanted. */
export type BandSides = 'both' | 'at least' | 'at most';

/** What a band shall hold: a share `content` of boards, with `confidence`, on one side or both. */
export interface Coverage {
  readonly content: number;
  readonly confidence: number;
  readonly sides: BandSides;
}

export interface ToleranceInterval extends Limits {
  readonly method: 'normal' | 'distribution-free';
  /** Anderson–Darling p, where there were enough readings to tell. */
  readonly normality?: number;
  /** Whether the readings are not normal and yet too few for a distribution-free interval, so that the normal one is a stopgap. */
  readonly stopgap: boolean;
}

export const NORMALITY_LEVEL = 0.05;
/** Where a distribution-free interval can be had instead, the normal one must be backed by more than a test that did not say no. */
const CLEARLY_NORMAL = 0.25;
/** The Anderson–Darling test has no power below this. */
export const FEWEST_FOR_NORMALITY = 8;

/**
 * The interval that holds the wanted share of boards: normal with the exact factor where the readings look normal, else distribution-free
 * (Wilks 1941). With enough readings for that they must look the more normal.
 * @param readings - at least two, not all equal
 * @param resolution - the step in which they come; 0 where unknown
 */
export function toleranceInterval(
  readings: readonly number[],
  coverage: Coverage,
  resolution: number,
): ToleranceInterval {
  const normality =
    readings.length < FEWEST_FOR_NORMALITY ? undefined : andersonDarling(spreadTies(readings, resolution)).p;
  const isNormal = normality === undefined || normality >= NORMALITY_LEVEL;
  const isClear = normality === undefined || normality >= CLEARLY_NORMAL;
  const free = isClear ? undefined : distributionFree(readings, coverage);
  return {
    ...(free ?? normal(readings, coverage)),
    method: free ? 'distribution-free' : 'normal',
    ...(normality !== undefined && { normality }),
    stopgap: !isNormal && free === undefined,
  };
}

/**
 * How many more readings are wanted before a normal interval of these readings' spread is no wider than `promised` on either side of its middle;
 * `Infinity` where the spread itself is wider than that.
 */
export function readingsUntil(promised: number, readings: readonly number[], coverage: Coverage): number {
  const spread = sampleStandardDeviation(readings);
  const fits = (n: number): boolean => toleranceFactor(n, coverage) * spread <= promised;
  if (fits(readings.length)) return 0;
  if (!fits(MOST_READINGS)) return Infinity;
  let few = readings.length;
  let enough = MOST_READINGS;
  while (enough - few > 1) {
    const middle = Math.floor((few + enough) / 2);
    if (fits(middle)) enough = middle;
    else few = middle;
  }
  return enough - readings.length;
}

const MOST_READINGS = 10_000;

/** How many readings a distribution-free interval needs. */
export function distributionFreeNeeds({ content, confidence, sides }: Coverage): number {
  return wilksSampleSize(content, confidence, sides === 'both' ? 2 : 1);
}

function toleranceFactor(n: number, { content, confidence, sides }: Coverage): number {
  return sides === 'both'
    ? twoSidedToleranceFactor(n, content, confidence)
    : oneSidedToleranceFactor(n, content, confidence);
}

function normal(readings: readonly number[], coverage: Coverage): Limits {
  const centre = mean(readings);
  const reach = toleranceFactor(readings.length, coverage) * sampleStandardDeviation(readings);
  return onSides(centre - reach, centre + reach, coverage.sides);
}

function distributionFree(readings: readonly number[], { content, confidence, sides }: Coverage): Limits | undefined {
  const sorted = [...readings].sort((a, b) => a - b);
  const rank = highestToleranceRank(sorted.length, content, confidence, sides === 'both' ? 2 : 1);
  const low = sorted[rank - 1];
  const high = sorted[sorted.length - rank];
  return low === undefined || high === undefined ? undefined : onSides(low, high, sides);
}

function onSides(low: number, high: number, sides: BandSides): Limits {
  return { low: sides === 'at most' ? -Infinity : low, high: sides === 'at least' ? Infinity : high };
}
