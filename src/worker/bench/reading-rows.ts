import { readingAt, VALUE } from '../../columns/reading-log.ts';
import type { Shown } from '../../domain/quantity.ts';
import { isOutOfBand, partWord } from '../../domain/verdict.ts';
import { pointFromName } from '../../domain/family.ts';
import { limitsAt, uncertaintyAt } from '../../judging/judge.ts';
import { extent } from '../../statistics/descriptive/extent.ts';
import { mean } from '../../statistics/descriptive/mean.ts';
import { median } from '../../statistics/descriptive/median.ts';
import { sampleStandardDeviation } from '../../statistics/descriptive/sample-standard-deviation.ts';
import type { Judged } from './bench-data.ts';
import type { ReadingRow, ReadingsCount, SelectionSummary } from '../contract/readings.ts';
import { rowNumbers } from './row-numbers.ts';

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
  const isSeen = new Uint8Array(data.log.names.repairs.size);
  let repairs = 0;
  let outOfBand = 0;
  for (const row of rows) {
    const repair = data.log.repair[row]!;
    repairs += 1 - isSeen[repair]!;
    isSeen[repair] = 1;
    if (isOutOfBand(verdicts[row]!)) outOfBand += 1;
  }
  return { readings: rows.length, outOfBand, repairs };
}

/** What the numbers of some rows come to. Over-range is counted apart and never averaged; numbers of two units are not averaged at all. */
export function summariseRows(judged: Judged, rows: Uint32Array): SelectionSummary {
  const { outOfBand, overRange, values, unit, lastDigit } = rowNumbers(judged, rows);
  const summary = { rows: rows.length, outOfBand, overRange };
  if (unit === undefined) return summary;
  const { log } = judged.data;
  const { min, max } = extent(values);
  const shownOf = (value: number): Shown => {
    const row = rows.find((candidate) => log.state[candidate] === VALUE && log.value[candidate] === value)!;
    return { prefix: log.prefix[row]!, decimals: log.decimals[row]! };
  };
  return {
    ...summary,
    numbers: {
      count: values.length,
      mean: mean(values),
      median: median(values),
      deviation: values.length > 1 ? sampleStandardDeviation(values) : NaN,
      minimum: min,
      maximum: max,
      minimumShown: shownOf(min),
      maximumShown: shownOf(max),
      unit,
      lastDigit,
    },
  };
}
