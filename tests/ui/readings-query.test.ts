import fc from '../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import {
  countSentence,
  filterOn,
  filterSentence,
  readNumber,
  readTime,
  toggleValue,
  valuesOn,
  withFilter,
  withoutFilter,
  writeNumber,
  writeTime,
} from '../../src/ui/panels/readings-query.ts';
import type { Filter, ReadingsQuery } from '../../src/session/answers.ts';

const noon = Date.UTC(2026, 2, 14, 12);

describe('a filter as a sentence', () => {
  test.each<[Filter, string]>([
    [{ field: 'family', oneOf: ['HERON-48'] }, 'family is HERON-48'],
    [{ field: 'family', oneOf: ['HERON-48', 'PLOVER-32'] }, 'family is HERON-48 or PLOVER-32'],
    [{ field: 'meter', oneOf: ['M1', 'M2', 'B1'] }, 'meter is M1, M2 or B1'],
    [{ field: 'repair', oneOf: ['a', 'b', 'c', 'd'] }, 'repair is a, b, c or d'],
    [{ field: 'repair', oneOf: ['a', 'b', 'c', 'd', 'e'] }, 'repair is a, b, c or 2 others'],
    [{ field: 'repair', oneOf: Array.from({ length: 1237 }, (_, at) => `${at}`) }, 'repair is 0, 1, 2 or 1,234 others'],
    [{ field: 'meter', oneOf: ['', 'M1'] }, 'meter is not stated or M1'],
    [{ field: 'text', contains: 'Q1' }, 'a text holds “Q1”'],
    [{ field: 'time', from: noon }, 'time is 2026-03-14 12:00 or later'],
    [{ field: 'time', to: noon + 1000 }, 'time is 2026-03-14 12:00:01 or earlier'],
    [{ field: 'time', from: noon, to: noon + 60_000 }, 'time is 2026-03-14 12:00 to 2026-03-14 12:01'],
    [{ field: 'reading', from: 11.4, to: 12.6 }, 'reading is 11.4 to 12.6'],
    [{ field: 'reading', from: 640e3 }, 'reading is 640\u00a0k or more'],
    [{ field: 'reading', from: 640e3, unit: 'Ω' }, 'reading is 640\u00a0kΩ or more'],
    [{ field: 'reading', from: 11.4, to: 12.6, unit: 'V' }, 'reading is 11.4\u00a0V to 12.6\u00a0V'],
    [{ field: 'reading', to: 0.1 }, 'reading is 100\u00a0m or less'],
  ])('%o', (filter, sentence) => {
    expect(filterSentence(filter, '.')).toBe(sentence);
  });

  test('is written with the decimal mark of the technician', () => {
    expect(filterSentence({ field: 'reading', from: 11.4 }, ',')).toBe('reading is 11,4 or more');
  });
});

test.each([
  [{ readings: 1, repairs: 1, outOfBand: 0 }, '1 reading of 1 repair, none out of band'],
  [{ readings: 4012, repairs: 152, outOfBand: 619 }, '4,012 readings of 152 repairs, 619 out of band'],
])('the count %o is a sentence', (count, sentence) => {
  expect(countSentence({ filters: [], sort: [] }, count, '.')).toBe(sentence);
});

test('no readings are told with what to do about it', () => {
  const none = { readings: 0, repairs: 0, outOfBand: 0 };
  expect(countSentence({ filters: [], sort: [] }, none, '.')).toBe('No readings yet: bring a log in.');
  expect(countSentence({ filters: [{ field: 'text', contains: 'Q1' }], sort: [] }, none, '.')).toBe(
    'No reading fits all of this: remove something.',
  );
});

