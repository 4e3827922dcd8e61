import { pChart } from '../statistics/control-charts/p-chart.ts';
import { benjaminiHochberg } from '../statistics/significance/benjamini-hochberg.ts';
import { mannKendall, type MannKendall } from '../statistics/trend/mann-kendall.ts';
import { theilSen } from '../statistics/trend/theil-sen.ts';
import { compareParts, mondayOf, weekNumber, type ExaminedRepair } from './examined-repair.ts';
import { shareChange } from './share-change.ts';

/** One week with at least one repair. */
export interface WeekShare {
  /** Its Monday, at midnight in milliseconds. */
  readonly week: number;
  readonly repairs: number;
  readonly failed: number;
  readonly share: number;
  /** Control limits of the p chart for that many repairs, three standard deviations either side. */
  readonly lower: number;
  readonly upper: number;
  readonly outside: boolean;
}

export interface PartOverTime {
  readonly part: string;
  readonly failed: number;
  readonly repairs: number;
  readonly weeks: readonly WeekShare[];
  /** Share over all weeks: the centre line. */
  readonly centre: number;
  /** A steady rise or fall; undefined with fewer than six weeks. */
  readonly trend: Trend | undefined;
  /** One lasting change; undefined with fewer than six weeks. */
  readonly change: WeekOfChange | undefined;
}

export interface Trend {
  readonly test: MannKendall;
  /** Change of the share per week with 95 % limits; infinite limits where there are too few weeks for them. */
  readonly slope: number;
  readonly low: number;
  readonly high: number;
}

export interface WeekOfChange {
  /** Monday of the first week after it. */
  readonly week: number;
  readonly before: { readonly count: number; readonly size: number };
  readonly after: { readonly count: number; readonly size: number };
  /** Adjusted for the weeks tried (Bonferroni) and over the parts (Benjamini and Hochberg). */
  readonly adjusted: number;
}

const FEWEST_WEEKS = 6;

/**
 * The weekly share of repairs in which each part is proved failed, most failures first: p chart (NIST/SEMATECH e-Handbook 6.3.3.2), trend by
 * Mann and Kendall with the slope of Theil and Sen, and the week in which a change began (likelihood ratio, see {@link shareChange}).
 * Weeks without a repair have no share and are left out; repairs whose time is unknown are not counted.
 */
export function partsOverTime(repairs: readonly ExaminedRepair[]): readonly PartOverTime[] {
  const sizes = new Map<number, number>();
  const failedBy = new Map<string, Map<number, number>>();
  for (const { begun, failed } of repairs) {
    if (Number.isNaN(begun)) continue;
    const week = weekNumber(begun);
    sizes.set(week, (sizes.get(week) ?? 0) + 1);
    for (const part of failed) {
      const counts = failedBy.get(part) ?? new Map<number, number>();
      failedBy.set(part, counts.set(week, (counts.get(week) ?? 0) + 1));
    }
  }
  const weeks = [...sizes.keys()].sort((a, b) => a - b);
  const all = [...failedBy].map(([part, counts]) => follow(part, weeks, sizes, counts));
  const adjusted = benjaminiHochberg(all.flatMap(({ change }) => change?.adjusted ?? []));
  let next = 0;
  return all
    .map((one) => (one.change ? { ...one, change: { ...one.change, adjusted: adjusted[next++]! } } : one))
    .sort((a, b) => b.failed - a.failed || compareParts(a.part, b.part));
}

function follow(
  part: string,
  weeks: readonly number[],
  sizes: ReadonlyMap<number, number>,
  failed: ReadonlyMap<number, number>,
): PartOverTime {
  const counts = weeks.map((week) => failed.get(week) ?? 0);
  const totals = weeks.map((week) => sizes.get(week)!);
  const chart = pChart(counts, totals);
  const shares = chart.points.map(({ share }) => share);
  const enough = weeks.length >= FEWEST_WEEKS;
  const change = enough ? shareChange(counts, totals) : undefined;
  return {
    part,
    failed: counts.reduce((sum, count) => sum + count, 0),
    repairs: totals.reduce((sum, size) => sum + size, 0),
    weeks: chart.points.map((point, at) => ({
      week: mondayOf(weeks[at]!),
      repairs: totals[at]!,
      failed: counts[at]!,
      ...point,
    })),
    centre: chart.centre,
    trend: enough ? trendOf(weeks, shares) : undefined,
    change: change && {
      week: mondayOf(weeks[change.at]!),
      before: change.before,
      after: change.after,
      adjusted: change.p,
    },
  };
}

function trendOf(weeks: readonly number[], shares: readonly number[]): Trend {
  const { slope, lower, upper } = theilSen(weeks, shares, 0.95);
  return { test: mannKendall(shares), slope, low: lower, high: upper };
}
