import fc from '../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { emptyLog } from '../../src/columns/append.ts';
import { newRows } from '../../src/columns/known-rows.ts';
import type { Reading } from '../../src/domain/reading.ts';
import { logOf } from '../support/readings.ts';

const at = (minute: number): number => Date.UTC(2026, 2, 14, 9, minute);

describe('newRows(present, added)', () => {
  test('finds the rows that a log has grown by', () => {
    const first = [{ time: at(1), value: 12.1 }, { time: at(2), value: 12.2 }] as const; // prettier-ignore
    const grown = [...first, { time: at(3), value: 12.1 }];
    expect([...newRows(logOf(...first), logOf(...grown))]).toEqual([2]);
    expect([...newRows(emptyLog(), logOf(...first))]).toEqual([0, 1]);
  });

  test('keeps a reading that was really taken twice', () => {
    const twice = [{ time: at(1) }, { time: at(1) }];
    expect([...newRows(logOf({ time: at(1) }), logOf(...twice))]).toEqual([1]);
  });

  test('takes a reading as new where anything about it differs', () => {
    const present = logOf({ time: at(1) });
    const others: Partial<Reading>[] = [
      { value: 12.01 },
      { repair: 'T-2' },
      { family: 'PLOVER-32' },
      { point: 'bulk' },
      { stage: 'run-in' },
      { mode: 'AC volts' },
      { specimen: 'new part' },
      { state: 'blank', value: NaN },
      { meter: 'M2' },
      { time: at(2) },
    ];
    for (const other of others) expect([...newRows(present, logOf({ time: at(1), ...other }))]).toEqual([0]);
  });

  test('recognises over-range rows and never rows without a time', () => {
    const over = { time: at(1), state: 'over-range', value: NaN } as const;
    expect([...newRows(logOf(over), logOf(over))]).toEqual([]);
    expect([...newRows(logOf({ time: NaN }), logOf({ time: NaN }))]).toEqual([0]);
  });

  test('finds as many known rows as a naive comparison', () => {
    const row = fc.record({ time: fc.nat(3).map(at), value: fc.nat(2), repair: fc.constantFrom('T-1', 'T-2') });
    const rows = fc.array(row, { maxLength: 12 });
    fc.assert(
      fc.property(rows, rows, (present, added) => {
        const left = present.map((one) => JSON.stringify(one));
        const expected = added.flatMap((one, index) => {
          const place = left.indexOf(JSON.stringify(one));
          if (place < 0) return [index];
          left.splice(place, 1);
          return [];
        });
        const given = (list: typeof added): Partial<Reading>[] =>
          list.map(({ time, value, repair }) => ({ time, value, repair }));
        expect([...newRows(logOf(...given(present)), logOf(...given(added)))]).toEqual(expected);
      }),
    );
  });
});
