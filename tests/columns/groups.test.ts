import fc from '../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { GROUP_FIELDS, GroupLines, groupRows, type GroupField } from '../../src/columns/groups.ts';
import { identityOrder } from '../../src/columns/order.ts';
import type { Reading } from '../../src/domain/reading.ts';
import { readings } from '../support/reading-arbitraries.ts';
import { logOf } from '../support/readings.ts';

function labelOf(reading: Reading, by: GroupField): string {
  if (by !== 'day') return reading[by];
  return Number.isNaN(reading.time) ? '' : new Date(reading.time).toISOString().slice(0, 10);
}

/** Groups by hand: labels in natural order, days without a date last, rows in the order given. */
function naiveGroups(all: readonly Reading[], rows: readonly number[], by: GroupField): [string, number[]][] {
  const groups = new Map<string, number[]>();
  for (const row of rows) groups.set(labelOf(all[row]!, by), [...(groups.get(labelOf(all[row]!, by)) ?? []), row]);
  const rank = (label: string): string => (by === 'day' && label === '' ? '9999' : label);
  return [...groups].sort(([a], [b]) => rank(a).localeCompare(rank(b), 'en', { numeric: true }));
}

const drawn = fc.record({
  all: readings,
  by: fc.constantFrom(...GROUP_FIELDS),
  folded: fc.boolean(),
  except: fc.subarray(['T-2', 'T-10', 'HERON-48', '', 'bulk', 'M2', '2026-03-15']),
});

describe('groupRows(log, verdicts, rows, by)', () => {
  test('groups rows as a map by label does, and keeps their order within each group', () => {
    fc.assert(
      fc.property(drawn, ({ all, by }) => {
        const log = logOf(...all);
        const rows = identityOrder(log.count).reverse();
        const { labels, rows: ordered, starts } = groupRows(log, new Uint8Array(log.count), rows, by);
        const groups = labels.map((label, group) => [label, [...ordered.subarray(starts[group], starts[group + 1])]]);
        expect(groups).toEqual(naiveGroups(all, [...rows], by));
      }),
      { numRuns: 300 },
    );
  });
});

describe('GroupLines', () => {
  test('lists each group and the rows of those that are not folded, and finds each row on its line', () => {
    fc.assert(
      fc.property(drawn, fc.nat(80), fc.nat(80), ({ all, by, folded, except }, first, length) => {
        const log = logOf(...all);
        const grouped = groupRows(log, new Uint8Array(log.count), identityOrder(log.count), by);
        const lines = new GroupLines(grouped, { folded, except });
        const expected = naiveGroups(all, [...all.keys()], by).flatMap(([label, rows], group) => [
          { group, row: undefined },
          ...(folded === except.includes(label) ? rows.map((row) => ({ group, row })) : []),
        ]);
        expect(lines.count).toBe(expected.length);
        expect(Array.from({ length: lines.count }, (_, line) => lines.at(line))).toEqual(expected);
        for (const row of all.keys()) expect(lines.lineOf(row)).toBe(expected.findIndex((line) => line.row === row));
        const between = expected.slice(first, first + length + 1).flatMap(({ row }) => row ?? []);
        expect([...lines.rowsBetween(first, first + length)]).toEqual(between);
      }),
      { numRuns: 300 },
    );
  });

  test('refuses a line that is not there', () => {
    const log = logOf({});
    const lines = new GroupLines(groupRows(log, new Uint8Array(1), identityOrder(1), 'repair'), { folded: true, except: [] }); // prettier-ignore
    expect(lines.count).toBe(1);
    expect(() => lines.at(1)).toThrow('no line 1');
  });
});
