import { describe, expect, test } from 'vitest';
import type { Family } from '../../src/domain/family.ts';
import type { Reading } from '../../src/domain/reading.ts';
import type { Repair } from '../../src/domain/repair.ts';
import type { ReadingLog } from '../../src/columns/reading-log.ts';
import { RETURNED_AND_HELD, type GoodRule } from '../../src/domain/good-rule.ts';
import { benchHistory, pastReadings, STANDINGS, type History } from '../../src/learning/standing.ts';
import { tryLimits } from '../../src/learning/trial.ts';
import { logOf } from '../support/readings.ts';

const family: Family = {
  name: 'HERON-48',
  boost: true,
  points: [
    { name: '12V main', role: 'main' },
    { name: 'Q1 D→S', role: 'part', part: 'Q1' },
  ],
  parts: [
    { designator: 'Q1', nodes: ['drain', 'source'] },
    { designator: 'Q2', nodes: ['drain', 'source'] },
  ],
};

const WATCHED_UNTIL = Date.UTC(2026, 5, 1);

function repair(id: string, given: Partial<Repair> = {}): Repair {
  const days = { received: NaN, returned: NaN };
  return { id, family: family.name, complaint: '', outcome: 'returned working', replaced: [], ...days, ...given };
}

function historyOf(
  log: ReadingLog,
  repairs: readonly Repair[],
  failed: readonly string[] = [],
  rule: GoodRule = RETURNED_AND_HELD,
): History {
  return {
    ...benchHistory(log, new Map(repairs.map((one) => [one.id, one])), WATCHED_UNTIL),
    family,
    rule,
    hasFailed: (id, part) => failed.includes(`${id} ${part}`),
  };
}

/** The rows of a log's first check. */
function ownRows(log: ReadingLog): Uint32Array {
  return Uint32Array.from([...log.check.keys()].filter((row) => log.check[row] === 0));
}

function standings(
  log: ReadingLog,
  repairs: readonly Repair[],
  failed: readonly string[] = [],
  rule: GoodRule = RETURNED_AND_HELD,
): string[] {
  const past = pastReadings(log, 0, ownRows(log), historyOf(log, repairs, failed, rule));
  return [...past.standing].map(
    (code, index) => `${STANDINGS[code] ?? ''} ${past.returned[index] ? 'returned' : 'received'}`,
  );
}

