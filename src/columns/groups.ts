import { DAY } from '../domain/day.ts';
import { orderByCode } from './order.ts';
import { rankedKey, type RankedKey } from './query.ts';
import type { ReadingLog } from './reading-log.ts';

/** What readings can be grouped by. */
export const GROUP_FIELDS = ['repair', 'family', 'point', 'meter', 'day'] as const;
export type GroupField = (typeof GROUP_FIELDS)[number];

/** How readings are grouped, and which groups show their lines alone: all or none, but for those that are named. */
export interface Grouping {
  readonly by: GroupField;
  readonly folded: boolean;
  /** Labels of groups that are the other way. */
  readonly except: readonly string[];
}

/** Rows in groups: group `g` holds `rows` from `starts[g]` up to, not including, `starts[g + 1]`. */
export interface GroupedRows {
  readonly by: GroupField;
  /** Empty for readings that state nothing. */
  readonly labels: readonly string[];
  readonly rows: Uint32Array;
  readonly starts: Uint32Array;
}

/** Groups rows by a field, groups in natural order of their labels, days by date and unknown ones last; the order within each stays. */
export function groupRows(log: ReadingLog, verdicts: Uint8Array, rows: Uint32Array, by: GroupField): GroupedRows {
  const { key, labels } = by === 'day' ? dayKey(log, rows) : rankedKey(log, verdicts, rows, by);
  const sizes = new Uint32Array(labels.length);
  for (const row of rows) sizes[key[row]!]! += 1;
  const starts = [0];
  for (const size of sizes) if (size > 0) starts.push(starts.at(-1)! + size);
  return {
    by,
    labels: labels.filter((_, group) => sizes[group]! > 0),
    rows: orderByCode(rows, key, labels.length),
    starts: Uint32Array.from(starts),
  };
}

/** Ranks `rows` by their days; those of no known day come last. */
function dayKey(log: ReadingLog, rows: Uint32Array): RankedKey {
  const codes = new Map<number, number>();
  const key = new Uint32Array(log.count);
  let [lastDay, lastCode] = [Infinity, 0];
  for (const row of rows) {
    const day = Math.floor(log.time[row]! / DAY);
    // Readings of one day mostly follow each other.
    if (!Object.is(day, lastDay)) {
      lastDay = day;
      lastCode = codes.get(day) ?? codes.size;
      codes.set(day, lastCode);
    }
    key[row] = lastCode;
  }
  const days = Float64Array.from(codes.keys()).sort();
  const ranks = new Uint32Array(codes.size);
  days.forEach((day, rank) => (ranks[codes.get(day)!] = rank));
  for (const row of rows) key[row] = ranks[key[row]!]!;
  return {
    key,
    labels: Array.from(days, (day) => (Number.isNaN(day) ? '' : new Date(day * DAY).toISOString().slice(0, 10))),
  };
}

/** The lines of grouped rows as they are listed: one for each group, and below it its rows unless it is folded. */
export class GroupLines {
  readonly grouped: GroupedRows;
  /** Line of each group, and the number of all lines at the end. */
  readonly #lines: Uint32Array;

  constructor(grouped: GroupedRows, { folded, except }: Pick<Grouping, 'folded' | 'except'>) {
    const others = new Set(except);
    const { labels, starts } = grouped;
    const lines = new Uint32Array(labels.length + 1);
    labels.forEach((label, group) => {
      const isFolded = folded !== others.has(label);
      lines[group + 1] = lines[group]! + 1 + (isFolded ? 0 : starts[group + 1]! - starts[group]!);
    });
    this.grouped = grouped;
    this.#lines = lines;
  }

  get count(): number {
    return this.#lines[this.grouped.labels.length]!;
  }

  isFolded(group: number): boolean {
    return this.#lines[group + 1] === this.#lines[group]! + 1;
  }

  /** What a line shows: a row, or the group itself where `row` is undefined. @throws RangeError where there is no such line */
  at(line: number): { readonly group: number; readonly row: number | undefined } {
    if (!(line >= 0 && line < this.count)) throw new RangeError(`There is no line ${line} among ${this.count}.`);
    const group = lastAtMost(this.#lines, line);
    const within = line - this.#lines[group]! - 1;
    const { rows, starts } = this.grouped;
    return { group, row: within < 0 ? undefined : rows[starts[group]! + within] };
  }

  /** The line of a row, `-1` where its group is folded or it is in none. */
  lineOf(row: number): number {
    const { rows, starts } = this.grouped;
    const place = rows.indexOf(row);
    if (place < 0) return -1;
    const group = lastAtMost(starts, place);
    return this.isFolded(group) ? -1 : this.#lines[group]! + 1 + place - starts[group]!;
  }

  /** The rows on the lines from `first` to `last`, both included; lines of groups hold none themselves. */
  rowsBetween(first: number, last: number): Uint32Array {
    const { rows, starts, labels } = this.grouped;
    const parts: Uint32Array[] = [];
    for (let group = 0; group < labels.length; group += 1) {
      const own = this.#lines[group]!;
      const from = Math.max(first, own + 1);
      const to = Math.min(last + 1, this.#lines[group + 1]!);
      if (from < to) parts.push(rows.subarray(starts[group]! + from - own - 1, starts[group]! + to - own - 1));
    }
    const joined = new Uint32Array(parts.reduce((sum, part) => sum + part.length, 0));
    let at = 0;
    for (const part of parts) {
      joined.set(part, at);
      at += part.length;
    }
    return joined;
  }
}

/** The last place of ascending `starts` that holds at most `value`; the end marker is left out. */
function lastAtMost(starts: Uint32Array, value: number): number {
  let low = 0;
  let high = starts.length - 2;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (starts[middle]! <= value) low = middle;
    else high = middle - 1;
  }
  return low;
}
