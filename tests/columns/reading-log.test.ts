import { describe, expect, test } from 'vitest';
import { appendLog, emptyLog, resolveFamilies, takeRows } from '../../src/columns/append.ts';
import { bytesOf, readingAt } from '../../src/columns/reading-log.ts';
import { logOf, reading } from '../support/readings.ts';

describe('LogBuilder and readingAt(log, row)', () => {
  test('give back every reading as it was added, also beyond the room made at first', () => {
    const readings = Array.from({ length: 9 }, (_, index) =>
      reading({
        repair: `T-${index}`,
        point: index % 2 ? 'bulk' : 'Q1 D→S',
        value: index,
        state: index === 3 ? 'blank' : 'value',
      }),
    );
    const log = logOf(...readings);
    expect(readings.map((_, row) => readingAt(log, row))).toEqual(readings);
  });

  test('readingAt(log, row) refuses a row that is not there', () => {
    expect(() => readingAt(logOf({}), 1)).toThrow('no row 1');
  });

  test('a log holds at most 64 bytes a reading', () => {
    const log = logOf({}, {}, {}, {});
    expect(bytesOf(log) / log.count).toBeLessThanOrEqual(64);
  });
});

describe('appendLog(first, second)', () => {
  test('keeps the readings of both, whatever codes their names had', () => {
    const first = logOf({ repair: 'T-1', meter: 'M2' }, { repair: 'T-2', point: 'bulk' });
    const second = logOf({ repair: 'T-2', meter: 'B1' }, { repair: 'T-3', family: 'PLOVER-32', meter: 'M2' });
    const before = JSON.stringify(readingAt(first, 1));
    const both = appendLog(first, second);
    expect([0, 1, 2, 3].map((row) => readingAt(both, row))).toEqual([
      readingAt(first, 0),
      readingAt(first, 1),
      readingAt(second, 0),
      readingAt(second, 1),
    ]);
    expect(JSON.stringify(readingAt(first, 1))).toBe(before);
    expect(first.names.repairs.labels).toEqual(['T-1', 'T-2']);
  });

  test('adding to an empty log gives the log', () => {
    const log = logOf({}, { value: 5 });
    expect(readingAt(appendLog(emptyLog(), log), 1)).toEqual(readingAt(log, 1));
  });
});

describe('takeRows(log, rows)', () => {
  test('gives the rows asked for, in their order', () => {
    const log = logOf({ value: 1 }, { value: 2 }, { value: 3 });
    const taken = takeRows(log, Uint32Array.of(2, 0));
    expect([readingAt(taken, 0).value, readingAt(taken, 1).value, taken.count]).toEqual([3, 1, 2]);
  });

  test('keeps no name that no row uses', () => {
    const log = logOf({ repair: 'T-1', meter: 'M2' }, { repair: 'T-2', point: 'bulk' });
    const taken = takeRows(log, Uint32Array.of(1));
    expect(readingAt(taken, 0)).toEqual(readingAt(log, 1));
    expect([taken.names.repairs.labels, taken.names.meters.labels, taken.names.checks.size]).toEqual([
      ['T-2'],
      ['M1'],
      1,
    ]);
  });
});

describe('resolveFamilies(log, familyOf)', () => {
  test('takes the family from the repair where the log names none, and leaves the rest alone', () => {
    const log = logOf(
      { repair: 'T-1', family: '' },
      { repair: 'T-2', family: 'PLOVER-32' },
      { repair: 'T-9', family: '' },
    );
    const resolved = resolveFamilies(log, (repair) => (repair === 'T-9' ? undefined : 'HERON-48'));
    expect([0, 1, 2].map((row) => readingAt(resolved, row).family)).toEqual(['HERON-48', 'PLOVER-32', '']);
    expect(readingAt(log, 0).family).toBe('');
  });
});