describe('a query', () => {
  const query: ReadingsQuery = {
    filters: [
      { field: 'family', oneOf: ['HERON-48'] },
      { field: 'text', contains: 'Q1' },
    ],
    sort: [{ field: 'time', descending: true }],
  };

  test('takes a filter in the place of the one on the same field, and a new one at its end', () => {
    const changed = withFilter(query, { field: 'family', oneOf: ['CURLEW-60'] });
    expect(changed.filters.map(({ field }) => field)).toEqual(['family', 'text']);
    expect(valuesOn(changed, 'family')).toEqual(['CURLEW-60']);
    expect(withFilter(query, { field: 'reading', from: 1 }).filters.at(-1)).toEqual({ field: 'reading', from: 1 });
    expect(changed.sort).toBe(query.sort);
  });

  test.each<Filter>([{ field: 'family', oneOf: [] }, { field: 'text', contains: '' }, { field: 'time' }])(
    'loses a filter that asks for nothing: %o',
    (filter) => {
      expect(filterOn(withFilter(query, filter), filter.field)).toBeUndefined();
    },
  );

  test('loses a filter by its field', () => {
    expect(withoutFilter(query, 'family').filters).toEqual([{ field: 'text', contains: 'Q1' }]);
    expect(withoutFilter(query, 'meter')).toEqual(query);
  });

  test('gains and loses single values', () => {
    const two = toggleValue(query, 'family', 'PLOVER-32');
    expect(valuesOn(two, 'family')).toEqual(['HERON-48', 'PLOVER-32']);
    expect(valuesOn(toggleValue(two, 'family', 'HERON-48'), 'family')).toEqual(['PLOVER-32']);
    expect(filterOn(toggleValue(query, 'family', 'HERON-48'), 'family')).toBeUndefined();
    expect(valuesOn(toggleValue(query, 'stage', 'live'), 'stage')).toEqual(['live']);
  });
});

describe('a number that is typed in', () => {
  /** Prefixes: BIPM, The International System of Units, 9th edition, table 7. */
  test.each([
    ['12.7', 12.7],
    ['12,7', 12.7],
    [' 12.7 V ', 12.7],
    ['640k', 640e3],
    ['640 kΩ', 640e3],
    ['0.64 M', 0.64e6],
    ['-5', -5],
    ['\u22125', -5],
    ['100u', 100e-6],
    ['100 µF', 100e-6],
    ['100 \u03bcF', 100e-6],
    ['5 \u2126', 5],
    ['4.7 A', 4.7],
    ['0', 0],
  ])('%s is read', (text, value) => {
    expect(readNumber(text)?.value).toBeCloseTo(value, 12);
  });

  test.each(['', 'OL', '12..7', '12 7', '1e3', '0x10', 'Infinity', '12 x', '12 kkΩ'])('%s is not', (text) => {
    expect(readNumber(text)).toBeUndefined();
  });

  test('is what was written', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-12, max: 1e10, noNaN: true }), fc.boolean(), (magnitude, negative) => {
        const value = Number(magnitude.toPrecision(9)) * (negative ? -1 : 1);
        // The number is written with twelve digits.
        for (const mark of ['.', ','] as const) {
          expect((readNumber(writeNumber(value, mark))?.value ?? NaN) / value).toBeCloseTo(1, 11);
        }
      }),
    );
  });
});

describe('a time that is typed in', () => {
  test.each([
    ['2026-03-14', Date.UTC(2026, 2, 14)],
    ['2026-03-14T12:00', noon],
    ['2026-03-14T12:00:01', noon + 1000],
    ['2026-03-14T12:00:01.5', noon + 1500],
  ])('%s is read as wall time, whatever the zone', (text, time) => {
    expect(readTime(text)).toBe(time);
  });

  test.each(['', 'noon', '2026-13-01', '2026-03-14T25:00', '14.03.2026'])('%s is not', (text) => {
    expect(readTime(text)).toBeUndefined();
  });

  test('is what was written', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: Date.UTC(2100, 0) }), (time) => {
        expect(readTime(writeTime(time))).toBe(time);
      }),
    );
  });
});
