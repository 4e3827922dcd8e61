import { OVER_RANGE, VALUE, type ReadingLog } from '../../columns/reading-log.ts';
import type { Check } from '../../domain/check.ts';
import { lastDigit } from '../../domain/quantity.ts';
import { MODE_UNITS, type Mode } from '../../domain/reading.ts';
import { rangeLimitAt } from '../../judging/judge.ts';
import type { GoodReadings } from '../../learning/propose-band.ts';
import { STANDINGS, type PastReadings } from '../../learning/standing.ts';
import type { Judged } from './bench-data.ts';
import { meterCorrections } from './meter-corrections.ts';

/** What counts as open where no range limit is known, in ohms and, across a junction, in volts (common practice, no source). */
const OPEN_ABOVE: Readonly<Partial<Record<Mode, number>>> = { continuity: 1e6, resistance: 1e6, diode: 2 };
const GOOD = STANDINGS.indexOf('good');

/** A meter whose readings were put right before a band was learned from them. */
export interface PutRight {
  readonly meter: string;
  /** How much it reads too high on average over these readings, in percent. */
  readonly percent: number;
  readonly readings: number;
}

/** What a band of one check is learned from. */
export interface KnownGood {
  readonly good: GoodReadings;
  /** Rows of the numbers, beside `good.values`. */
  readonly numbers: Uint32Array;
  /** In order of the meters' names. */
  readonly putRight: readonly PutRight[];
}

/**
 * The readings of known-good boards among the past ones of a check, meters' known offsets put right. A board counts once, by its last answer:
 * many readings of one board tell no more of other boards than one does.
 */
export function knownGood(judged: Judged, check: Check, past: PastReadings): KnownGood {
  const { log } = judged.data;
  const rows = lastOfEachBoard(judged, past);
  const numbers = rows.filter((row) => log.state[row] === VALUE);
  const { percentAt } = meterCorrections(judged);
  const percents = Array.from(numbers, percentAt);
  const rangeLimit = leastRangeLimit(judged, rows);
  const openAbove = OPEN_ABOVE[check.mode];
  return {
    good: {
      values: Array.from(numbers, (row, at) => log.value[row]! / (1 + percents[at]! / 100)),
      overRange: rows.length - numbers.length,
      lastDigit: coarsestDigit(judged, numbers),
      ...(rangeLimit !== undefined && { rangeLimit }),
      nonNegative: MODE_UNITS[check.mode] === 'Ω' || MODE_UNITS[check.mode] === 'F',
      ...(openAbove !== undefined && { openAbove }),
    },
    numbers,
    putRight: summarise(judged, numbers, percents),
  };
}

/** Power of ten of the coarsest last digit among the numbers of some rows; 0 where there is none. */
export function coarsestDigit({ data: { log } }: Judged, rows: Uint32Array): number {
  let coarsest = -Infinity;
  for (const row of rows) {
    if (log.state[row] !== VALUE) continue;
    coarsest = Math.max(coarsest, lastDigit({ prefix: log.prefix[row]!, decimals: log.decimals[row]! }));
  }
  return coarsest === -Infinity ? 0 : coarsest;
}

/** The last number or over-range of each known-good board, and of each new part measured beside one. */
function lastOfEachBoard({ data: { log } }: Judged, { rows, standing }: PastReadings): Uint32Array {
  const last = new Map<number, number>();
  rows.forEach((row, index) => {
    if (standing[index] !== GOOD || (log.state[row] !== VALUE && log.state[row] !== OVER_RANGE)) return;
    const key = 2 * log.repair[row]! + log.specimen[row]!;
    const known = last.get(key);
    if (known === undefined || isLater(log, row, known)) last.set(key, row);
  });
  return Uint32Array.from(last.values()).sort((a, b) => byContent(log, a, b));
}

/** Whether a row comes after another, whatever the order of the log: an unknown moment comes first, and of one moment the higher number counts. */
function isLater(log: ReadingLog, row: number, known: number): boolean {
  const [time, before] = [momentOf(log, row), momentOf(log, known)];
  return time === before ? byContent(log, row, known) > 0 : time > before;
}

function momentOf(log: ReadingLog, row: number): number {
  return Number.isNaN(log.time[row]!) ? -Infinity : log.time[row]!;
}

/** By number, over-range after all, then by digits and by repair: so that no sum over the rows depends on the order in which they were brought in. */
function byContent(log: ReadingLog, a: number, b: number): number {
  const size = (row: number): number => (log.state[row] === VALUE ? log.value[row]! : Infinity);
  const label = (row: number): string => log.names.repairs.label(log.repair[row]!);
  if (size(a) !== size(b)) return size(a) < size(b) ? -1 : 1;
  return log.decimals[a]! - log.decimals[b]! || (label(a) < label(b) ? -1 : label(a) > label(b) ? 1 : a - b);
}

function leastRangeLimit(judged: Judged, rows: Uint32Array): number | undefined {
  const { log } = judged.data;
  let least = Infinity;
  for (const row of rows) {
    if (log.state[row] === OVER_RANGE) least = Math.min(least, rangeLimitAt(log, row, judged.standard.accuracies));
  }
  return Number.isFinite(least) ? least : undefined;
}

function summarise({ data: { log } }: Judged, numbers: Uint32Array, percents: readonly number[]): readonly PutRight[] {
  const sums = new Map<number, { percent: number; readings: number }>();
  numbers.forEach((row, at) => {
    const percent = percents[at]!;
    if (percent === 0) return;
    const { percent: sum, readings } = sums.get(log.meter[row]!) ?? { percent: 0, readings: 0 };
    sums.set(log.meter[row]!, { percent: sum + percent, readings: readings + 1 });
  });
  return [...sums]
    .map(([meter, { percent, readings }]) => ({
      meter: log.names.meters.label(meter),
      percent: percent / readings,
      readings,
    }))
    .sort((a, b) => (a.meter < b.meter ? -1 : 1));
}
