import { comebacksAmong } from '../domain/comebacks.ts';
import { DAY } from '../domain/day.ts';
import { maskedBy, type Family } from '../domain/family.ts';
import type { GoodRule } from '../domain/good-rule.ts';
import { isPowered, SPECIMENS, type Stage } from '../domain/reading.ts';
import type { Repair } from '../domain/repair.ts';
import type { ReadingLog } from '../columns/reading-log.ts';

/** What a past reading stands for: taken at a good board or part, at a bad one, or nobody can say. */
export const STANDINGS = ['unknown', 'good', 'bad'] as const;
export type Standing = (typeof STANDINGS)[number];

/** What the standing of readings is told from. */
export interface History {
  /** The record of each repair, by repair code. */
  readonly repairs: readonly (Repair | undefined)[];
  /** The repairs whose boards came back. */
  readonly cameBack: ReadonlySet<string>;
  /** The moment of the last unpowered reading of each repair, by repair code; `-Infinity` where there is none. */
  readonly lastWork: Float64Array;
  /** Until when boards were watched for coming back, in milliseconds of local wall time. */
  readonly watchedUntil: number;
  readonly family: Family;
  readonly rule: GoodRule;
  /** Whether a repair's readings prove a part failed. */
  readonly hasFailed: (repair: string, part: string) => boolean;
}

/** The part of a history that a bench has as a whole. */
export type BenchHistory = Omit<History, 'family' | 'rule' | 'hasFailed'>;

/**
 * What all readings of a bench have in common.
 * @param listed - the records of its repairs, by id
 * @param watchedUntil - the last day on which the bench was at work, in milliseconds of local wall time
 */
export function benchHistory(log: ReadingLog, listed: ReadonlyMap<string, Repair>, watchedUntil: number): BenchHistory {
  return {
    repairs: log.names.repairs.labels.map((id) => listed.get(id)),
    cameBack: new Set(comebacksAmong(listed.values()).keys()),
    lastWork: lastWorkOf(log),
    watchedUntil,
  };
}

/** Past readings of one check as columns of equal length. */
export interface PastReadings {
  readonly rows: Uint32Array;
  /** Index into {@link STANDINGS}. */
  readonly standing: Uint8Array;
  /** 1 where the reading was taken after the last work on the board, as it went back. */
  readonly returned: Uint8Array;
}

const NEW_PART = SPECIMENS.indexOf('new part');

/**
 * Sorts the past readings of one check by what they stand for.
 * A powered reading taken after the last work stands for the board as it went back: good, where the rule holds; bad, where the board came back
 * or was given up. One taken before work that replaced parts stands for a bad board. An unpowered reading stands for its part: bad, where the
 * part is proved failed; good, where neither it nor, in circuit, a part across its nodes was replaced on a good board. A new part is good,
 * where the rule counts it.
 * @param rows - the rows of the check
 */
export function pastReadings(log: ReadingLog, check: number, rows: Uint32Array, history: History): PastReadings {
  const stage = log.names.checks.stage(check);
  const point = log.names.points.label(log.names.checks.pointCode(check));
  const part = history.family.points.find(({ name }) => name === point)?.part;
  const standing = new Uint8Array(rows.length);
  const returned = new Uint8Array(rows.length);
  rows.forEach((row, index) => {
    const code = log.repair[row]!;
    const repair = history.repairs[code];
    const isReturned = stage === 'refitted' || (isPowered(stage) && !(log.time[row]! <= history.lastWork[code]!));
    returned[index] = isReturned ? 1 : 0;
    const found =
      log.specimen[row] === NEW_PART
        ? history.rule.newParts
          ? 'good'
          : 'unknown'
        : repair === undefined
          ? 'unknown'
          : isReturned || isPowered(stage)
            ? boardStanding(repair, isReturned, history)
            : partStanding(repair, part, stage, history);
    standing[index] = STANDINGS.indexOf(found);
  });
  return { rows, standing, returned };
}

function boardStanding(repair: Repair, isReturned: boolean, { rule, watchedUntil, cameBack }: History): Standing {
  if (!isReturned && repair.replaced.length > 0) return 'bad';
  if (cameBack.has(repair.id) || repair.outcome === 'not worth repairing') return 'bad';
  const ended = repair.outcome === 'returned working' || (repair.outcome === 'no fault found' && rule.withoutFault);
  const held = rule.heldDays === 0 || watchedUntil - repair.returned >= rule.heldDays * DAY;
  return ended && held ? 'good' : 'unknown';
}

function partStanding(repair: Repair, part: string | undefined, stage: Stage, history: History): Standing {
  const { family, hasFailed } = history;
  if (part === undefined) return 'unknown';
  if (hasFailed(repair.id, part))
    return stage === 'part out' || maskedBy(family.parts, part).length === 0 ? 'bad' : 'unknown';
  const across = stage === 'part out' ? [] : maskedBy(family.parts, part);
  const untouched = [part, ...across].every((one) => !repair.replaced.includes(one));
  return untouched && boardStanding(repair, true, history) === 'good' ? 'good' : 'unknown';
}

function lastWorkOf({ count, names, check, repair, time }: ReadingLog): Float64Array {
  const isWork = Uint8Array.from({ length: names.checks.size }, (_, code) =>
    isPowered(names.checks.stage(code)) ? 0 : 1,
  );
  const last = new Float64Array(names.repairs.size).fill(-Infinity);
  for (let row = 0; row < count; row += 1) {
    if (isWork[check[row]!] === 1 && time[row]! > last[repair[row]!]!) last[repair[row]!] = time[row]!;
  }
  return last;
}
