import { describe, expect, test } from 'vitest';
import {
  familyQuery,
  readDay,
  readFamilyAsked,
  withAsked,
  writeFamilyAsked,
  type FamilyAsked,
} from '../../src/ui/panels/families-query.ts';

const DAY = 86_400_000;
const usual: FamilyAsked = { good: [], kitShare: 0.9, stockWeeks: 4, stockEnough: 0.95, prices: new Map() };

describe('the address of a family’s page', () => {
  test('says nothing of what is as usual', () => {
    expect(readFamilyAsked('')).toEqual(usual);
    expect(writeFamilyAsked(usual).toString()).toBe('');
  });

  test('is read as it was written', () => {
    const asked: FamilyAsked = {
      from: Date.UTC(2026, 0, 5),
      to: Date.UTC(2026, 2, 31),
      complaint: 'sound but no picture',
      meter: 'M2',
      watched: Date.UTC(2026, 3, 1),
      told: 'flicker',
      good: ['Q1', 'D3'],
      part: 'Q1',
      kitShare: 0.58,
      stockWeeks: 6,
      stockEnough: 0.999,
      prices: new Map([
        ['Q1', 2.5],
        ['D3', 0],
      ]),
      fee: 45,
      beside: 'CURLEW-60',
    };
    expect(readFamilyAsked(writeFamilyAsked(asked).toString())).toEqual(asked);
  });

  test('passes over what nobody can mean', () => {
    const query = 'from=yesterday&to=2026-02-31&kit=0&weeks=-1&enough=100&fee=x&fee=&price.Q1=&price.D3=-2&price.U1=x';
    expect(readFamilyAsked(query)).toEqual(usual);
  });

  test('loses an entry that is taken away', () => {
    expect(withAsked({ ...usual, meter: 'M1' }, { meter: undefined })).toEqual(usual);
  });
});

test('the worker is asked for the last day as a whole, and for boards watched until the day given', () => {
  const asked = { ...usual, from: 0, to: DAY, told: 'flicker', good: ['Q1'], fee: 40 };
  expect(familyQuery('HERON-48', asked)).toEqual({
    family: 'HERON-48',
    from: 0,
    to: 2 * DAY - 1,
    kitShare: 0.9,
    stockWeeks: 4,
    stockEnough: 0.95,
    fee: 40,
    soFar: { complaint: 'flicker', cleared: ['Q1'] },
  });
  expect(familyQuery('HERON-48', { ...asked, watched: DAY }).watched).toBe(DAY);
});

test('a day that is none is none', () => {
  expect(readDay('2026-03-14')).toBe(Date.UTC(2026, 2, 14));
  expect([readDay('2026-13-01'), readDay('14.3.2026'), readDay(undefined)]).toEqual([undefined, undefined, undefined]);
});
