import { isWithin, type Limits } from '../domain/band.ts';
import { STATES } from '../domain/reading.ts';
import type { ReadingLog } from '../columns/reading-log.ts';
import { wilsonInterval } from '../statistics/proportions/wilson-interval.ts';
import { STANDINGS, type PastReadings } from './standing.ts';

/** Of `of` boards, `count`; with the Wilson 95 % interval of the share, absent where there is no board. */
export interface TrialShare {
  readonly count: number;
  readonly of: number;
  readonly share?: { readonly low: number; readonly high: number };
}

/** What limits would have done to past boards of the family. */
export interface Trial {
  readonly goodStopped: TrialShare;
  readonly badLetThrough: TrialShare;
}

const GOOD = STANDINGS.indexOf('good');
const BAD = STANDINGS.indexOf('bad');

/**
 * Holds limits against the past readings of one check, counted by board: a good board is stopped where any of its readings lies outside, a bad
 * one let through where all lie within. Answers that are no numbers count where they settle it.
 */
export function tryLimits(log: ReadingLog, past: PastReadings, limits: Limits): Trial {
  const good = new Map<number, boolean>();
  const bad = new Map<number, boolean>();
  past.rows.forEach((row, index) => {
    const boards = past.standing[index] === GOOD ? good : past.standing[index] === BAD ? bad : undefined;
    const within = isWithin(limits, STATES[log.state[row]!]!, log.value[row]!);
    if (boards === undefined || within === undefined) return;
    const board = log.repair[row]!;
    boards.set(board, (boards.get(board) ?? true) && within);
  });
  return {
    goodStopped: shareOf([...good.values()].filter((within) => !within).length, good.size),
    badLetThrough: shareOf([...bad.values()].filter((within) => within).length, bad.size),
  };
}

function shareOf(count: number, of: number): TrialShare {
  if (of === 0) return { count, of };
  const { lower, upper } = wilsonInterval(count, of, 0.95);
  return { count, of, share: { low: lower, high: upper } };
}
