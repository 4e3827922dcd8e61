import { describe, expect, test } from 'vitest';
import type { RepairsQuery } from '../../src/session/answers.ts';
import { readRepairsQuery, repairsPhrase, writeRepairsQuery } from '../../src/ui/panels/repairs-query.ts';

const DAY = 86_400_000;
const full: RepairsQuery = {
  family: 'HERON-48',
  complaint: 'no standby light',
  meter: 'M2',
  bench: 'door',
  failedClass: 'Q',
  failed: ['Q1', 'F1'],
  suspected: ['D4'],
  replaced: ['D5'],
  replacedGood: ['D4'],
  readBad: ['D4'],
  beyondKit: ['Q1', 'F1'],
  from: 0,
  to: 7 * DAY - 1,
  outcome: 'comeback',
  cameBack: true,
};

describe('an address of repairs', () => {
  test('is read as it was written', () => {
    expect(readRepairsQuery(writeRepairsQuery(full))).toEqual(full);
    expect(readRepairsQuery(writeRepairsQuery({ bench: 'door & window' }))).toEqual({ bench: 'door & window' });
  });

  test('narrows nothing where it says nothing of repairs, or nothing that can be', () => {
    expect(readRepairsQuery(new URLSearchParams('text=HERON&sort=family&from=100&add'))).toBeUndefined();
    expect(readRepairsQuery(new URLSearchParams('since=yesterday&until=1e99&outcome=eaten&since='))).toBeUndefined();
  });
});

describe('repairsPhrase(query, count, mark)', () => {
  test.each<[RepairsQuery, number, string]>([
    [{ family: 'HERON-48', failed: ['Q1'] }, 17, '17 repairs of HERON-48 in which Q1 is proved failed'],
    [{ family: 'HERON-48', failed: ['Q1', 'F1'], bench: 'door' }, 1, '1 repair of HERON-48 at bench door in which Q1 and F1 are proved failed'],
    [{ from: 0, to: 7 * DAY - 1 }, 1200, '1.200 repairs begun from 1970-01-01 up to 1970-01-07'],
    [{ to: 0, replaced: ['D4'] }, 2, '2 repairs begun up to 1970-01-01 in which D4 was replaced'],
    [{ family: 'X', cameBack: true }, 3, '3 repairs of X whose board came back'],
    [{ beyondKit: ['Q1', 'D4'] }, 4, '4 repairs in which another part was needed than Q1 and D4'],
    [{ complaint: 'flicker', suspected: ['D4'], readBad: ['D5'] }, 2, '2 repairs under “flicker” in which D4 is suspected and D5 read bad in circuit'],
  ])('says of %o what %i repairs are', (query, count, phrase) => { // prettier-ignore
    expect(repairsPhrase(query, count, ',')).toBe(phrase);
  }); // prettier-ignore
});
