import { mean } from '../statistics/descriptive/mean.ts';
import { quantile } from '../statistics/descriptive/quantile.ts';
import { sampleStandardDeviation } from '../statistics/descriptive/sample-standard-deviation.ts';
import { studentTQuantile } from '../statistics/distributions/student-t.ts';
import type { ShareInterval } from '../statistics/proportions/interval.ts';
import { wilsonInterval } from '../statistics/proportions/wilson-interval.ts';
import type { ExaminedRepair } from './examined-repair.ts';

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
  /** Repairs that were returned working, and how many of them came back. */
  readonly returned: number;
  readonly cameBack: number;
  /** Wilson 95 % interval of the share that came back; undefined where none was returned. */
  readonly comebackShare: ShareInterval | undefined;
  /** What is left of the fees after the parts, a repair, with its limits; undefined without fee or cost. */
  readonly left: MeanOfRepairs | undefined;
  /** And an hour at the bench, of the repairs that have both; undefined likewise. */
  readonly leftPerHour: { readonly repairs: number; readonly amount: number } | undefined;
}

const FEWEST = 2;

/**
 * Whether a family pays: minutes, parts and comebacks a repair against the fixed fee. The fee is earned once for a board returned working; a
 * comeback is repaired for nothing, and costs its minutes and parts all the same.
 *
 * @param prices - of one of each part
 * @param fee - for a board returned working, in the currency of the prices
 */
export function whetherItPays(
  repairs: readonly ExaminedRepair[],
  prices?: ReadonlyMap<string, number>,
  fee?: number,
): WhetherItPays {
  const lines = repairs.map((repair) => {
    const cost = prices && costOf(repair.replaced, prices);
    const earned = fee === undefined ? undefined : earnedBy(repair, fee);
    return {
      minutes: repair.minutes,
      cost,
      left: cost === undefined || earned === undefined ? undefined : earned - cost,
    };
  });
  const minutes = lines.flatMap((line) => line.minutes ?? []);
  const timed = meanOf(minutes);
  const returned = repairs.filter(wasReturned).length;
  const cameBack = repairs.filter(({ record }) => record?.outcome === 'comeback').length;
  const both = lines.filter((line) => line.left !== undefined && line.minutes !== undefined);
  const hours = both.reduce((sum, line) => sum + (line.minutes ?? 0), 0) / 60;
  return {
    repairs: repairs.length,
    minutes: timed && {
      ...timed,
      quartiles: [quantile(minutes, 0.25), quantile(minutes, 0.5), quantile(minutes, 0.75)],
    },
    partsCost: meanOf(lines.flatMap(({ cost }) => cost ?? [])),
    unpriced: prices ? lines.filter(({ cost }) => cost === undefined).length : 0,
    returned,
    cameBack,
    comebackShare: returned === 0 ? undefined : wilsonInterval(cameBack, returned, 0.95),
    left: meanOf(lines.flatMap((line) => line.left ?? [])),
    leftPerHour:
      hours > 0
        ? { repairs: both.length, amount: both.reduce((sum, { left }) => sum + (left ?? 0), 0) / hours }
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

function wasReturned({ record }: ExaminedRepair): boolean {
  return record?.outcome === 'returned working' || record?.outcome === 'comeback';
}

function earnedBy(repair: ExaminedRepair, fee: number): number | undefined {
  const { record } = repair;
  if (record === undefined || record.outcome === 'open') return undefined;
  return wasReturned(repair) && record.comebackOf === undefined ? fee : 0;
}

function meanOf(values: readonly number[]): MeanOfRepairs | undefined {
  if (values.length < FEWEST) return undefined;
  const centre = mean(values);
  const reach =
    (studentTQuantile(0.975, values.length - 1) * sampleStandardDeviation(values)) / Math.sqrt(values.length);
  return { repairs: values.length, mean: centre, low: centre - reach, high: centre + reach };
}
