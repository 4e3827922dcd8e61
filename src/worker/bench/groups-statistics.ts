import type { GroupLines } from '../../columns/groups.ts';
import { OVER_RANGE, VALUE } from '../../columns/reading-log.ts';
import { lastDigit } from '../../domain/quantity.ts';
import { MODE_UNITS } from '../../domain/reading.ts';
import { isOutOfBand, PASS, VERDICT_MASK } from '../../domain/verdict.ts';
import type { GroupLine } from '../contract/readings.ts';
import type { Judged } from './bench-data.ts';

/** The line of one group: counts of all its readings, and what its numbers come to where they share one unit. */
export function groupLine({ data: { log }, verdicts }: Judged, lines: GroupLines, group: number): GroupLine {
  const { by, labels, rows, starts } = lines.grouped;
  const own = rows.subarray(starts[group], starts[group + 1]);
  const units = new Set<string>();
  const values = new Float64Array(own.length);
  let [count, outOfBand, judged, overRange, coarsest] = [0, 0, 0, 0, -Infinity];
  for (const row of own) {
    const verdict = verdicts[row]!;
    if ((verdict & VERDICT_MASK) >= PASS) judged += 1;
    if (isOutOfBand(verdict)) outOfBand += 1;
    if (log.state[row] === OVER_RANGE) overRange += 1;
    if (log.state[row] !== VALUE) continue;
    units.add(MODE_UNITS[log.names.checks.mode(log.check[row]!)]);
    values[count++] = log.value[row]!;
    coarsest = Math.max(coarsest, lastDigit({ prefix: log.prefix[row]!, decimals: log.decimals[row]! }));
  }
  const line = { group: labels[group]!, by, folded: lines.isFolded(group), readings: own.length, outOfBand, judged, overRange }; // prettier-ignore
  if (units.size !== 1) return line;
  const mode = log.names.checks.mode(log.check[own.find((row) => log.state[row] === VALUE)!]!);
  const sorted = values.subarray(0, count).sort();
  const median = sortedMedian(sorted);
  const spread = sortedMedian(sorted.map((value) => Math.abs(value - median)).sort());
  return { ...line, numbers: { count, median, spread, unit: MODE_UNITS[mode], lastDigit: coarsest } };
}

/** The middle one of ascending numbers, or the mean of the two middle ones; `NaN` of none. */
export function sortedMedian(sorted: Float64Array): number {
  const half = sorted.length >> 1;
  if (sorted.length === 0) return NaN;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}
