import { describe, expect, test } from 'vitest';
import type { Family } from '../../src/domain/family.ts';
import type { Repair } from '../../src/domain/repair.ts';
import { repairFault, repairOddities } from '../../src/domain/repair-fault.ts';
import type { Reading } from '../../src/domain/reading.ts';
import { reading } from '../support/readings.ts';

const day = (date: number): number => Date.UTC(2026, 2, date);
const repair = (changes: Partial<Repair> = {}): Repair => ({
  id: 'T-0131',
  family: 'HERON-48',
  complaint: 'no standby light',
  received: day(12),
  returned: day(16),
  outcome: 'returned working',
  replaced: [],
  ...changes,
});

describe('repairFault(repair, others)', () => {
  const first = repair({ id: 'T-0100', received: day(1), returned: day(5), outcome: 'comeback' });
  const fault = (changes: Partial<Repair>, isNew = false) =>
    repairFault(repair(changes), new Map([[first.id, first]]), isNew);

  test('finds nothing wrong with a whole repair, one of an unknown family, and one without days', () => {
    expect(fault({})).toBeUndefined();
    expect(fault({ family: 'WREN-19', comebackOf: 'T-0100' })).toBeUndefined();
    expect(fault({ received: NaN, returned: NaN, comebackOf: 'T-0100' })).toBeUndefined();
  });

  test.each([
    [{ id: ' ' }, 'id', /^A repair needs an id\.$/],
    [{ returned: day(11) }, 'returned', /returned before it was received/],
    [{ outcome: 'open' }, 'outcome', /open repair has no day of return/],
    [{ comebackOf: 'T-0131' }, 'comebackOf', /comeback of itself/],
    [{ comebackOf: 'T-9999' }, 'comebackOf', /No repair T-9999 is known/],
    [{ comebackOf: 'T-0100', received: day(4) }, 'comebackOf', /received before T-0100 was returned/],
  ] as const)('says what is wrong with %o, and at which field', (changes, field, sentence) => {
    expect(fault(changes)).toEqual({ field, sentence: expect.stringMatching(sentence) as string });
  });

  test('a repair that is added takes nobody’s place', () => {
    expect(fault({ id: 'T-0100' }, true)).toMatchObject({ field: 'id', sentence: expect.stringContaining('T-0100 is on the bench already') as string }); // prettier-ignore
    expect(fault({ id: 'T-0100' })).toBeUndefined();
    expect(fault({}, true)).toBeUndefined();
  });

  test('says that two repairs cannot be the comeback of each other', () => {
    const other = { ...first, comebackOf: 'T-0131' };
    expect(repairFault(repair({ comebackOf: 'T-0100' }), new Map([[other.id, other]]))?.sentence).toMatch(/one of the two was first/);
  }); // prettier-ignore
});

describe('repairOddities(repair, family, isDeclared, readings, mark)', () => {
  const family: Family = {
    name: 'HERON-48',
    boost: true,
    points: [],
    parts: [
      { designator: 'D4', nodes: ['winding', 'rail'] },
      { designator: 'D5', nodes: ['rail', 'winding'] },
    ],
  };
  const at = (minute: number, given: Partial<Reading> = {}): Reading =>
    reading({ time: day(14) + minute * 60_000, origin: { file: 'shift.csv', line: minute + 2 }, ...given });
  const odd = (readings: readonly Reading[], changes: Partial<Repair> = {}) =>
    repairOddities(repair(changes), family, true, readings, '.');

  test('finds nothing odd in readings in order', () => {
    expect(odd([at(1), at(2), at(3)])).toEqual([]);
  });

  test('tells readings whose lines and times disagree, and those without a time', () => {
    expect(odd([at(1, { origin: { file: 'shift.csv', line: 9 } }), at(2), at(3, { time: NaN })])).toEqual([
      '1 reading has no known time: it stands last.',
      'In shift.csv, 1 reading has an earlier line than a reading of an earlier time: they are shown in the order of their times.',
    ]);
  });

  test('tells a part that was fitted before it came out, unless one across the same nodes had come out', () => {
    const part = (minute: number, designator: string, stage: Reading['stage']) => at(minute, { point: `${designator} A→K`, stage }); // prettier-ignore
    expect(odd([part(1, 'D4', 'refitted'), part(2, 'D4', 'part out')])).toEqual([
      'D4 reads as refitted before it came out: a stage or a time is wrong.',
    ]);
    expect(odd([part(1, 'D5', 'part out'), part(2, 'D4', 'refitted'), part(3, 'D4', 'part out')])).toEqual([]);
  });

  test('tells two meters at one moment', () => {
    expect(odd([at(1, { meter: 'M1' }), at(1, { meter: 'M2', origin: { file: 'shift.csv', line: 4 } })])).toEqual([
      'M1 and M2 read at the same moment, once: one of the clocks may be wrong.',
    ]);
  });

  test('tells a family that nobody declared, and readings of another', () => {
    const [undeclared] = repairOddities(
      repair({ family: 'WREN-19' }),
      undefined,
      false,
      [at(1, { family: 'WREN-19' })],
      '.',
    );
    expect(undeclared).toMatch(/^Nobody has declared the family WREN-19/);
    expect(odd([at(1, { family: 'PLOVER-32' })])[0]).toMatch(/name the family PLOVER-32, and the repair HERON-48/);
    expect(odd([], { family: '' })[0]).toMatch(/No family is given/);
  });

  test('tells readings before the board was received and after it was returned', () => {
    expect(odd([at(1, { time: day(11) }), at(2, { time: day(16) }), at(3, { time: day(17) })])).toEqual([
      '1 reading has a time before the board was received.',
      '1 reading has a time after the board was returned.',
    ]);
  });
});
