import { changeFromStageBefore, ratioToNewPart, type DerivedField } from '../../columns/derived.ts';
import { VALUE, type ReadingLog } from '../../columns/reading-log.ts';
import type { Expectation, Limits } from '../../domain/band.ts';
import { rectifiedPeak } from '../../domain/mains.ts';
import { limitsAt, uncertaintyAt, type Standard } from '../../judging/judge.ts';
import { selectMedian } from '../../statistics/numerics/select-median.ts';
import type { Judged } from './bench-data.ts';

/** A derived field of all rows of a bench, `NaN` where a row has none; see `DERIVED_FIELDS` for what each means. */
export function derivedColumn({ data: { log }, standard, rowsByRepair }: Judged, field: DerivedField): Float64Array {
  switch (field) {
    case 'margin':
      return fill(log, (row) => marginTo(log.value[row]!, limitsAt(log, row, standard)));
    case 'margin-in-u':
      return fill(log, (row) => {
        const uncertainty = uncertaintyAt(log, row, standard.accuracies);
        return uncertainty > 0 ? marginTo(log.value[row]!, limitsAt(log, row, standard)) / uncertainty : NaN;
      });
    case 'deviation':
      return deviationInPercent(log, standard);
    case 'change':
      return changeFromStageBefore(log, rowsByRepair);
    case 'ratio':
      return ratioToNewPart(log, rowsByRepair);
    case 'robust-z':
      return robustZ(log);
  }
}

/** Distance to the nearer limit, below zero outside of the band; `NaN` without a finite limit. */
function marginTo(value: number, limits: Limits | undefined): number {
  if (limits === undefined) return NaN;
  const margin = Math.min(value - limits.low, limits.high - value);
  return Number.isFinite(margin) ? margin : NaN;
}

/** 100 · (reading − nominal) / |nominal|. Without a stated nominal value the middle between two limits stands for it. */
function deviationInPercent(log: ReadingLog, { table, mains }: Standard): Float64Array {
  return fill(log, (row) => {
    const expects = table.bands[log.check[row]!]?.expects;
    const nominal = expects === undefined ? NaN : nominalOf(expects, mains[log.repair[row]!]!);
    return nominal === 0 ? NaN : (100 * (log.value[row]! - nominal)) / Math.abs(nominal);
  });
}

/** @param mains - volts r.m.s. measured in the same repair, `NaN` where nobody did */
function nominalOf(expects: Expectation, mains: number): number {
  switch (expects.kind) {
    case 'percent':
      return expects.nominal;
    case 'between':
      return (expects.low + expects.high) / 2;
    case 'rectified mains':
      return rectifiedPeak(Number.isNaN(mains) ? (expects.mains ?? NaN) : mains);
    case 'at least':
    case 'at most':
    case 'open':
    case 'shorted':
      return NaN;
  }
}

/**
 * Modified z-score of each number among all of its check: 0.6745 (x − median) / MAD. Source: Iglewicz and Hoaglin 1993,
 * How to Detect and Handle Outliers. `NaN` where more than half of the numbers agree, so that MAD is 0.
 */
function robustZ(log: ReadingLog): Float64Array {
  const counts = new Uint32Array(log.names.checks.size + 1);
  for (let row = 0; row < log.count; row += 1) if (log.state[row] === VALUE) counts[log.check[row]! + 1]! += 1;
  for (let check = 0; check < log.names.checks.size; check += 1) counts[check + 1]! += counts[check]!;
  const values = new Float64Array(counts.at(-1)!);
  const next = counts.slice();
  for (let row = 0; row < log.count; row += 1) {
    if (log.state[row] === VALUE) values[next[log.check[row]!]!++] = log.value[row]!;
  }
  const middles = new Float64Array(log.names.checks.size);
  const deviations = new Float64Array(log.names.checks.size);
  for (let check = 0; check < middles.length; check += 1) {
    const own = values.subarray(counts[check], counts[check + 1]);
    const middle = (middles[check] = selectMedian(own));
    deviations[check] = selectMedian(own.map((value) => Math.abs(value - middle)));
  }
  return fill(log, (row) => {
    const check = log.check[row]!;
    return deviations[check] === 0 ? NaN : 0.6745 * ((log.value[row]! - middles[check]!) / deviations[check]!);
  });
}

function fill(log: ReadingLog, numberAt: (row: number) => number): Float64Array {
  const result = new Float64Array(log.count).fill(NaN);
  for (let row = 0; row < log.count; row += 1) if (log.state[row] === VALUE) result[row] = numberAt(row);
  return result;
}
