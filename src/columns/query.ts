import type { Unit } from '../domain/quantity.ts';
import { MODE_UNITS, MODES, SPECIMENS, STAGES, STATES } from '../domain/reading.ts';
import { VERDICT_MASK, VERDICTS } from '../domain/verdict.ts';
import type { DerivedField } from './derived.ts';
import type { Grouping } from './groups.ts';
import { identityOrder, orderByCode, orderByNumber } from './order.ts';
import { VALUE, type ReadingLog } from './reading-log.ts';
import { RowSet } from './row-set.ts';

/** Fields of a reading that hold one of few texts, so that their values can be listed and chosen. */
export const LISTED_FIELDS = [
  'repair',
  'family',
  'point',
  'stage',
  'mode',
  'specimen',
  'state',
  'meter',
  'file',
  'verdict',
] as const;
export type ListedField = (typeof LISTED_FIELDS)[number];
export type SortField = ListedField | DerivedField | 'time' | 'reading' | 'line';

/** The numbers of a derived field, one a row, `NaN` where a row has none. */
export type DerivedNumbers = (field: DerivedField) => Float64Array;

/**
 * What a reading must be to be shown. Times are in milliseconds as the log keeps them, readings in the SI unit, which is
 * that of each reading's mode where none is named; both ends are included.
 */
export type Filter =
  | { readonly field: ListedField; readonly oneOf: readonly string[] }
  | { readonly field: 'time' | 'reading'; readonly from?: number; readonly to?: number; readonly unit?: Unit }
  | { readonly field: 'text'; readonly contains: string };

/** Which readings, in which order. Filters hold together; the first sort key weighs most; ties keep the log's order. */
export interface ReadingsQuery {
  readonly filters: readonly Filter[];
  readonly sort: readonly { readonly field: SortField; readonly descending: boolean }[];
  /** How the rows are grouped, if they are; it changes neither which they are nor their order within a group. */
  readonly group?: Grouping;
}

/** A listed field as codes: the label of each code, and the code of each row through one or two small steps. */
export interface ListedColumn {
  readonly labels: readonly string[];
  readonly codeAt: (row: number) => number;
}

/** A listed field of a log; `verdicts` is the log's verdict column. */
export function listedColumn(log: ReadingLog, verdicts: Uint8Array, field: ListedField): ListedColumn {
  const { names } = log;
  const byCheck = (labels: readonly string[], codeOf: (check: number) => number): ListedColumn => {
    const codes = Uint32Array.from({ length: names.checks.size }, (_, check) => codeOf(check));
    return { labels, codeAt: (row) => codes[log.check[row]!]! };
  };
  switch (field) {
    case 'repair':
      return { labels: names.repairs.labels, codeAt: (row) => log.repair[row]! };
    case 'meter':
      return { labels: names.meters.labels, codeAt: (row) => log.meter[row]! };
    case 'file':
      return { labels: names.files.labels, codeAt: (row) => log.file[row]! };
    case 'specimen':
      return { labels: SPECIMENS, codeAt: (row) => log.specimen[row]! };
    case 'state':
      return { labels: STATES, codeAt: (row) => log.state[row]! };
    case 'verdict':
      return { labels: VERDICTS, codeAt: (row) => verdicts[row]! & VERDICT_MASK };
    case 'family':
      return byCheck(names.families.labels, (check) => names.checks.familyCode(check));
    case 'point':
      return byCheck(names.points.labels, (check) => names.checks.pointCode(check));
    case 'stage':
      return byCheck(STAGES, (check) => names.checks.stageCode(check));
    case 'mode':
      return byCheck(MODES, (check) => names.checks.modeCode(check));
  }
}

/** The rows that pass all filters. */
export function filterRows(log: ReadingLog, verdicts: Uint8Array, filters: readonly Filter[]): RowSet {
  let rows: RowSet | undefined;
  for (const filter of filters) {
    const passing = RowSet.where(log.count, rowTest(log, verdicts, filter));
    rows = rows ? rows.and(passing) : passing;
  }
  return rows ?? RowSet.where(log.count, () => true);
}

/** The rows of a query in its order, groups apart. @param derived - needed where the query sorts by a derived field */
export function queryRows(
  log: ReadingLog,
  verdicts: Uint8Array,
  query: Pick<ReadingsQuery, 'filters' | 'sort'>,
  derived?: DerivedNumbers,
): Uint32Array {
  let rows = query.filters.length === 0 ? identityOrder(log.count) : filterRows(log, verdicts, query.filters).rows();
  for (const { field, descending } of [...query.sort].reverse()) {
    const numbers = numbersToSort(log, field, derived);
    rows = numbers
      ? orderByNumber(rows, numbers, descending)
      : orderByField(log, verdicts, rows, field as ListedField, descending);
  }
  return rows;
}

/** How many of `rows` hold each label of a field, in order of the labels; labels that none holds are left out. */
export function countLabels(
  column: ListedColumn,
  rows: Uint32Array,
): readonly { readonly value: string; readonly count: number }[] {
  const counts = new Uint32Array(column.labels.length);
  for (const row of rows) counts[column.codeAt(row)]! += 1;
  const ranks = labelRanks(column.labels);
  return column.labels
    .map((value, code) => ({ value, count: counts[code]!, rank: ranks[code]! }))
    .filter(({ count }) => count > 0)
    .sort((a, b) => a.rank - b.rank)
    .map(({ value, count }) => ({ value, count }));
}

