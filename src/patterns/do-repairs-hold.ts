import { DAY } from '../domain/day.ts';
import type { Repair } from '../domain/repair.ts';
import { kaplanMeier, type SurvivalStep } from '../statistics/survival/kaplan-meier.ts';
import type { Lifetimes } from '../statistics/survival/lifetimes.ts';
import { logRank, type LogRank } from '../statistics/survival/log-rank.ts';
import { medianSurvival } from '../statistics/survival/median-survival.ts';
import type { ExaminedRepair } from './examined-repair.ts';

/** How long repairs held, in days from their return: until they came back, or until the day of looking, which censors them. */
export interface HoldingTimes {
  readonly lifetimes: { readonly times: readonly number[]; readonly events: readonly boolean[] };
  /** Repairs that cannot be followed, by reason. */
  readonly leftOut: Readonly<Record<LeftOut, number>>;
}

export const LEFT_OUT = [
  'no record',
  'not returned',
  'returned on an unknown day',
  'comeback before its return',
  'returned after that day',
] as const;
export type LeftOut = (typeof LEFT_OUT)[number];

/** How well some repairs hold. */
export interface Holding {
  readonly repairs: number;
  readonly comebacks: number;
  /** Kaplan-Meier steps with 95 % limits, time in days; none where nothing came back. */
  readonly steps: readonly SurvivalStep[];
  /** Days by which half have come back; undefined where fewer did. */
  readonly median: number | undefined;
}

/** When the board of a repair first came back, in milliseconds, by the repair's id; told by the records of all repairs of a bench. */
export function firstComebacks(records: Iterable<Repair>): ReadonlyMap<string, number> {
  const cameBack = new Map<string, number>();
  for (const { comebackOf, received } of records) {
    if (comebackOf === undefined || Number.isNaN(received)) continue;
    cameBack.set(comebackOf, Math.min(received, cameBack.get(comebackOf) ?? Infinity));
  }
  return cameBack;
}

/**
 * The holding times of some repairs.
 * @param asOf - the day of looking in milliseconds: what has not come back by then is censored there, and what came back later still held
 */
export function holdingTimes(repairs: readonly ExaminedRepair[], asOf: number): HoldingTimes {
  const times: number[] = [];
  const events: boolean[] = [];
  const leftOut: Record<LeftOut, number> = {
    'no record': 0,
    'not returned': 0,
    'returned on an unknown day': 0,
    'comeback before its return': 0,
    'returned after that day': 0,
  };
  for (const { record, cameBack } of repairs) {
    const found = holdingTime(record, cameBack, asOf);
    if (typeof found === 'string') {
      leftOut[found] += 1;
      continue;
    }
    times.push(found.days);
    events.push(found.cameBack);
  }
  return { lifetimes: { times, events }, leftOut };
}

/** How well repairs with these times hold; undefined where there are none. */
export function holdingOf(lifetimes: Lifetimes): Holding | undefined {
  if (lifetimes.times.length === 0) return undefined;
  const steps = kaplanMeier(lifetimes, 0.95);
  return {
    repairs: lifetimes.times.length,
    comebacks: steps.reduce((sum, { events }) => sum + events, 0),
    steps,
    median: medianSurvival(steps),
  };
}

/** Log-rank test of two groups of repairs; undefined where no comeback can tell them apart. */
export function compareHolding(first: Lifetimes, second: Lifetimes): LogRank | undefined {
  return canBeCompared(first, second) ? logRank(first, second) : undefined;
}

/** Whether something came back while repairs of both groups were followed, and not all that were left came back just then. */
function canBeCompared(first: Lifetimes, second: Lifetimes): boolean {
  const [a, b] = [followedOf(first), followedOf(second)];
  const days = new Set([...a.cameBack.keys(), ...b.cameBack.keys()]);
  return [...days].some((day) => {
    const [inFirst, inSecond] = [a.followedUntil(day), b.followedUntil(day)];
    const ended = (a.cameBack.get(day) ?? 0) + (b.cameBack.get(day) ?? 0);
    return inFirst > 0 && inSecond > 0 && inFirst + inSecond > ended;
  });
}

/** How many came back on each day, and how many were followed up to a day or longer. */
function followedOf({ times, events }: Lifetimes): {
  readonly cameBack: ReadonlyMap<number, number>;
  readonly followedUntil: (day: number) => number;
} {
  const sorted = Float64Array.from(times).sort();
  const cameBack = new Map<number, number>();
  for (let at = 0; at < times.length; at += 1) {
    if (events[at] === true) cameBack.set(times[at]!, (cameBack.get(times[at]!) ?? 0) + 1);
  }
  return { cameBack, followedUntil: (day) => sorted.length - firstNotBelow(sorted, day) };
}

/** Position of the first number that is not below a limit, in ascending order. */
function firstNotBelow(sorted: Float64Array, limit: number): number {
  let [low, high] = [0, sorted.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (sorted[middle]! < limit) low = middle + 1;
    else high = middle;
  }
  return low;
}

function holdingTime(
  record: Repair | undefined,
  back: number | undefined,
  asOf: number,
): { readonly days: number; readonly cameBack: boolean } | LeftOut {
  if (record === undefined) return 'no record';
  const wentBack = record.outcome === 'returned working' || record.outcome === 'comeback';
  if (!wentBack) return 'not returned';
  if (Number.isNaN(record.returned)) return 'returned on an unknown day';
  if (record.returned > asOf) return 'returned after that day';
  if (back !== undefined && back < record.returned) return 'comeback before its return';
  const end = Math.min(back ?? Infinity, asOf);
  return { days: (end - record.returned) / DAY, cameBack: end === back };
}
