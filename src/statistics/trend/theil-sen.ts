import { quickselect } from 'simple-statistics';
import { normalQuantile } from '../distributions/normal.ts';
import { finiteReadings, requireShare } from '../numerics/guards.ts';
import { selectMedian } from '../numerics/select-median.ts';
import { kendallVariance } from './kendall-variance.ts';

export interface TheilSen {
  /** Median of the slopes of all pairs, y per x. */
  readonly slope: number;
  /** Median of y - slope x. */
  readonly intercept: number;
  /** Limits of the slope; infinite on both sides where there are too few pairs for the confidence. */
  readonly lower: number;
  readonly upper: number;
}

/**
 * Theil-Sen line: robust to nearly 29 % wild readings. Pairs with equal x are left out.
 *
 * The confidence limits are approximate: the slopes of ranks (N - C) / 2 and (N + C) / 2 + 1, C being the normal
 * quantile times the standard deviation of Kendall's S, rounded outward. Source: Theil 1950, Indagationes Mathematicae
 * 12:85-91; Sen 1968, Journal of the American Statistical Association 63:1379-1389; limits as in Gilbert 1987,
 * Statistical Methods for Environmental Pollution Monitoring, 16.5. Cost: O(n^2) time and memory: meant for
 * up to a few thousand readings.
 *
 * @throws Error with fewer than 2 readings, x and y of different length, one not finite, or all x equal
 */
export function theilSen(x: ArrayLike<number>, y: ArrayLike<number>, confidence: number): TheilSen {
  const xs = finiteReadings('Theil-Sen slope', x, 2);
  const ys = finiteReadings('Theil-Sen slope', y, 2);
  if (xs.length !== ys.length) {
    throw new Error(`Theil-Sen slope needs as many x as y, got ${String(xs.length)} and ${String(ys.length)}`);
  }
  requireShare('Theil-Sen slope', 'confidence', confidence);
  const slopes = pairSlopes(xs, ys);
  if (slopes.length === 0) throw new Error('Theil-Sen slope needs x that differ');
  const slope = selectMedian(slopes);
  const reach = normalQuantile((1 + confidence) / 2) * Math.sqrt(kendallVariance(xs, ys));
  const rank = Math.floor((slopes.length - reach) / 2);
  // Finding the median has put the smaller slopes before it and the larger ones after it.
  const half = slopes.length >> 1;
  return {
    slope,
    intercept: selectMedian(ys.map((value, i) => value - slope * xs[i]!)),
    lower: atRank(slopes.subarray(0, half), rank - 1) ?? -Infinity,
    upper: atRank(slopes.subarray(half), slopes.length - rank - half) ?? Infinity,
  };
}

/** The slopes of all pairs whose x differ. */
function pairSlopes(xs: readonly number[], ys: readonly number[]): Float64Array {
  const slopes = new Float64Array((xs.length * (xs.length - 1)) / 2);
  let count = 0;
  for (let first = 0; first < xs.length; first += 1) {
    for (let second = first + 1; second < xs.length; second += 1) {
      const run = xs[second]! - xs[first]!;
      if (run !== 0) slopes[count++] = (ys[second]! - ys[first]!) / run;
    }
  }
  return slopes.subarray(0, count);
}

/** The number that would stand at a place were they in ascending order; undefined for no such place. The numbers change their places. */
function atRank(values: Float64Array, rank: number): number | undefined {
  if (rank < 0 || rank >= values.length) return undefined;
  // The typings know plain arrays alone; the algorithm swaps items and needs no more.
  quickselect(values as unknown as number[], rank);
  return values[rank];
}
