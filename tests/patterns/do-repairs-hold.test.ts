import { describe, expect, test } from 'vitest';
import { comebacksAmong } from '../../src/domain/comebacks.ts';
import type { Repair } from '../../src/domain/repair.ts';
import type { ExaminedRepair } from '../../src/patterns/examined-repair.ts';
import { compareHolding, holdingOf, holdingTimes } from '../../src/patterns/do-repairs-hold.ts';
import { renewalOf } from '../../src/patterns/renewal.ts';
import { DAY, examined, failing, GOOD, MONDAY, record, SHORTED } from './examined.ts';

const AS_OF = MONDAY + 500 * DAY;

/** Some repairs of a bench, by their records, with the comebacks that all records tell. */
function followed(own: readonly Repair[], records: readonly Repair[]): readonly ExaminedRepair[] {
  const comebacks = comebacksAmong(records);
  return own.map((one) => {
    const cameBack = comebacks.get(one.id);
    return examined({}, { repair: one.id, record: one, ...(cameBack !== undefined && { cameBack }) });
  });
}

/** Repairs that held so many days; a plus sign says that they were still holding then. */
function held(name: string, days: string) {
  const lines = days.split(' ').map((text, at) => {
    const id = `${name}-${at}`;
    const stillHolds = text.endsWith('+');
    const length = Number(text.replace('+', ''));
    const returned = stillHolds ? AS_OF - length * DAY : MONDAY;
    const own = record({ id, returned, outcome: stillHolds ? 'returned working' : 'comeback' });
    const back = record({ id: `${id}-back`, comebackOf: id, received: MONDAY + length * DAY });
    return { own, records: stillHolds ? [own] : [own, back] };
  });
  return holdingTimes(
    followed(
      lines.map(({ own }) => own),
      lines.flatMap(({ records }) => records),
    ),
    AS_OF,
  ).lifetimes;
}

// Freireich et al. 1963, Blood 21:699-716 (6-MP and control, weeks taken as days); estimates and standard errors recomputed, chi-square of the
// log-rank test printed as 16.79 in textbooks.
const TREATED = '6 6 6 6+ 7 9+ 10 10+ 11+ 13 16 17+ 19+ 20+ 22 23 25+ 32+ 32+ 34+ 35+';
const CONTROL = '1 1 2 2 3 4 4 5 5 8 8 8 8 11 11 12 12 15 17 22 23';

describe('how well repairs hold', () => {
  test('is the Kaplan-Meier estimate of the days until they came back', () => {
    const holding = holdingOf(held('A', TREATED));
    expect(holding).toMatchObject({ repairs: 21, comebacks: 9, median: 23 });
    expect(holding?.steps.map(({ time }) => time)).toEqual([6, 7, 10, 13, 16, 22, 23]);
    expect(holding?.steps.at(-1)?.survival).toBeCloseTo(0.448179271709, 10);
    expect(holding?.steps.at(-1)?.standardError).toBeCloseTo(0.134591456756, 10);
  });

  test('is compared by the log-rank test', () => {
    const test = compareHolding(held('A', TREATED), held('B', CONTROL));
    expect(test?.observed).toEqual([9, 21]);
    expect(test?.chiSquare).toBeCloseTo(16.7929409892, 8);
  });

  test('has no median and no steps where all still hold, and nothing to compare', () => {
    const holding = holdingOf(held('A', '5+ 8+ 9+'));
    expect(holding).toEqual({ repairs: 3, comebacks: 0, steps: [], median: undefined });
    expect(compareHolding(held('A', '5+ 8+'), held('B', '9+'))).toBeUndefined();
    expect(compareHolding(held('A', '5'), held('B', '5'))).toBeUndefined();
    expect(compareHolding(held('A', '2+'), held('B', '5 7'))).toBeUndefined();
    expect(holdingOf({ times: [], events: [] })).toBeUndefined();
  });

  test('counts repairs that cannot be followed by their reason', () => {
    const records = [
      record({ id: 'T-1', outcome: 'open', returned: NaN }),
      record({ id: 'T-2', outcome: 'not worth repairing' }),
      record({ id: 'T-3', outcome: 'comeback', returned: MONDAY + 9 * DAY }),
      record({ id: 'T-4', returned: AS_OF + DAY }),
      record({ id: 'T-6', outcome: 'returned working', returned: NaN }),
      record({ id: 'T-5', comebackOf: 'T-3', received: MONDAY + 2 * DAY, returned: MONDAY + 11 * DAY }),
    ];
    const { lifetimes, leftOut } = holdingTimes([examined({}), ...followed(records, records)], AS_OF);
    expect(leftOut).toEqual({
      'no record': 1,
      'not returned': 2,
      'returned on an unknown day': 1,
      'comeback before its return': 1,
      'returned after that day': 1,
    });
    expect(lifetimes).toEqual({ times: [489], events: [false] });
  });

  test('censors on the day of looking what came back later', () => {
    const own = record({ id: 'T-1', outcome: 'comeback', returned: MONDAY });
    const back = record({ id: 'T-2', comebackOf: 'T-1', received: MONDAY + 40 * DAY });
    const repairs = followed([own], [own, back]);
    expect(holdingTimes(repairs, MONDAY + 30 * DAY).lifetimes).toEqual({
      times: [30],
      events: [false],
    });
    expect(holdingTimes(repairs, MONDAY + 50 * DAY).lifetimes).toEqual({
      times: [40],
      events: [true],
    });
  });
});

describe('renewalOf(repair)', () => {
  test('sets what was renewed against what measured bad', () => {
    const renewed = (...parts: string[]) => ({ replaced: new Set(parts) });
    expect(renewalOf(failing(['Q1'], renewed('Q1')))).toBe('only what measured bad');
    expect(renewalOf(examined({ Q1: SHORTED, Q2: GOOD }, renewed('Q1', 'Q2')))).toBe('whole group renewed');
    expect(renewalOf(failing(['Q1', 'F1'], renewed('Q1', 'R1')))).toBe('neither');
    expect(renewalOf(failing([], renewed('Q1')))).toBe('neither');
    expect(renewalOf(failing(['Q1']))).toBe('neither');
  });
});

test('a board that came back on an unknown day counts as back, as soon as those whose day is known', () => {
  const back = (days: number) => ({ cameBack: MONDAY + days * DAY });
  const own = [back(10), back(20), back(30), { cameBack: NaN }, {}].map((known, at) =>
    examined({}, { record: record({ id: `T-${at}`, returned: MONDAY }), ...known }),
  );
  expect(holdingTimes(own, MONDAY + 100 * DAY).lifetimes).toEqual({
    times: [10, 20, 30, 100, 20],
    events: [true, true, true, false, true],
  });
});
