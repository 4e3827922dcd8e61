import { findRoot } from '../numerics/find-root.ts';
import { incompleteGamma } from './gamma.ts';
import { normalQuantile } from './normal.ts';

/** Distribution function of the chi-square distribution with `degrees` > 0 degrees of freedom. */
export function chiSquareCdf(x: number, degrees: number): number {
  return incompleteGamma(degrees / 2, x / 2).lower;
}

/**
 * Upper tail of the chi-square distribution, P(X > x), with its relative precision kept: the p-value of a statistic x.
 */
export function chiSquareUpperTail(x: number, degrees: number): number {
  return incompleteGamma(degrees / 2, x / 2).upper;
}

/**
 * Quantile of the chi-square distribution, 0 < p < 1: root of the distribution function around the cube-root
 * approximation of Wilson and Hilferty 1931 (PNAS 17:684-688).
 */
export function chiSquareQuantile(p: number, degrees: number): number {
  const spread = 2 / (9 * degrees);
  const guess = degrees * Math.max(0.1, 1 - spread + normalQuantile(p) * Math.sqrt(spread)) ** 3;
  const excess =
    p <= 0.5 ? (x: number) => chiSquareCdf(x, degrees) - p : (x: number) => 1 - p - chiSquareUpperTail(x, degrees);
  let lower = guess / 1.5;
  while (lower > 0 && excess(lower) > 0) lower /= 4;
  let upper = guess * 1.5;
  while (excess(upper) < 0) upper *= 2;
  return findRoot(excess, lower, upper);
}
