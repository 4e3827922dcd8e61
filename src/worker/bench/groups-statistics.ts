import type { GroupLines } from '../../columns/groups.ts';
import { selectMedian } from '../../statistics/numerics/select-median.ts';
import type { GroupLine } from '../contract/readings.ts';
import type { Judged } from './bench-data.ts';
import { rowNumbers } from './row-numbers.ts';

/** The line of one group: counts of all its readings, and what its numbers come to where they share one unit. */
export function groupLine(judged: Judged, lines: GroupLines, group: number): GroupLine {
  const { by, labels, rows, starts } = lines.grouped;
  const own = rows.subarray(starts[group], starts[group + 1]);
  const { values, unit, lastDigit, ...counts } = rowNumbers(judged, own);
  const line = { group: labels[group]!, by, folded: lines.isFolded(group), readings: own.length, ...counts };
  if (unit === undefined) return line;
  const median = selectMedian(values);
  const spread = selectMedian(values.map((value) => Math.abs(value - median)));
  return { ...line, numbers: { count: values.length, median, spread, unit, lastDigit } };
}
