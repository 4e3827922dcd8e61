import { MODES } from '../domain/reading.ts';
import type { Accuracy, Meter } from '../domain/meter.ts';
import type { LogNames } from '../columns/reading-log.ts';

const LOWEST_POWER = -60;
const POWERS = Float64Array.from({ length: 121 }, (_, index) => Number(`1e${index + LOWEST_POWER}`));

/**
 * Expanded uncertainty U = 2u of one reading, in its SI unit. The specification ±(percent of reading + counts) and the unseen part of the
 * last digit (±half of it) are taken as rectangular distributions, standard uncertainty a/√3 each, and added in squares
 * (JCGM 100:2008, 4.3.7 and 5.1.2).
 * @param value - reading in the SI unit
 * @param lastDigit - power of ten of its last digit
 */
export function expandedUncertainty(value: number, lastDigit: number, accuracy: Accuracy): number {
  const digit = POWERS[lastDigit - LOWEST_POWER] ?? 10 ** lastDigit;
  const specification = (Math.abs(value) * accuracy.percent) / 100 + accuracy.counts * digit;
  return 2 * Math.sqrt((specification * specification) / 3 + (digit * digit) / 12);
}

/** An accuracy with the power of ten of its last digit; `NaN` where its resolution is not known. */
export interface MeterRange extends Accuracy {
  readonly lastDigit: number;
}

/** The ranges of a log's meters by `meter · MODES.length + mode`, each list in order of range. */
export type AccuracyTable = readonly (readonly MeterRange[] | undefined)[];

/** Looks up the accuracies of a log's meters once, so that each reading costs one index. */
export function compileMeters(names: LogNames, meters: readonly Meter[]): AccuracyTable {
  const table = new Array<readonly MeterRange[] | undefined>(names.meters.size * MODES.length);
  names.meters.labels.forEach((name, code) => {
    const meter = meters.find((known) => known.name === name);
    if (meter === undefined) return;
    MODES.forEach((mode, modeCode) => {
      const ranges = meter.accuracies
        .filter((accuracy) => accuracy.mode === mode)
        .map((accuracy) => ({ ...accuracy, lastDigit: Math.round(Math.log10(accuracy.resolution ?? NaN)) }))
        .sort((a, b) => a.upTo - b.upTo);
      if (ranges.length > 0) table[code * MODES.length + modeCode] = ranges;
    });
  });
  return table;
}

/** The range on which a meter showed a reading: the smallest that holds it and whose last digit, where stated, is the one shown. */
export function rangeOf(ranges: readonly MeterRange[], value: number, lastDigit: number): MeterRange | undefined {
  const magnitude = Math.abs(value);
  let fallback: MeterRange | undefined;
  for (const range of ranges) {
    if (range.upTo < magnitude) continue;
    if (range.lastDigit === lastDigit || range.resolution === undefined) return range;
    fallback ??= range;
  }
  return fallback;
}