describe('pastReadings(log, check, history)', () => {
  const work: Partial<Reading> = { point: 'Q1 D→S', stage: 'refitted', mode: 'resistance' };

  test('a powered reading before the work stands for a bad board, one after it for the board as it went back', () => {
    const log = logOf({ repair: 'T-1', value: 9.1 }, { repair: 'T-1', ...work }, { repair: 'T-1', value: 12.02 });
    expect(standings(log, [repair('T-1', { replaced: ['Q1'] })])).toEqual(['bad received', 'good returned']);
  });

  test('a board that came back, or was given up, is bad; one that nobody listed, or that is still open, is unknown', () => {
    const log = logOf({ repair: 'T-1' }, { repair: 'T-2' }, { repair: 'T-3' }, { repair: 'T-4' }, { repair: 'T-5' });
    const listed = [
      repair('T-1'),
      repair('T-2', { outcome: 'not worth repairing' }),
      repair('T-3', { outcome: 'open' }),
      repair('T-5', { comebackOf: 'T-1', outcome: 'no fault found' }),
    ];
    expect(standings(log, listed).map((text) => text.split(' ')[0])).toEqual([
      'bad',
      'bad',
      'unknown',
      'unknown',
      'good',
    ]);
  });

  test('an unpowered reading stands for its part: bad where it failed, good where it stayed in a good board', () => {
    const out: Partial<Reading> = { point: 'Q1 D→S', stage: 'part out', mode: 'resistance' };
    const log = logOf({ ...out, repair: 'T-1' }, { ...out, repair: 'T-2' }, { ...out, repair: 'T-3' });
    const listed = [
      repair('T-1', { replaced: ['Q1'] }),
      repair('T-2', { replaced: ['Q2'] }),
      repair('T-3', { replaced: ['Q1'] }),
    ];
    expect(standings(log, listed, ['T-1 Q1'])).toEqual(['bad received', 'good received', 'unknown received']);
  });

  test('in circuit a part is known good only where no part across its nodes was replaced either', () => {
    const inCircuit: Partial<Reading> = { point: 'Q1 D→S', stage: 'as received', mode: 'resistance' };
    const log = logOf({ ...inCircuit, repair: 'T-1' }, { ...inCircuit, repair: 'T-2' });
    const listed = [repair('T-1', { replaced: ['Q2'] }), repair('T-2')];
    expect(standings(log, listed)).toEqual(['unknown received', 'good received']);
  });

  test('a new part measured beside it is good', () => {
    const log = logOf({ specimen: 'new part', point: 'Q1 D→S', stage: 'part out', mode: 'resistance' });
    expect(standings(log, [])).toEqual(['good received']);
    expect(standings(log, [], [], { ...RETURNED_AND_HELD, newParts: false })).toEqual(['unknown received']);
  });

  test('a board counts only once it has stayed away for as long as the rule asks, and never where nobody knows when it left', () => {
    const log = logOf({ repair: 'T-1' }, { repair: 'T-2' }, { repair: 'T-3' }, { repair: 'T-4' });
    const listed = [
      repair('T-0', { received: WATCHED_UNTIL }),
      repair('T-1', { returned: Date.UTC(2026, 4, 2) }),
      repair('T-2', { returned: Date.UTC(2026, 4, 3) }),
      repair('T-3'),
      repair('T-4', { returned: Date.UTC(2026, 4, 30), comebackOf: 'T-1' }),
    ];
    const standing = (heldDays: number) =>
      standings(log, listed, [], { ...RETURNED_AND_HELD, heldDays }).map((text) => text.split(' ')[0]);
    expect(standing(0)).toEqual(['bad', 'good', 'good', 'good']);
    expect(standing(29)).toEqual(['bad', 'good', 'unknown', 'unknown']);
    expect(standing(30)).toEqual(['bad', 'unknown', 'unknown', 'unknown']);
  });

  test('boards without a fault found count only where the rule takes them', () => {
    const log = logOf({ repair: 'T-1' }, { repair: 'T-2' });
    const listed = [repair('T-1', { outcome: 'no fault found' }), repair('T-2')];
    const rule = { ...RETURNED_AND_HELD, withoutFault: false };
    expect(standings(log, listed, [], rule)).toEqual(['unknown returned', 'good returned']);
  });
});

describe('tryLimits(log, past, limits)', () => {
  test('counts boards, not readings: a good board is stopped by any reading outside, a bad one let through by all within', () => {
    const log = logOf(
      { repair: 'T-1', value: 12 },
      { repair: 'T-1', value: 12.7 },
      { repair: 'T-2', value: 12.1 },
      { repair: 'T-3', value: 12.2 },
      { repair: 'T-4', state: 'over-range', value: NaN },
    );
    const bad = { outcome: 'not worth repairing' } as const;
    const past = pastReadings(
      log,
      0,
      ownRows(log),
      historyOf(log, [repair('T-1'), repair('T-2'), repair('T-3', bad), repair('T-4', bad)]),
    );
    const trial = tryLimits(log, past, { low: 11.4, high: 12.6 });
    expect([trial.goodStopped.count, trial.goodStopped.of]).toEqual([1, 2]);
    expect([trial.badLetThrough.count, trial.badLetThrough.of]).toEqual([1, 2]);
    expect(trial.goodStopped.share?.low).toBeGreaterThan(0);
  });

  test('gives no share of no boards', () => {
    const log = logOf({ repair: 'T-9' });
    expect(
      tryLimits(log, pastReadings(log, 0, ownRows(log), historyOf(log, [])), { low: 0, high: 1 }).goodStopped,
    ).toEqual({
      count: 0,
      of: 0,
    });
  });
});
