import { describe, expect, test } from 'vitest';
import type { DateOrder } from '../../src/domain/file-plan.ts';
import { TimeScanner } from '../../src/intake/time-scanner.ts';

const scanner = new TimeScanner();

function scan(cell: string, order: DateOrder = 'year-month-day'): string {
  const fault = scanner.scan(cell, order);
  if (fault !== undefined) return fault.wrong;
  const iso = new Date(scanner.time).toISOString();
  if (scanner.parts === 'day') return iso.slice(0, 10);
  return scanner.parts === 'clock' ? iso.slice(11) : iso;
}

describe('ISO 8601', () => {
  // Examples of ISO 8601:2004, 4.1 to 4.3, and RFC 3339, 5.8; the wall time stays as written.
  test.each([
    ['19850412', '1985-04-12'],
    ['1985-04-12', '1985-04-12'],
    ['1985-04-12T10:15:30', '1985-04-12T10:15:30.000Z'],
    ['19850412T101530', '1985-04-12T10:15:30.000Z'],
    ['19850412T1015', '1985-04-12T10:15:00.000Z'],
    ['1985-04-12T10:15', '1985-04-12T10:15:00.000Z'],
    ['1985-04-12T10:15:30+04:00', '1985-04-12T10:15:30.000Z'],
    ['1985-04-12T10:15:30+04', '1985-04-12T10:15:30.000Z'],
    ['19850412T101530Z', '1985-04-12T10:15:30.000Z'],
    ['1985-04-12T23:20:50.52Z', '1985-04-12T23:20:50.520Z'],
    ['1996-12-19T16:39:57-08:00', '1996-12-19T16:39:57.000Z'],
    ['1985-04-12T23:20:30,5', '1985-04-12T23:20:30.500Z'],
    ['1985-04-12T24:00:00', '1985-04-13T00:00:00.000Z'],
    ['23:20:50', '23:20:50.000Z'],
    ['23:20', '23:20:00.000Z'],
  ])('%s is %s', (cell, expected) => {
    expect(scan(cell)).toBe(expected);
  });

  test('a stated zone is left off and told', () => {
    scan('1985-04-12T10:15:30+04:00');
    expect(scanner.zoned).toBe(true);
    scan('2022-01-01 10:00:00 EST');
    expect(scanner.zoned).toBe(true);
    scan('1985-04-12T10:15:30');
    expect(scanner.zoned).toBe(false);
  });
});

describe('the cousins', () => {
  test.each([
    ['2026/03/01 08:15', 'year-month-day', '2026-03-01T08:15:00.000Z'],
    ['2022-05-25 10.39.15', 'year-month-day', '2022-05-25T10:39:15.000Z'],
    ['01.02.2026', 'day-month-year', '2026-02-01'],
    ['01.02.2026 08:15', 'day-month-year', '2026-02-01T08:15:00.000Z'],
    ['12.03.26', 'day-month-year', '2026-03-12'],
    ['1/2/2023, 12:33 PM', 'month-day-year', '2023-01-02T12:33:00.000Z'],
    ['1/2/2023, 12:33 PM', 'day-month-year', '2023-02-01T12:33:00.000Z'],
    ['02/04/90 12:12:00 AM', 'month-day-year', '1990-02-04T00:12:00.000Z'],
    ['24 October 2011', 'year-month-day', '2011-10-24'],
    ['Oct 24, 2011 6:05 pm', 'year-month-day', '2011-10-24T18:05:00.000Z'],
    ['1-Jan-26 08:15:00', 'year-month-day', '2026-01-01T08:15:00.000Z'],
    ['2020-03-01T08:15:00.1234567', 'year-month-day', '2020-03-01T08:15:00.123Z'],
    ['12:00 AM', 'year-month-day', '00:00:00.000Z'],
    ['12:00 p.m.', 'year-month-day', '12:00:00.000Z'],
  ] as const)('%s, %s, is %s', (cell, order, expected) => {
    expect(scan(cell, order)).toBe(expected);
  });

  // POSIX.1-2017, strptime, %y: 69 to 99 are 1969 to 1999, 00 to 68 are 2000 to 2068.
  test.each([
    ['01.01.69', '1969-01-01'],
    ['01.01.68', '2068-01-01'],
  ])('%s is %s', (cell, expected) => {
    expect(scan(cell, 'day-month-year')).toBe(expected);
  });

  test('a day that no calendar has is refused', () => {
    for (const cell of ['2024-02-30', '2023-02-29', '2024-13-01', '2024-00-10', '2024-04-31T10:00:00', '1900-02-29']) {
      expect(scan(cell)).toContain('no calendar has');
    }
    expect(scan('2000-02-29')).toBe('2000-02-29');
  });

  test('a time that no clock shows is refused', () => {
    for (const cell of ['2024-02-01 25:00', '2024-02-01 10:61', '2024-02-01 13:00 PM', '2024-02-01 24:01:00']) {
      expect(scan(cell)).toContain('no time of day');
    }
  });

  test('day and month in doubt are refused where the file does not settle their order', () => {
    expect(scan('03/10/2024')).toContain('does not settle');
  });

  test.each(['', 'soon', '45000.5', '1700000000', '2026', 'x'.repeat(10_000), '2026-03-01Tnoon'])(
    '“%s” is no time',
    (cell) => {
      expect(scan(cell)).toMatch(/^(is no|has “)/);
    },
  );

  test('a time within a clock change stays as written', () => {
    // 2026-03-29 02:30 does not exist in most of Europe, and 2026-10-25 02:30 exists twice.
    expect(scan('2026-03-29T02:30:00')).toBe('2026-03-29T02:30:00.000Z');
    expect(scan('2026-10-25T02:30:00')).toBe('2026-10-25T02:30:00.000Z');
  });
});
