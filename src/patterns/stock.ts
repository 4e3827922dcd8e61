import { chiSquareQuantile } from '../statistics/distributions/chi-square.ts';
import { negativeBinomialMoments } from '../statistics/counts/negative-binomial-moments.ts';
import { negativeBinomialUpperQuantile } from '../statistics/counts/negative-binomial-upper-quantile.ts';
import { poissonUpperQuantile } from '../statistics/counts/poisson-upper-quantile.ts';
import { compareParts, weekNumber, type ExaminedRepair } from './examined-repair.ts';

/** How many of a part to keep for the weeks to come. */
export interface PartStock {
  readonly part: string;
  /** Replaced in the weeks looked back on. */
  readonly used: number;
  readonly weeksSeen: number;
  /** Expected use in the weeks to come, with 95 % limits of the mean. */
  readonly expected: number;
  readonly low: number;
  readonly high: number;
  /** The fewest that suffice with the wanted probability. */
  readonly keep: number;
  readonly law: 'Poisson' | 'negative binomial';
}

const FEWEST_WEEKS = 8;

/**
 * Expected use of each part in the next weeks, most used first, and how many to keep. Use is what was replaced, failed or not.
 *
 * The weeks run from the first repair to the last, those without a repair included. The number to keep is an upper quantile of the Poisson law, or,
 * where the weekly counts vary more than that, of the negative binomial law with their mean and variance; it takes the mean as known.
 * Limits of the mean by Garwood 1936, Biometrika 28:437-442, for Poisson counts, widened by the root of variance over mean where that exceeds 1
 * (quasi-Poisson; McCullagh and Nelder 1989, Generalized Linear Models, 6.2).
 *
 * @param weeks - how many weeks ahead, above 0
 * @param enough - probability with which the stock shall suffice, between 0 and 1
 * @returns undefined with fewer than eight weeks to look back on
 */
export function stockFor(
  repairs: readonly ExaminedRepair[],
  weeks: number,
  enough: number,
): readonly PartStock[] | undefined {
  const dated = repairs
    .filter(({ begun }) => !Number.isNaN(begun))
    .map(({ replaced, begun }) => ({ replaced, week: weekNumber(begun) }));
  const first = dated.reduce((least, { week }) => Math.min(least, week), Infinity);
  const last = dated.reduce((most, { week }) => Math.max(most, week), -Infinity);
  const weeksSeen = last - first + 1;
  if (!(weeksSeen >= FEWEST_WEEKS)) return undefined;
  const uses = new Map<string, number[]>();
  for (const { replaced, week } of dated) {
    for (const part of replaced) {
      const counts = uses.get(part) ?? new Array<number>(weeksSeen).fill(0);
      counts[week - first]! += 1;
      uses.set(part, counts);
    }
  }
  return [...uses]
    .map(([part, counts]) => stockOf(part, counts, weeks, enough))
    .sort((a, b) => b.expected - a.expected || compareParts(a.part, b.part));
}

function stockOf(part: string, counts: readonly number[], weeks: number, enough: number): PartStock {
  const used = counts.reduce((sum, count) => sum + count, 0);
  const { mean, variance, size } = negativeBinomialMoments(counts);
  const expected = mean * weeks;
  const scale = weeks / counts.length;
  const widening = Math.sqrt(Math.max(1, variance / mean));
  const lowest = (chiSquareQuantile(0.025, 2 * used) / 2) * scale;
  const highest = (chiSquareQuantile(0.975, 2 * used + 2) / 2) * scale;
  return {
    part,
    used,
    weeksSeen: counts.length,
    expected,
    low: Math.max(0, expected - (expected - lowest) * widening),
    high: expected + (highest - expected) * widening,
    keep:
      size === undefined
        ? poissonUpperQuantile(expected, enough)
        : negativeBinomialUpperQuantile(expected, size * weeks, enough),
    law: size === undefined ? 'Poisson' : 'negative binomial',
  };
}
