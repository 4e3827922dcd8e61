import { DAY } from '../domain/day.ts';
import type { Repair } from '../domain/repair.ts';
import type { Evidence } from '../judging/evidence.ts';

/** What is known of one repair of a family: what its readings prove of each part, which parts were replaced, and what the bench recorded. */
export interface Examination {
  readonly repair: string;
  readonly evidence: ReadonlyMap<string, Evidence>;
  readonly replaced: ReadonlySet<string>;
  /** The bench's record; missing where readings name a repair that nobody recorded. */
  readonly record?: Repair;
  /** Parts that read shorted or leaky in circuit before anything was refitted. */
  readonly badInCircuit?: ReadonlySet<string>;
  /** Time of its first reading, in milliseconds as the log keeps them; missing without readings. */
  readonly started?: number;
  /** Minutes at the bench; missing where fewer than two readings have a time. */
  readonly minutes?: number;
  /** When its board first came back, in milliseconds; `NaN` on an unknown day, missing where it did not. */
  readonly cameBack?: number;
}

/** The same with what every pattern asks of it. Its lists are in the order of the evidence. */
export interface ExaminedRepair {
  readonly repair: string;
  readonly evidence: ReadonlyMap<string, Evidence>;
  readonly replaced: ReadonlySet<string>;
  readonly record: Repair | undefined;
  readonly badInCircuit: ReadonlySet<string>;
  readonly minutes: number | undefined;
  readonly cameBack: number | undefined;
  /** When it began: at its first reading, else on the day on which it was received; `NaN` where neither is known. */
  readonly begun: number;
  /** Whether its readings tell of any part; of others nothing says that no part failed. */
  readonly isMeasured: boolean;
  /** Parts that its readings prove failed. */
  readonly failed: readonly string[];
  /** Parts that it needed: those proved failed, and those suspected, as whoever cannot tell which has failed renews them all. */
  readonly needed: readonly string[];
  /** Parts that one check read both bad and good. */
  readonly contradictory: readonly string[];
}

/**
 * Tells of a repair what every pattern asks.
 * @param share - gives one object for equal lists, see {@link shareAlike}
 */
export function examinedRepair(known: Examination, share = (list: readonly string[]) => list): ExaminedRepair {
  const { repair, evidence, replaced, record, badInCircuit, started, minutes, cameBack } = known;
  const [failed, needed, contradictory]: [string[], string[], string[]] = [[], [], []];
  let isMeasured = false;
  for (const [part, { finding }] of evidence) {
    if (finding !== 'not measured') isMeasured = true;
    if (finding === 'failed') failed.push(part);
    if (finding === 'failed' || finding === 'suspected') needed.push(part);
    if (finding === 'contradictory') contradictory.push(part);
  }
  return {
    repair,
    evidence,
    replaced,
    record,
    badInCircuit: badInCircuit ?? NO_PARTS,
    minutes,
    cameBack,
    begun: started ?? record?.received ?? NaN,
    isMeasured,
    failed: share(failed),
    needed: share(needed),
    contradictory: share(contradictory),
  };
}

/** The repairs whose readings tell of any part. */
export function measured(repairs: readonly ExaminedRepair[]): readonly ExaminedRepair[] {
  return repairs.filter(({ isMeasured }) => isMeasured);
}

const NO_PARTS: ReadonlySet<string> = new Set();

/** Days from a Monday to 1 January 1970, the day 0 of the times. */
const DAYS_AFTER_MONDAY = 3;

const byName = new Intl.Collator('en', { numeric: true });

/** Orders designators as people do: D2 before D11. */
export function compareParts(a: string, b: string): number {
  return byName.compare(a, b);
}

/** The number of a time's week, Monday to Sunday, counted from the week of 1 January 1970. */
export function weekNumber(time: number): number {
  return Math.floor((time / DAY + DAYS_AFTER_MONDAY) / 7);
}

/** The Monday on which a week of that number begins, at midnight in milliseconds. */
export function mondayOf(week: number): number {
  return (week * 7 - DAYS_AFTER_MONDAY) * DAY;
}
