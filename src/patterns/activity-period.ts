import { DAY } from '../domain/day.ts';

/** When something was written down of a repair: its readings, its coming in, its going back. */
export interface Activity {
  readonly repair: string;
  /** In milliseconds; `NaN` where unknown. */
  readonly time: number;
}

/** First and last day on which the bench was at work, as midnights in milliseconds. */
export interface ActivityPeriod {
  readonly first: number;
  readonly last: number;
}

/** A lone repair this far from all others is taken for a mistyped date (common practice, no source). */
const LONELY_DAYS = 60;
/** With fewer repairs none can be told from its neighbours. */
const FEWEST_REPAIRS = 10;

/**
 * The days between which a bench was at work. One mistyped date must not stretch them: what only one repair says, sixty days or more away from
 * everything else, is not believed, as long as ten repairs are there to tell it from.
 * @returns undefined where nothing has a date
 */
export function activityPeriod(activities: Iterable<Activity>): ActivityPeriod | undefined {
  const repairsByDay = new Map<number, Set<string>>();
  const repairs = new Set<string>();
  for (const { repair, time } of activities) {
    if (!Number.isFinite(time)) continue;
    const day = Math.floor(time / DAY);
    const own = repairsByDay.get(day);
    if (own) own.add(repair);
    else repairsByDay.set(day, new Set([repair]));
    repairs.add(repair);
  }
  const days = [...repairsByDay].sort(([a], [b]) => a - b).map(([day, on]) => ({ day, on }));
  const believed = repairs.size < FEWEST_REPAIRS ? days : withoutLonely(withoutLonely(days).reverse()).reverse();
  const [first, last] = [believed[0], believed.at(-1)];
  return first && last && { first: first.day * DAY, last: last.day * DAY };
}

interface ActiveDay {
  readonly day: number;
  readonly on: ReadonlySet<string>;
}

/** Cuts lone repairs off the end of days in order, forwards or backwards. */
function withoutLonely(days: readonly ActiveDay[]): ActiveDay[] {
  const kept = [...days];
  for (;;) {
    const gap = kept.findLastIndex((one, at) => at > 0 && Math.abs(one.day - kept[at - 1]!.day) >= LONELY_DAYS);
    if (gap < 0) return kept;
    const beyond = new Set(kept.slice(gap).flatMap(({ on }) => [...on]));
    if (beyond.size > 1) return kept;
    kept.length = gap;
  }
}
