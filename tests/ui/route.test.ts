import fc from '../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { LISTED_FIELDS, type ReadingsQuery } from '../../src/session/answers.ts';
import { MODES, STAGES } from '../../src/domain/reading.ts';
import {
  BAND_VIEWS,
  PLACES,
  bandsHash,
  hashOf,
  parseRoute,
  readCheck,
  readReadingsQuery,
  readingsHash,
  writeReadingsQuery,
} from '../../src/ui/route.ts';

describe('parseRoute(hash)', () => {
  test('finds the place, the item and the view', () => {
    expect(parseRoute('#/shift')).toEqual({ place: 'shift', query: '' });
    expect(parseRoute('#/repairs/T-0131')).toEqual({ place: 'repairs', item: 'T-0131', query: '' });
    expect(parseRoute('#/bands?family=HERON-48')).toEqual({ place: 'bands', query: 'family=HERON-48' });
  });

  test.each(['', '#', '#/', '#/nowhere', '#/__proto__', '#//T-0131'])('takes %j for the first place', (hash) => {
    expect(parseRoute(hash).place).toBe('shift');
  });

  test('keeps an item whose escapes are broken as it stands', () => {
    expect(parseRoute('#/repairs/100%')).toEqual({ place: 'repairs', item: '100%', query: '' });
  });

  test('reads what hashOf wrote, whatever the item is called', () => {
    fc.assert(
      fc.property(fc.constantFrom(...PLACES), fc.string({ minLength: 1, unit: 'grapheme' }), (place, item) => {
        expect(parseRoute(hashOf(place, item))).toEqual({ place, item, query: '' });
      }),
    );
  });
});

describe('readings in the address', () => {
  test('are written so that they can be read and typed', () => {
    const query: ReadingsQuery = {
      filters: [
        { field: 'family', oneOf: ['HERON-48', 'PLOVER-32'] },
        { field: 'time', from: 0, to: 86_400_000 },
        { field: 'text', contains: 'Q1 D→S' },
      ],
      sort: [
        { field: 'reading', descending: true },
        { field: 'time', descending: false },
      ],
    };
    expect(readingsHash(query)).toBe(
      '#/readings?family=HERON-48&family=PLOVER-32&time.from=0&time.to=86400000&text=Q1+D%E2%86%92S&sort=-reading+time',
    );
    expect(readReadingsQuery(writeReadingsQuery(query))).toEqual(query);
  });

  test('without filters and order are the plain place', () => {
    expect(readingsHash({})).toBe('#/readings');
    expect(readReadingsQuery('')).toEqual({ filters: [], sort: [] });
  });

  test('survive the way there and back for any value', () => {
    const filter = fc.record({
      field: fc.constantFrom(...LISTED_FIELDS),
      oneOf: fc.array(fc.string({ unit: 'grapheme' }), { minLength: 1, maxLength: 3 }),
    });
    fc.assert(
      fc.property(filter, fc.double({ noNaN: true, noDefaultInfinity: true }), (listed, from) => {
        const query: ReadingsQuery = { filters: [listed, { field: 'reading', from }], sort: [] };
        expect(readReadingsQuery(writeReadingsQuery(query))).toEqual({
          filters: [listed, { field: 'reading', from: Object.is(from, -0) ? 0 : from }],
          sort: [],
        });
      }),
    );
  });

  test('pass over what is not understood', () => {
    expect(readReadingsQuery('colour=red&time.from=noon&reading.to=&sort=-weight+time&text=')).toEqual({
      filters: [],
      sort: [{ field: 'time', descending: false }],
    });
  });
});

describe('bands in the address', () => {
  test('name a view and what it is about', () => {
    expect(bandsHash()).toBe('#/bands');
    expect(bandsHash(undefined, { family: 'HERON-48' })).toBe('#/bands?family=HERON-48');
    const check = { family: 'HERON-48', point: 'Q1 D→S', stage: 'part out', mode: 'resistance' } as const;
    expect(bandsHash('check', check)).toBe(
      '#/bands/check?family=HERON-48&point=Q1+D%E2%86%92S&stage=part+out&mode=resistance',
    );
  });

  test('survive the way there and back, whatever family and point are called', () => {
    const text = fc.string({ unit: 'grapheme' });
    const check = fc.record({ family: text, point: text, stage: fc.constantFrom(...STAGES), mode: fc.constantFrom(...MODES) }); // prettier-ignore
    fc.assert(
      fc.property(fc.constantFrom(...BAND_VIEWS), check, (view, about) => {
        const route = parseRoute(bandsHash(view, about));
        expect(route.item).toBe(view);
        expect(readCheck(route.query)).toEqual(about);
      }),
    );
  });

  test('pass over a stage and a mode that are none', () => {
    expect(readCheck('family=HERON-48&stage=lunch&mode=')).toEqual({ family: 'HERON-48' });
  });
});