/** A listed field as a key of each row that sorts: the place of its label among all labels. */
export interface RankedKey {
  /** By row; only those of the rows that were asked for are filled in. */
  readonly key: Uint32Array;
  /** The labels in their order. */
  readonly labels: readonly string[];
}

/** Ranks `rows` by a listed field: stages, states and verdicts in their own order, all else in natural order of the labels. */
export function rankedKey(log: ReadingLog, verdicts: Uint8Array, rows: Uint32Array, field: ListedField): RankedKey {
  const { labels, codeAt } = listedColumn(log, verdicts, field);
  const isScale = labels === STAGES || labels === VERDICTS || labels === STATES;
  const ranks = isScale ? labels.map((_, code) => code) : labelRanks(labels);
  const key = new Uint32Array(log.count);
  for (const row of rows) key[row] = ranks[codeAt(row)]!;
  const ordered: string[] = [];
  labels.forEach((label, code) => (ordered[ranks[code]!] = label));
  return { key, labels: ordered };
}

/** A stable order of `rows` by a listed field, its labels ordered as `rankedKey` says. */
function orderByField(
  log: ReadingLog,
  verdicts: Uint8Array,
  rows: Uint32Array,
  field: ListedField,
  descending: boolean,
): Uint32Array {
  const { key, labels } = rankedKey(log, verdicts, rows, field);
  return orderByCode(rows, key, labels.length, descending);
}

/** The numbers of a field that sorts by numbers, undefined for a listed one. @throws where a derived field's are not given */
function numbersToSort(log: ReadingLog, field: SortField, derived?: DerivedNumbers): Float64Array | undefined {
  if (field === 'time') return log.time;
  if (field === 'reading') return numbersOf(log);
  if (field === 'line') return Float64Array.from(log.line);
  if ((LISTED_FIELDS as readonly string[]).includes(field)) return undefined;
  if (derived === undefined) throw new Error(`Nothing derives ${field} here, so that readings cannot be sorted by it.`);
  return derived(field as DerivedField);
}

/** Values as they sort: over-range above all numbers, below-range under all, what has no number (beep, blank) last. */
function numbersOf(log: ReadingLog): Float64Array {
  const overRange = STATES.indexOf('over-range');
  const belowRange = STATES.indexOf('below-range');
  const numbers = log.value.slice();
  for (let row = 0; row < log.count; row += 1) {
    const state = log.state[row];
    if (state === VALUE) continue;
    numbers[row] = state === overRange ? Infinity : state === belowRange ? -Infinity : NaN;
  }
  return numbers;
}

function rowTest(log: ReadingLog, verdicts: Uint8Array, filter: Filter): (row: number) => boolean {
  if ('contains' in filter) return textTest(log, verdicts, filter.contains);
  if (!('oneOf' in filter)) {
    const numbers = filter.field === 'time' ? log.time : log.value;
    const { from = -Infinity, to = Infinity, unit } = filter;
    const { checks } = log.names;
    const isOfUnit = Uint8Array.from({ length: checks.size }, (_, check) =>
      unit === undefined || MODE_UNITS[checks.mode(check)] === unit ? 1 : 0,
    );
    const isNumber =
      filter.field === 'time'
        ? () => true
        : (row: number) => log.state[row] === VALUE && isOfUnit[log.check[row]!] === 1;
    return (row) => isNumber(row) && numbers[row]! >= from && numbers[row]! <= to;
  }
  const column = listedColumn(log, verdicts, filter.field);
  const wanted = Uint8Array.from(column.labels, (label) => (filter.oneOf.includes(label) ? 1 : 0));
  return (row) => wanted[column.codeAt(row)] === 1;
}

/** Whether any of a row's texts holds the searched one; each label is searched once, each row looks up its codes. */
function textTest(log: ReadingLog, verdicts: Uint8Array, contains: string): (row: number) => boolean {
  const searched = contains.toLocaleLowerCase('en');
  const columns = LISTED_FIELDS.map((field) => {
    const column = listedColumn(log, verdicts, field);
    const hits = Uint8Array.from(column.labels, (label) => (label.toLocaleLowerCase('en').includes(searched) ? 1 : 0));
    return { codeAt: column.codeAt, hits };
  }).filter(({ hits }) => hits.includes(1));
  return (row) => columns.some(({ codeAt, hits }) => hits[codeAt(row)] === 1);
}

const ranksKnown = new WeakMap<readonly string[], Uint32Array>();
const naturalOrder = new Intl.Collator('en', { numeric: true });

/** For each code, the place of its label in natural order: T-2 before T-10. Labels are only ever added to, so ranks hold while there are as many. */
function labelRanks(labels: readonly string[]): Uint32Array {
  const known = ranksKnown.get(labels);
  if (known?.length === labels.length) return known;
  const order = labels.map((_, code) => code);
  order.sort((a, b) => naturalOrder.compare(labels[a]!, labels[b]!) || a - b);
  const ranks = new Uint32Array(labels.length);
  order.forEach((code, rank) => (ranks[code] = rank));
  ranksKnown.set(labels, ranks);
  return ranks;
}
