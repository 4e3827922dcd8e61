import { mean } from '../statistics/descriptive/mean.ts';
import { quantile } from '../statistics/descriptive/quantile.ts';
import { sampleStandardDeviation } from '../statistics/descriptive/sample-standard-deviation.ts';
import { studentTQuantile } from '../statistics/distributions/student-t.ts';
import { wilsonInterval } from '../statistics/proportions/wilson-interval.ts';
import { comebackShare, type ComebackShare } from './comeback-share.ts';
import { wasReturned } from './do-repairs-hold.ts';
import type { ExaminedRepair } from './examined-repair.ts';
import type { Lifetimes } from '../statistics/survival/lifetimes.ts';

/** A mean over repairs, with Student's 95 % limits. */
export interface MeanOfRepairs {
  readonly repairs: number;
  readonly mean: number;
  readonly low: number;
  readonly high: number;
}

export interface WhetherItPays {
  readonly repairs: number;
  /** Minutes at the bench, of the repairs that have timed readings; undefined with fewer than two. */
  readonly minutes: (MeanOfRepairs & { readonly quartiles: readonly [number, number, number] }) | undefined;
  /** Cost of the parts fitted, of the repairs whose parts all have a price; undefined without prices or with fewer than two such repairs. */
  readonly partsCost: MeanOfRepairs | undefined;
  /** Repairs with a replaced part that has no price. */
  readonly unpriced: number;
  /** Boards that went back working, and how many of them are known to have come back. */
  readonly returned: number;
  readonly cameBack: number;
  /** The share that comes back, by the curve of whether repairs hold; undefined with too few. */
  readonly comebackShare: ComebackShare | undefined;
  /** What is left of the fees after the parts, a repair, with its limits; undefined without fee or cost, or with fewer than ten repairs that have both. */
  readonly left: MeanOfRepairs | undefined;
  /** And an hour at the bench, of the repairs that have both; undefined likewise. */
  readonly leftPerHour: { readonly repairs: number; readonly amount: number } | undefined;
}

const FEWEST = 2;
/** With fewer repairs, limits of what is left would not hold what they say (common practice, no source). */
const FEWEST_FOR_LEFT = 10;

/**
 * Whether a family pays: minutes, parts and comebacks a repair against the fixed fee. The fee is earned once for a board returned working; a
 * comeback is repaired for nothing, and costs its minutes and parts all the same; where only the first repair's outcome tells of it, one fee less is
 * counted, as the repair that earned none cannot be told.
 *
 * Limits of what is left join Wilson's of the share of repairs that earn the fee with Student's of what parts cost (Zou and Donner 2008, Statistics in
 * Medicine 27:1693-1702, for a difference): few boards that all earned it do not pass for certainty.
 *
 * @param lifetimes - how long its boards held, see {@link holdingTimes}
 * @param prices - of one of each part
 * @param fee - for a board returned working, in the currency of the prices
 */
export function whetherItPays(
  repairs: readonly ExaminedRepair[],
  lifetimes: Lifetimes,
  prices?: ReadonlyMap<string, number>,
  fee?: number,
): WhetherItPays {
  const lines = repairs.map((repair) => {
    const cost = prices && costOf(repair.replaced, prices);
    const earned = fee === undefined ? undefined : earnedBy(repair, fee);
    return {
      minutes: repair.minutes,
      cost,
      earned,
      left: cost === undefined || earned === undefined ? undefined : earned - cost,
    };
  });
  const minutes = lines.flatMap((line) => line.minutes ?? []);
  const timed = meanOf(minutes);
  const wentBack = repairs.filter(({ record, cameBack }) => wasReturned(record, cameBack));
  const both = lines.filter((line) => line.left !== undefined && line.minutes !== undefined);
  const unpaid = unlinkedComebacks(repairs);
  const unpaidOfBoth = (fee ?? 0) * unpaid;
  const hours = both.reduce((sum, line) => sum + (line.minutes ?? 0), 0) / 60;
  return {
    repairs: repairs.length,
    minutes: timed && {
      ...timed,
      quartiles: [quantile(minutes, 0.25), quantile(minutes, 0.5), quantile(minutes, 0.75)],
    },
    partsCost: meanOf(lines.flatMap(({ cost }) => cost ?? [])),
    unpriced: prices ? lines.filter(({ cost }) => cost === undefined).length : 0,
    returned: wentBack.length,
    cameBack: wentBack.filter(({ cameBack }) => cameBack !== undefined).length,
    comebackShare: comebackShare(lifetimes),
    left: fee === undefined ? undefined : leftOf(lines, fee, unpaid),
    leftPerHour:
      hours > 0 && both.length >= FEWEST_FOR_LEFT
        ? {
            repairs: both.length,
            amount: (both.reduce((sum, { left }) => sum + (left ?? 0), 0) - unpaidOfBoth) / hours,
          }
        : undefined,
  };
}

function costOf(replaced: ReadonlySet<string>, prices: ReadonlyMap<string, number>): number | undefined {
  let sum = 0;
  for (const part of replaced) {
    const price = prices.get(part);
    if (price === undefined) return undefined;
    sum += price;
  }
  return sum;
}

/** Comebacks of which only the first repair's outcome tells: as many repairs among these earned nothing, and look as if they had. */
function unlinkedComebacks(repairs: readonly ExaminedRepair[]): number {
  return repairs.filter(({ cameBack }) => Number.isNaN(cameBack)).length;
}

interface Line {
  readonly cost: number | undefined;
  readonly earned: number | undefined;
}

function leftOf(lines: readonly Line[], fee: number, unpaid: number): MeanOfRepairs | undefined {
  const known = lines.filter((line) => line.cost !== undefined && line.earned !== undefined);
  const cost = meanOf(known.flatMap((line) => line.cost ?? []));
  if (cost === undefined || known.length < FEWEST_FOR_LEFT) return undefined;
  const earning = Math.max(0, known.filter(({ earned }) => earned !== 0).length - unpaid);
  const share = earning / known.length;
  const { lower, upper } = wilsonInterval(earning, known.length, 0.95);
  const centre = fee * share - cost.mean;
  return {
    repairs: known.length,
    mean: centre,
    low: centre - Math.hypot(fee * (share - lower), cost.high - cost.mean),
    high: centre + Math.hypot(fee * (upper - share), cost.mean - cost.low),
  };
}

function earnedBy(repair: ExaminedRepair, fee: number): number | undefined {
  const { record } = repair;
  if (record === undefined || record.outcome === 'open') return undefined;
  return wasReturned(record, repair.cameBack) && record.comebackOf === undefined ? fee : 0;
}

function meanOf(values: readonly number[]): MeanOfRepairs | undefined {
  if (values.length < FEWEST) return undefined;
  const centre = mean(values);
  const reach =
    (studentTQuantile(0.975, values.length - 1) * sampleStandardDeviation(values)) / Math.sqrt(values.length);
  return { repairs: values.length, mean: centre, low: centre - reach, high: centre + reach };
}
