import type { Expectation, Limits } from '../domain/band.ts';
import { scaleBy } from '../domain/quantity.ts';
import { twoGroupEvidence } from '../statistics/clusters/two-group-evidence.ts';
import { extent } from '../statistics/descriptive/extent.ts';
import { screenOutliers, type Removed } from './screen-outliers.ts';
import {
  distributionFreeNeeds,
  readingsUntil,
  toleranceInterval,
  type Coverage,
  type ToleranceInterval,
} from './tolerance-interval.ts';

export interface ProposalSettings extends Coverage {
  /** Positions of screened readings that the technician keeps all the same. */
  readonly kept: ReadonlySet<number>;
  /** Half the width that the board's marking promises, in the SI unit, where it is known. */
  readonly promised?: number;
}

export const DEFAULT_SETTINGS: ProposalSettings = { content: 0.95, confidence: 0.95, sides: 'both', kept: new Set() };

/** Readings of boards known to be good, at one check. */
export interface GoodReadings {
  /** In the SI unit, meters' known offsets put right. */
  readonly values: readonly number[];
  /** How many more read over-range: a share, never numbers. */
  readonly overRange: number;
  /** Power of ten of the coarsest last digit among them. */
  readonly lastDigit: number;
  /** A range limit that an over-range reading stated, in the SI unit, where known. */
  readonly rangeLimit?: number;
  /** Whether what is measured cannot be negative, as a resistance cannot; a lower limit at or under zero is then left out. */
  readonly nonNegative?: boolean;
  /** Above which an answer counts as an open circuit, where no range limit is known; absent where over-range is none, as in volts. */
  readonly openAbove?: number;
}

/** A band for a check, with what backs it. */
export interface Proposal {
  readonly expects: Expectation;
  /** The limits before rounding outward to the meter's digit. */
  readonly exact: Limits;
  readonly method: ToleranceInterval['method'] | 'open';
  readonly scale: 'linear' | 'log';
  /** Readings used, after screening; over-range ones apart. */
  readonly count: number;
  readonly overRange: number;
  readonly removed: readonly Removed[];
  readonly normality?: number;
  /** Whether the readings are not normal and too few for anything but a normal interval. */
  readonly stopgap: boolean;
  /** The two centres, where the readings look like two revisions of a board mixed together. */
  readonly twoGroups?: readonly [number, number];
  /** Boards still wanted before the band is as narrow as promised, or stands without assuming normality; `Infinity` where no number will do. */
  readonly boardsWanted: number;
}

/** Up to this share of readings over range a band keeps its upper limit, and above the rest of it asks for an open circuit. */
const FEW_OVER_RANGE = 0.05;
/** Readings that reach over more than this ratio span decades and are treated by their logarithms. */
const DECADE = 10;
/** A difference in BIC above 10 is very strong evidence of two groups (Kass and Raftery 1995). */
const VERY_STRONG = 10;
const FEWEST_FOR_GROUPS = 20;
const ENOUGH_FOR_GROUPS = 1000;

/**
 * Proposes a band from readings of known-good boards. Readings that nearly all read over-range ask for an open circuit; the others are screened
 * for outliers (generalised ESD, on the logarithms where they span decades) and given a tolerance interval, rounded outward to the meter's digit.
 * @throws Error with fewer than two readings, where all are equal or nearly all are over a range that means nothing, as a sentence for the
 * technician
 */
