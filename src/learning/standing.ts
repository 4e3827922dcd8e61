import { maskedBy, type Family } from '../domain/family.ts';
import { isPowered, SPECIMENS, type Stage } from '../domain/reading.ts';
import type { Outcome, Repair } from '../domain/repair.ts';
import type { ReadingLog } from '../columns/reading-log.ts';

/** What a past reading stands for: taken at a good board or part, at a bad one, or nobody can say. */
export const STANDINGS = ['unknown', 'good', 'bad'] as const;
export type Standing = (typeof STANDINGS)[number];

/** Which boards count as known good: those that ended so, and did not come back. */
export interface GoodRule {
  readonly outcomes: readonly Outcome[];
}

export const RETURNED_AND_HELD: GoodRule = { outcomes: ['returned working', 'no fault found'] };

/** What the standing of readings is told from. */
export interface History {
  readonly repairs: ReadonlyMap<string, Repair>;
  readonly family: Family;
  readonly rule: GoodRule;
  /** Rows of each repair by repair code, in order of time. */
  readonly rowsByRepair: readonly Uint32Array[];
  /** Whether a repair's readings prove a part failed. */
  readonly hasFailed: (repair: string, part: string) => boolean;
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
 * part is proved failed; good, where neither it nor, in circuit, a part across its nodes was replaced on a good board. A new part is good.
 */
export function pastReadings(log: ReadingLog, check: number, history: History): PastReadings {
  const rows: number[] = [];
  for (let row = 0; row < log.count; row += 1) if (log.check[row] === check) rows.push(row);
  const stage = log.names.checks.stage(check);
  const point = log.names.points.label(log.names.checks.pointCode(check));
  const part = history.family.points.find(({ name }) => name === point)?.part;
  const returnedBack = wentBack(history.repairs);
  const lastWork = new Map<number, number>();
  const standing = new Uint8Array(rows.length);
  const returned = new Uint8Array(rows.length);
  rows.forEach((row, index) => {
    const code = log.repair[row]!;
    let work = lastWork.get(code);
    if (work === undefined) lastWork.set(code, (work = lastWorkTime(log, history.rowsByRepair[code]!)));
    const repair = history.repairs.get(log.names.repairs.label(code));
    const isReturned = stage === 'refitted' || (isPowered(stage) && !(log.time[row]! <= work));
    returned[index] = isReturned ? 1 : 0;
    const found =
      log.specimen[row] === NEW_PART
        ? 'good'
        : repair === undefined
          ? 'unknown'
          : isReturned || isPowered(stage)
            ? boardStanding(repair, isReturned, returnedBack, history.rule)
            : partStanding(repair, part, stage, returnedBack, history);
    standing[index] = STANDINGS.indexOf(found);
  });
  return { rows: Uint32Array.from(rows), standing, returned };
}

function boardStanding(repair: Repair, isReturned: boolean, comebacks: ReadonlySet<string>, rule: GoodRule): Standing {
  if (!isReturned && repair.replaced.length > 0) return 'bad';
  if (comebacks.has(repair.id) || repair.outcome === 'comeback' || repair.outcome === 'not worth repairing')
    return 'bad';
  return rule.outcomes.includes(repair.outcome) ? 'good' : 'unknown';
}

function partStanding(
  repair: Repair,
  part: string | undefined,
  stage: Stage,
  comebacks: ReadonlySet<string>,
  { family, hasFailed, rule }: History,
): Standing {
  if (part === undefined) return 'unknown';
  if (hasFailed(repair.id, part))
    return stage === 'part out' || maskedBy(family.parts, part).length === 0 ? 'bad' : 'unknown';
  const across = stage === 'part out' ? [] : maskedBy(family.parts, part);
  const untouched = [part, ...across].every((one) => !repair.replaced.includes(one));
  return untouched && boardStanding(repair, true, comebacks, rule) === 'good' ? 'good' : 'unknown';
}

/** The repairs whose boards came back: another repair names them. */
function wentBack(repairs: ReadonlyMap<string, Repair>): ReadonlySet<string> {
  return new Set([...repairs.values()].flatMap((repair) => repair.comebackOf ?? []));
}

/** Time of the last unpowered reading of a repair; `-Infinity` where there is none. */
function lastWorkTime(log: ReadingLog, rows: Uint32Array): number {
  const last = rows.findLast((row) => !isPowered(log.names.checks.stage(log.check[row]!)));
  return last === undefined ? -Infinity : log.time[last]!;
}
