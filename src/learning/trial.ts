import { isWithin, type Limits } from '../domain/band.ts';
import { STATES } from '../domain/reading.ts';
import { VALUE, type ReadingLog } from '../columns/reading-log.ts';
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

/** What was seen of a board: a reading within the limits, and one outside. */
const WITHIN = 1;
const OUTSIDE = 2;
const GOOD = STANDINGS.indexOf('good');
const BAD = STANDINGS.indexOf('bad');

/**
 * Holds limits against the past readings of one check, counted by board: a good board is stopped where any of its readings lies outside, a bad
 * one let through where all lie within. Answers that are no numbers count where they settle it.
 * @param limits - one pair, or the pairs of boards by repair code; a board without one is not counted
 */
export function tryLimits(
  log: ReadingLog,
  past: PastReadings,
  limits: Limits | readonly (Limits | undefined)[],
): Trial {
  const { rows, standing } = past;
  const boards = log.names.repairs.size;
  const good = new Uint8Array(boards);
  const bad = new Uint8Array(boards);
  for (let index = 0; index < rows.length; index += 1) {
    const own = standing[index] === GOOD ? good : standing[index] === BAD ? bad : undefined;
    if (own === undefined) continue;
    const row = rows[index]!;
    const board = log.repair[row]!;
    const pair = 'low' in limits ? limits : limits[board];
    if (pair === undefined) continue;
    const within =
      log.state[row] === VALUE
        ? log.value[row]! >= pair.low && log.value[row]! <= pair.high
        : isWithin(pair, STATES[log.state[row]!]!, NaN);
    if (within !== undefined) own[board]! |= within ? WITHIN : OUTSIDE;
  }
  const stopped = countOf(good, (seen) => seen >= OUTSIDE);
  const through = countOf(bad, (seen) => seen === WITHIN);
  return {
    goodStopped: shareOf(stopped, countOf(good, isSeen)),
    badLetThrough: shareOf(through, countOf(bad, isSeen)),
  };
}

function isSeen(seen: number): boolean {
  return seen !== 0;
}

function countOf(boards: Uint8Array, holds: (seen: number) => boolean): number {
  let count = 0;
  for (const seen of boards) if (holds(seen)) count += 1;
  return count;
}

function shareOf(count: number, of: number): TrialShare {
  if (of === 0) return { count, of };
  const { lower, upper } = wilsonInterval(count, of, 0.95);
  return { count, of, share: { low: lower, high: upper } };
}
