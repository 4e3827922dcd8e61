import fc from '../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { queryRows, type Filter, type ReadingsQuery, type SortField } from '../../src/columns/query.ts';
import { UNITS } from '../../src/domain/quantity.ts';
import { MODE_UNITS, STAGES, STATES, type Reading } from '../../src/domain/reading.ts';
import { VERDICTS } from '../../src/domain/verdict.ts';
import { readings } from '../support/reading-arbitraries.ts';
import { logOf } from '../support/readings.ts';

const LISTED = ['repair', 'family', 'point', 'stage', 'mode', 'specimen', 'state', 'meter', 'verdict'] as const;
type Row = Reading & { readonly verdict: string; readonly row: number };

const filter: fc.Arbitrary<Filter> = fc.oneof(
  fc.record({
    field: fc.constantFrom(...LISTED),
    oneOf: fc.subarray(['T-1', 'T-2', 'HERON-48', '', 'bulk', ...STAGES, 'value', 'over-range', 'M2', 'pass', 'fail', 'board']),
  }),
  fc.record({ field: fc.constant('reading' as const), from: fc.integer({ min: -3, max: 10 }) }),
  fc.record({ field: fc.constant('reading' as const), to: fc.integer({ min: -3, max: 10 }), unit: fc.constantFrom(...UNITS) }),
  fc.record({ field: fc.constant('time' as const), to: fc.integer({ min: 0, max: 40 }).map((step) => Date.UTC(2026, 2, 14) + step * 5_400_000) }),
  fc.record({ field: fc.constant('text' as const), contains: fc.constantFrom('t-1', 'Q1', 'over', 'm2', 'x') }),
); // prettier-ignore

const sort = fc.uniqueArray(
  fc.record({
    field: fc.constantFrom<SortField>(...LISTED, 'time', 'reading', 'line', 'margin'),
    descending: fc.boolean(),
  }),
  { maxLength: 3, selector: ({ field }) => field },
);

function passes(row: Row, asked: Filter): boolean {
  if ('oneOf' in asked) return asked.oneOf.includes((row as unknown as Record<string, string>)[asked.field]!);
  if ('contains' in asked) {
    return [...LISTED.map((field) => row[field]), row.origin.file].some((text) =>
      text.toLowerCase().includes(asked.contains.toLowerCase()),
    );
  }
  if (asked.field === 'reading' && row.state !== 'value') return false;
  if (asked.unit !== undefined && asked.unit !== MODE_UNITS[row.mode]) return false;
  const number = asked.field === 'time' ? row.time : row.value;
  return number >= (asked.from ?? -Infinity) && number <= (asked.to ?? Infinity);
}

/** What a row sorts by: a number, a place in a scale, or a text; `undefined` comes last either way. */
function keyOf(row: Row, field: SortField, margin: Float64Array): number | string | undefined {
  const known = (number: number): number | undefined => (Number.isNaN(number) ? undefined : number);
  if (field === 'time') return known(row.time);
  if (field === 'line') return row.origin.line;
  if (field === 'margin') return known(margin[row.row]!);
  if (field === 'stage') return STAGES.indexOf(row.stage);
  if (field === 'state') return STATES.indexOf(row.state);
  if (field === 'verdict') return (VERDICTS as readonly string[]).indexOf(row.verdict);
  if (field !== 'reading') return (row as unknown as Record<string, string>)[field];
  if (row.state === 'over-range') return Infinity;
  return row.state === 'below-range' ? -Infinity : known(row.value);
}

function compare(a: number | string | undefined, b: number | string | undefined, descending: boolean): number {
  if (a === undefined || b === undefined) return Number(a === undefined) - Number(b === undefined);
  const order =
    typeof a === 'string'
      ? a.localeCompare(String(b), 'en', { numeric: true })
      : Number(a > Number(b)) - Number(a < Number(b));
  return descending ? -order : order;
}

function naiveRows(rows: readonly Row[], query: ReadingsQuery, margin: Float64Array): number[] {
  return rows
    .filter((row) => query.filters.every((asked) => passes(row, asked)))
    .sort((a, b) => {
      for (const { field, descending } of query.sort) {
        const order = compare(keyOf(a, field, margin), keyOf(b, field, margin), descending);
        if (order !== 0) return order;
      }
      return a.row - b.row;
    })
    .map(({ row }) => row);
}

describe('queryRows(log, verdicts, query, derived)', () => {
  test('filters and sorts as a filter and a stable sort of all readings do', () => {
    fc.assert(
      fc.property(readings, fc.array(filter, { maxLength: 3 }), sort, (all, filters, keys) => {
        const log = logOf(...all);
        const verdicts = Uint8Array.from(all, (_, row) => (row * 7) % VERDICTS.length);
        const margin = Float64Array.from(all, ({ value }, row) => (row % 4 === 0 ? NaN : value % 3));
        const rows = all.map((reading, row): Row => ({ ...reading, row, verdict: VERDICTS[verdicts[row]!]! }));
        const query = { filters, sort: keys };
        expect([...queryRows(log, verdicts, query, () => margin)]).toEqual(naiveRows(rows, query, margin));
      }),
      { numRuns: 500 },
    );
  });

  test('refuses to sort by a derived field that nothing derives', () => {
    const query: ReadingsQuery = { filters: [], sort: [{ field: 'ratio', descending: false }] };
    expect(() => queryRows(logOf({}), new Uint8Array(1), query)).toThrow('Nothing derives ratio here');
  });
});
