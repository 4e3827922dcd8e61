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

/**
 * The holding times of some repairs.
 *
 * A board that came back on an unknown day came back like those whose day is known: its days are the next evenly spaced quantile of theirs, among
 * those as long as it was watched at most; half of the time watched, where none is known.
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
  const undated: number[] = [];
  for (const { record, cameBack } of repairs) {
    const found = holdingTime(record, cameBack, asOf);
    if (typeof found === 'string') {
      leftOut[found] += 1;
      continue;
    }
    if (found.cameBack && Number.isNaN(cameBack)) undated.push(found.days);
    else {
      times.push(found.days);
      events.push(found.cameBack);
    }
  }
  const known = times.filter((_, at) => events[at]).sort((a, b) => a - b);
  for (const [at, watched] of undated.sort((a, b) => a - b).entries()) {
    const within = known.filter((days) => days <= watched);
    times.push(within[Math.floor(((at + 0.5) / undated.length) * within.length)] ?? watched / 2);
    events.push(true);
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

/** Whether a board went back working: its outcome says so, or it came back, which it could not have otherwise. */
export function wasReturned(record: Repair | undefined, cameBack: number | undefined): boolean {
  return record !== undefined && (record.outcome === 'returned working' || cameBack !== undefined);
}

/** Days held; of a board that came back on an unknown day, those for which it was watched. */
function holdingTime(
  record: Repair | undefined,
  back: number | undefined,
  asOf: number,
): { readonly days: number; readonly cameBack: boolean } | LeftOut {
  if (record === undefined) return 'no record';
  if (!wasReturned(record, back)) return 'not returned';
  if (Number.isNaN(record.returned)) return 'returned on an unknown day';
  if (record.returned > asOf) return 'returned after that day';
  if (back !== undefined && back < record.returned) return 'comeback before its return';
  if (Number.isNaN(back)) return { days: (asOf - record.returned) / DAY, cameBack: true };
  const end = Math.min(back ?? Infinity, asOf);
  return { days: (end - record.returned) / DAY, cameBack: end === back };
}
