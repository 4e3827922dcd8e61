import fc from '../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { DERIVED_FIELDS, GROUP_FIELDS, LISTED_FIELDS, type ReadingsQuery } from '../../src/session/answers.ts';
import { FIRST_LAYOUT, withPinned, withShown } from '../../src/ui/grid/column-layout.ts';
import {
  readReadingsAddress,
  readViewAddress,
  writeReadingsAddress,
  writeViewAddress,
} from '../../src/ui/panels/readings-address.ts';
import { parseRoute } from '../../src/ui/route.ts';

const queries: fc.Arbitrary<ReadingsQuery> = fc.record(
  {
    filters: fc.constantFrom(
      [{ field: 'family', oneOf: ['HERON-48', 'a & b=c'] }] as const,
      [{ field: 'reading', from: 11.4, to: 12.6, unit: 'V' }] as const,
      [{ field: 'reading', to: 640e3, unit: 'Ω' }] as const,
    ),
    sort: fc.uniqueArray(
      fc.record({ field: fc.constantFrom(...LISTED_FIELDS, ...DERIVED_FIELDS, 'time' as const), descending: fc.boolean() }),
      { maxLength: 3, selector: ({ field }) => field },
    ),
    group: fc.record({ by: fc.constantFrom(...GROUP_FIELDS), folded: fc.boolean(), except: fc.array(fc.string(), { maxLength: 3 }) }),
  },
  { requiredKeys: ['filters', 'sort'] },
); // prettier-ignore

describe('the address of a kept view', () => {
  test('names the columns even where they are the first ones, and is understood whole', () => {
    fc.assert(
      fc.property(queries, (query) => {
        const address = writeViewAddress({ query, layout: FIRST_LAYOUT });
        expect(readViewAddress(address)).toEqual({ address, whole: true });
        expect(readReadingsAddress(parseRoute(address).query).layout).toEqual(FIRST_LAYOUT);
      }),
      { numRuns: 100 },
    );
  });

  test('that names what is not known here is read as far as it is', () => {
    expect(readViewAddress('#/readings?family=A&colour=red&sort=colour')).toEqual({
      address: '#/readings?family=A',
      whole: false,
    });
  });
});

describe('an address of readings', () => {
  test('is read as it was written, groups and derived sort keys included', () => {
    fc.assert(
      fc.property(queries, (query) => {
        const hash = writeReadingsAddress({ query, layout: FIRST_LAYOUT });
        expect(readReadingsAddress(parseRoute(hash).query)).toEqual({ query });
      }),
      { numRuns: 200 },
    );
  });

  test('holds columns where they are not the first ones', () => {
    const layout = withPinned(withShown(FIRST_LAYOUT, 'margin', true), 'point', true);
    const hash = writeReadingsAddress({ query: { filters: [], sort: [] }, layout });
    expect(hash).toBe(
      '#/readings?columns=point*+time+repair+family+stage+mode+reading+tape+verdict+meter+origin+margin',
    );
    expect(readReadingsAddress(parseRoute(hash).query).layout?.slice(0, 2)).toEqual([
      { id: 'point', shown: true, pinned: true },
      { id: 'time', shown: true, pinned: false },
    ]);
  });

  test('that was typed by hand says what is understood of it', () => {
    const text = 'sort=-margin+colour+reading&group=colour&columns=colour&family=A';
    expect(readReadingsAddress(text)).toEqual({
      query: {
        filters: [{ field: 'family', oneOf: ['A'] }],
        sort: [{ field: 'margin', descending: true }, { field: 'reading', descending: false }],
      },
    }); // prettier-ignore
  });
});
