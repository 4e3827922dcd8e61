import type { Repair } from '../domain/repair.ts';
import type { Evidence } from '../judging/evidence.ts';

/** One repair of a family: what its readings prove of each part, which parts were replaced, and what the bench recorded. */
export interface ExaminedRepair {
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
}

const DAY = 86_400_000;
/** Days from a Monday to 1 January 1970, the day 0 of the times. */
const DAYS_AFTER_MONDAY = 3;

const byName = new Intl.Collator('en', { numeric: true });

/** Orders designators as people do: D2 before D11. */
export function compareParts(a: string, b: string): number {
  return byName.compare(a, b);
}

const failedOf = new WeakMap<ExaminedRepair['evidence'], readonly string[]>();

/** The parts that a repair's readings prove failed, in the order of its evidence; told once for each evidence, as every pattern asks. */
export function failedParts({ evidence }: ExaminedRepair): readonly string[] {
  const known = failedOf.get(evidence);
  if (known !== undefined) return known;
  const failed: string[] = [];
  for (const [part, { finding }] of evidence) if (finding === 'failed') failed.push(part);
  failedOf.set(evidence, failed);
  return failed;
}

/** When a repair began: at its first reading, else on the day on which it was received; undefined where neither is known. */
export function beginningOf({ started, record }: ExaminedRepair): number | undefined {
  const time = started ?? record?.received;
  return time === undefined || Number.isNaN(time) ? undefined : time;
}

/** The number of a time's week, Monday to Sunday, counted from the week of 1 January 1970. */
export function weekNumber(time: number): number {
  return Math.floor((time / DAY + DAYS_AFTER_MONDAY) / 7);
}

/** The Monday on which a week of that number begins, at midnight in milliseconds. */
export function mondayOf(week: number): number {
  return (week * 7 - DAYS_AFTER_MONDAY) * DAY;
}