export function proposeBand(good: GoodReadings, settings: ProposalSettings = DEFAULT_SETTINGS): Proposal {
  const total = good.values.length + good.overRange;
  if (total < 2) {
    throw new Error(
      `A band needs readings of at least two good boards, and there ${total === 1 ? 'is one' : 'are none'}.`,
    );
  }
  if (good.overRange / total >= 1 - FEW_OVER_RANGE) return proposeOpen(good);
  const { min, max } = extent(good.values);
  if (good.values.length === 1)
    throw new Error('Only one reading here is a number, which tells no spread: more boards are wanted, or type it in.');
  if (min === max) throw new Error('All readings here are the same number, which tells no spread: type the band in.');

  const scale = min > 0 && spansDecades(good.values) ? LOG : LINEAR;
  const coverage = {
    ...settings,
    sides: good.overRange / total > FEW_OVER_RANGE ? 'at least' : settings.sides,
  } as const;
  const scaled = good.values.map(scale.to);
  const resolution = scale === LINEAR ? scaleBy(1, good.lastDigit) : 0;
  const removed = screenOutliers(scaled, resolution).map((one) => ({ ...one, kept: settings.kept.has(one.index) }));
  const gone = new Set(removed.filter((one) => !one.kept).map((one) => one.index));
  const used = scaled.filter((_, index) => !gone.has(index));
  if (used.every((value) => value === used[0]))
    throw new Error(
      'All readings here but a few far ones are the same number, which tells no spread: type the band in.',
    );
  const interval = toleranceInterval(used, coverage, resolution);
  const exact = { low: scale.from(interval.low), high: scale.from(interval.high) };
  if (good.nonNegative && exact.low <= 0 && exact.high === Infinity)
    throw new Error('These readings reach down to zero, so no low limit can be learned: choose the high side.');
  const groups = used.length < FEWEST_FOR_GROUPS ? undefined : twoGroups(used, resolution, scale);
  return {
    expects: roundOutward(good.nonNegative && exact.low <= 0 ? { ...exact, low: -Infinity } : exact, good.lastDigit),
    exact,
    method: interval.method,
    scale: scale.name,
    count: used.length,
    overRange: good.overRange,
    removed,
    ...(interval.normality !== undefined && { normality: interval.normality }),
    stopgap: interval.stopgap,
    ...(groups && { twoGroups: groups }),
    boardsWanted: boardsWanted(used, interval, coverage, scale === LINEAR ? settings.promised : undefined),
  };
}

/** Whether positive readings, a tenth of them at either end left out as it may be a slip, reach over more than a decade. */
function spansDecades(values: readonly number[]): boolean {
  const sorted = Float64Array.from(values).sort();
  const ends = Math.floor(sorted.length / 10);
  return sorted[sorted.length - 1 - ends]! / sorted[ends]! > DECADE;
}

interface Scale {
  readonly name: 'linear' | 'log';
  readonly to: (value: number) => number;
  readonly from: (value: number) => number;
}

const LINEAR: Scale = { name: 'linear', to: (value) => value, from: (value) => value };
const LOG: Scale = {
  name: 'log',
  to: Math.log,
  from: (value) => (value === -Infinity ? value : Math.exp(value)),
};

function proposeOpen(good: GoodReadings): Proposal {
  if (good.openAbove === undefined)
    throw new Error('Nearly all good boards read over range here, which tells no limit: measure on a larger range.');
  const limit = good.values.length > 0 ? extent(good.values).min : (good.rangeLimit ?? good.openAbove);
  return {
    expects: { kind: 'open', limit },
    exact: { low: limit, high: Infinity },
    method: 'open',
    scale: 'linear',
    count: good.values.length,
    overRange: good.overRange,
    removed: [],
    stopgap: false,
    boardsWanted: 0,
  };
}

/** Limits rounded outward to whole last digits, as the kind of band that has them. */
function roundOutward({ low, high }: Limits, lastDigit: number): Expectation {
  const outward = (value: number, round: (digits: number) => number): number =>
    scaleBy(round(Number(scaleBy(value, -lastDigit).toPrecision(12))), lastDigit);
  if (high === Infinity) return { kind: 'at least', limit: outward(low, Math.floor) };
  if (low === -Infinity) return { kind: 'at most', limit: outward(high, Math.ceil) };
  return { kind: 'between', low: outward(low, Math.floor), high: outward(high, Math.ceil) };
}

function twoGroups(used: readonly number[], resolution: number, scale: Scale): readonly [number, number] | undefined {
  const { gain, groups } = twoGroupEvidence(thinned(used), resolution);
  const [first, second] = groups;
  const both = Math.min(first.share, second.share) * used.length >= 2;
  return gain > VERY_STRONG && both ? [scale.from(first.mean), scale.from(second.mean)] : undefined;
}

/** At most a thousand readings, evenly spaced in their order: enough to see two groups, and quick. */
function thinned(readings: readonly number[]): readonly number[] {
  if (readings.length <= ENOUGH_FOR_GROUPS) return readings;
  const sorted = Float64Array.from(readings).sort();
  const step = sorted.length / ENOUGH_FOR_GROUPS;
  return Array.from({ length: ENOUGH_FOR_GROUPS }, (_, index) => sorted[Math.floor((index + 0.5) * step)]!);
}

function boardsWanted(
  used: readonly number[],
  interval: ToleranceInterval,
  coverage: Coverage,
  promised: number | undefined,
): number {
  if (interval.stopgap) return distributionFreeNeeds(coverage) - used.length;
  if (interval.method === 'distribution-free' || promised === undefined) return 0;
  return readingsUntil(promised, used, coverage);
}
