import { fisherExact } from '../statistics/significance/fisher-exact.ts';

/** Where a share changed. */
export interface ShareChange {
  /** Position of the first sample after the change. */
  readonly at: number;
  readonly before: { readonly count: number; readonly size: number };
  readonly after: { readonly count: number; readonly size: number };
  /** Fisher's exact two-sided p of before against after, times the number of splits tried (Bonferroni), at most 1: on the safe side. */
  readonly p: number;
}

/** Fewest samples on either side of a change. */
const FEWEST = 2;

/**
 * The likeliest place of one lasting change in a row of binomial samples: the split with the greatest likelihood ratio.
 * Source: Hinkley and Hinkley 1970, Biometrika 57:477-488. Cost: O(n).
 *
 * @param counts how many of each sample have the property
 * @param sizes how large each sample is, at least 1
 * @returns undefined with fewer than 4 samples, or where all or none have the property
 */
export function shareChange(counts: readonly number[], sizes: readonly number[]): ShareChange | undefined {
  const whole = { count: sum(counts), size: sum(sizes) };
  if (counts.length < 2 * FEWEST || whole.count === 0 || whole.count === whole.size) return undefined;
  const splits: { at: number; before: ShareChange['before']; after: ShareChange['after'] }[] = [];
  let [count, size] = [0, 0];
  counts.forEach((own, place) => {
    count += own;
    size += sizes[place]!;
    const at = place + 1;
    if (at < FEWEST || at > counts.length - FEWEST) return;
    splits.push({ at, before: { count, size }, after: { count: whole.count - count, size: whole.size - size } });
  });
  const likelihood = (split: (typeof splits)[number]): number => logBinomial(split.before) + logBinomial(split.after);
  const best = splits.reduce((a, b) => (likelihood(b) > likelihood(a) ? b : a));
  const { before, after } = best;
  const test = fisherExact(before.count, before.size - before.count, after.count, after.size - after.count);
  return { ...best, p: Math.min(1, test.twoSided * splits.length) };
}

/** Greatest log-likelihood of a binomial count, without the binomial coefficient, which no split changes. */
function logBinomial({ count, size }: { readonly count: number; readonly size: number }): number {
  const part = (many: number): number => (many === 0 ? 0 : many * Math.log(many / size));
  return part(count) + part(size - count);
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
