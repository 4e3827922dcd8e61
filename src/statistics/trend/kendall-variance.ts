import { tieSizes } from '../numerics/ranks.ts';

/**
 * Variance of Kendall's S, the sum of sign(x_j - x_i) sign(y_j - y_i) over all pairs, when x and y are unrelated; ties
 * in either are allowed for. Source: Kendall 1975, Rank Correlation Methods, 4th ed., 4.9. Cost: O(n log n).
 */
export function kendallVariance(x: readonly number[], y: readonly number[]): number {
  const n = x.length;
  const xTies = tieSizes(x);
  const yTies = tieSizes(y);
  const pairs = (t: number): number => t * (t - 1);
  const triples = (t: number): number => t * (t - 1) * (t - 2);
  const spread = (t: number): number => t * (t - 1) * (2 * t + 5);
  const total = (sizes: readonly number[], weigh: (t: number) => number): number =>
    sizes.reduce((sum, size) => sum + weigh(size), 0);
  const untied = (spread(n) - total(xTies, spread) - total(yTies, spread)) / 18;
  const bothPairs = n < 2 ? 0 : (total(xTies, pairs) * total(yTies, pairs)) / (2 * pairs(n));
  const bothTriples = n < 3 ? 0 : (total(xTies, triples) * total(yTies, triples)) / (9 * triples(n));
  return untied + bothTriples + bothPairs;
}
