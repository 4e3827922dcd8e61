import type { DerivedField } from '../../columns/derived.ts';
import { GroupLines, groupRows, type GroupedRows } from '../../columns/groups.ts';
import { countLabels, listedColumn, queryRows, type ListedField, type ReadingsQuery } from '../../columns/query.ts';
import type { FacetValue, GridLine, ReadingRow, ReadingsCount, SelectionSummary } from '../contract/readings.ts';
import type { Judged } from './bench-data.ts';
import { derivedColumn } from './derived-columns.ts';
import { groupLine } from './groups-statistics.ts';
import { baseRowOf, editLog, identityOf, originalOf, type EditedLog } from './reading-edits.ts';
import { countRows, readingRow, summariseRows } from './reading-rows.ts';

interface Kept<Value> {
  readonly key: string;
  readonly value: Value;
}

/**
 * What a grid asks about one state of the bench. The last query's rows, groups and lines are kept, since a grid asks for
 * window after window of it, and each derived column once it was asked for.
 */
export class ReadingsView {
  readonly #judged: Judged;
  readonly #edited: EditedLog;
  readonly #derived = new Map<DerivedField, Float64Array>();
  #rows: Kept<Uint32Array> | undefined;
  #grouped: Kept<GroupedRows> | undefined;
  #lines: Kept<GroupLines> | undefined;

  /** @param edited - the log of `judged`, with what it was before it was edited by hand */
  constructor(judged: Judged, edited: EditedLog = editLog(judged.data.log, [])) {
    this.#judged = judged;
    this.#edited = edited;
  }

  count(query: ReadingsQuery): ReadingsCount {
    const lines = this.#linesOf(query);
    return { ...countRows(this.#judged, this.#rowsOf(query)), ...(lines && { lines: lines.count }) };
  }

  /** The rows of a query in its order, groups apart. */
  rows(query: ReadingsQuery): Uint32Array {
    return this.#rowsOf(query);
  }

  /** Some readings in the query's order, groups apart. */
  window(query: ReadingsQuery, first: number, count: number): readonly ReadingRow[] {
    return Array.from(this.#rowsOf(query).subarray(first, first + count), (row) => this.#reading(row));
  }

  /** Some lines as the grid lists them, readings with the derived fields that are asked for. */
  lines(
    query: ReadingsQuery,
    first: number,
    count: number,
    derived: readonly DerivedField[] = [],
  ): readonly GridLine[] {
    const lines = this.#linesOf(query);
    const columns = derived.map((field) => [field, this.#derivedColumn(field)] as const);
    const reading = (row: number): ReadingRow => ({
      ...this.#reading(row),
      ...(columns.length > 0 && {
        derived: Object.fromEntries(columns.map(([field, column]) => [field, column[row]!])),
      }),
    });
    if (lines === undefined) return Array.from(this.#rowsOf(query).subarray(first, first + count), reading);
    return Array.from({ length: Math.max(0, Math.min(count, lines.count - first)) }, (_, index) => {
      const { group, row } = lines.at(first + index);
      return row === undefined ? groupLine(this.#judged, lines, group) : reading(row);
    });
  }

  /** The line on which the grid lists a row, `-1` where it lists it on none. */
  placeOf(query: ReadingsQuery, row: number): number {
    if (row < 0) return -1;
    return this.#linesOf(query)?.lineOf(row) ?? this.#rowsOf(query).indexOf(row);
  }

  /** The row on a line, undefined where it holds none. */
  rowAt(query: ReadingsQuery, line: number): number | undefined {
    const lines = this.#linesOf(query);
    if (lines === undefined) return this.#rowsOf(query)[line];
    return line >= 0 && line < lines.count ? lines.at(line).row : undefined;
  }

  /** The rows on the lines from `first` to `last`, both included. */
  rowsBetween(query: ReadingsQuery, first: number, last: number): Uint32Array {
    return this.#linesOf(query)?.rowsBetween(first, last) ?? this.#rowsOf(query).subarray(first, last + 1);
  }

  summarise(query: ReadingsQuery, first: number, last: number): SelectionSummary {
    return summariseRows(this.#judged, this.rowsBetween(query, first, last));
  }

  facet(query: ReadingsQuery, field: ListedField): readonly FacetValue[] {
    return countLabels(listedColumn(this.#judged.data.log, this.#judged.verdicts, field), this.#rowsOf(query));
  }

  #reading(row: number): ReadingRow {
    const original = originalOf(this.#edited, row);
    const { nth } = identityOf(this.#edited.base, baseRowOf(this.#edited, row));
    return { ...readingRow(this.#judged, row), nth, ...(original && { original }) };
  }

  #derivedColumn(field: DerivedField): Float64Array {
    const column = this.#derived.get(field) ?? derivedColumn(this.#judged, field);
    this.#derived.set(field, column);
    return column;
  }

  #rowsOf({ filters, sort }: ReadingsQuery): Uint32Array {
    const key = JSON.stringify([filters, sort]);
    if (this.#rows?.key !== key) {
      const { data, verdicts } = this.#judged;
      const value = queryRows(data.log, verdicts, { filters, sort }, (field) => this.#derivedColumn(field));
      this.#rows = { key, value };
    }
    return this.#rows.value;
  }

  #linesOf(query: ReadingsQuery): GroupLines | undefined {
    const { filters, sort, group } = query;
    if (group === undefined) return undefined;
    const groupedKey = JSON.stringify([filters, sort, group.by]);
    if (this.#grouped?.key !== groupedKey) {
      const { data, verdicts } = this.#judged;
      const value = groupRows(data.log, verdicts, this.#rowsOf(query), group.by);
      this.#grouped = { key: groupedKey, value };
    }
    const key = JSON.stringify([filters, sort, group]);
    if (this.#lines?.key !== key) this.#lines = { key, value: new GroupLines(this.#grouped.value, group) };
    return this.#lines.value;
  }
}
