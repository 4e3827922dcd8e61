import { OVER_RANGE, readingAt, VALUE, type ReadingLog } from '../../columns/reading-log.ts';
import { lastDigit, type Shown, type Unit } from '../../domain/quantity.ts';
import { MODE_UNITS } from '../../domain/reading.ts';
import { isOutOfBand, partWord } from '../../domain/verdict.ts';
import { pointFromName } from '../../domain/family.ts';
import { limitsAt, uncertaintyAt } from '../../judging/judge.ts';
import { extent } from '../../statistics/descriptive/extent.ts';
import { mean } from '../../statistics/descriptive/mean.ts';
import { median } from '../../statistics/descriptive/median.ts';
import { sampleStandardDeviation } from '../../statistics/descriptive/sample-standard-deviation.ts';
import type { Judged } from './bench-data.ts';
import type { ReadingRow, ReadingsCount, SelectionSummary } from '../contract/readings.ts';

/** A row of the log as the grid shows it. */
export function readingRow(judged: Judged, row: number): ReadingRow {
  const { data, standard, verdicts } = judged;
  const reading = readingAt(data.log, row);
  const verdict = verdicts[row]!;
  const band = standard.table.bands[data.log.check[row]!];
  const limits = limitsAt(data.log, row, standard);
  const point = data.families.get(reading.family)?.points.find(({ name }) => name === reading.point);
  const isPart = (point ?? pointFromName(reading.point)).role === 'part';
  const word = isPart ? partWord(verdict, reading.mode, reading.value) : undefined;
  return {
    ...reading,
    row,
    verdict,
    uncertainty: uncertaintyAt(data.log, row, standard.accuracies),
    ...(word && { word }),
    ...(limits && { limits }),
    ...(band && { band }),
  };
}

/** Counts of some rows: readings, those out of band, and the repairs they belong to. */
export function countRows(judged: Judged, rows: Uint32Array): ReadingsCount {
  const { data, verdicts } = judged;
  const repairs = new Set<number>();
  let outOfBand = 0;
  for (const row of rows) {
    repairs.add(data.log.repair[row]!);
    if (isOutOfBand(verdicts[row]!)) outOfBand += 1;
  }
  return { readings: rows.length, outOfBand, repairs: repairs.size };
}

/** What the numbers of some rows come to. Over-range is counted apart and never averaged; numbers of two units are not averaged at all. */
export function summariseRows(judged: Judged, rows: Uint32Array): SelectionSummary {
  const { log } = judged.data;
  const numbers = rows.filter((row) => log.state[row] === VALUE);
  const units = new Set<Unit>();
  let coarsest = -Infinity;
  for (const row of numbers) {
    units.add(MODE_UNITS[log.names.checks.mode(log.check[row]!)]);
    coarsest = Math.max(coarsest, lastDigit(shownAt(log, row)));
  }
  const summary = {
    rows: rows.length,
    outOfBand: countRows(judged, rows).outOfBand,
    overRange: rows.reduce((count, row) => count + (log.state[row] === OVER_RANGE ? 1 : 0), 0),
  };
  const [unit] = units;
  if (unit === undefined || units.size > 1) return summary;
  const values = Float64Array.from(numbers, (row) => log.value[row]!);
  const { min, max } = extent(values);
  return {
    ...summary,
    numbers: {
      count: values.length,
      mean: mean(values),
      median: median(values),
      deviation: values.length > 1 ? sampleStandardDeviation(values) : NaN,
      minimum: min,
      maximum: max,
      minimumShown: shownAt(log, numbers[values.indexOf(min)]!),
      maximumShown: shownAt(log, numbers[values.indexOf(max)]!),
      unit,
      lastDigit: coarsest,
    },
  };
}

function shownAt(log: ReadingLog, row: number): Shown {
  return { prefix: log.prefix[row]!, decimals: log.decimals[row]! };
}
