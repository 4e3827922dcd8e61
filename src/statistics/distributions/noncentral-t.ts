import { findRoot } from '../numerics/find-root.ts';
import { incompleteBeta } from './beta.ts';
import { normalCdf } from './normal.ts';
import { binomialMass, poissonMass } from './saddle-point.ts';

/**
 * Distribution function of the noncentral t distribution: P(T <= t) of T = (Z + noncentrality) / sqrt(chi2 / degrees).
 *
 * A sum of incomplete beta functions under Poisson weights, started at the greatest weight and run both ways, so that a
 * large noncentrality neither underflows nor costs digits. Source: Lenth 1989, algorithm AS 243, Applied Statistics
 * 38:185-189; the start at the mode from Benton and Krishnamoorthy 2003, Computational Statistics & Data Analysis
 * 43:249-267. Cost: O(|noncentrality|). Absolute error about 1e-13.
 */
export function noncentralTCdf(t: number, degrees: number, noncentrality: number): number {
  if (t < 0) return 1 - noncentralTCdf(-t, degrees, -noncentrality);
  const below = normalCdf(-noncentrality);
  if (t === 0) return below;
  const sum = (first: number): number => weightedBetaSum(first, t, degrees, 0.5 * noncentrality * noncentrality);
  return below + 0.5 * (sum(0.5) + Math.sign(noncentrality) * sum(1));
}

/**
 * Sum over a = first, first + 1, ... of the Poisson weight at a - 1/2 times the incomplete beta function I(x; a,
 * degrees / 2).
 */
function weightedBetaSum(first: number, t: number, degrees: number, mean: number): number {
  const x = (t * t) / (degrees + t * t);
  const y = degrees / (degrees + t * t);
  const b = degrees / 2;
  const middle = first + Math.floor(mean);
  const atMiddle = {
    weight: poissonMass(middle - 0.5, mean),
    beta: incompleteBeta(x, middle, b, y).lower,
    // I(x; a, b) - I(x; a + 1, b)
    step: (binomialMass(middle, middle + b, x, y) * b) / (middle + b),
  };
  let sum = atMiddle.weight * atMiddle.beta;

  let { weight, beta, step } = atMiddle;
  for (let a = middle; weight > NEGLIGIBLE; a++) {
    weight *= mean / (a + 0.5);
    beta -= step;
    step *= (x * (a + b)) / (a + 1);
    sum += weight * beta;
  }
  ({ weight, beta, step } = atMiddle);
  for (let a = middle; a > first && weight > NEGLIGIBLE; a--) {
    weight *= (a - 0.5) / mean;
    step *= a / (x * (a - 1 + b));
    beta += step;
    sum += weight * beta;
  }
  return sum;
}

const NEGLIGIBLE = 1e-19;

/**
 * Quantile of the noncentral t distribution, 0 < p < 1, by root-finding. Cost: some 15 of its distribution function.
 */
export function noncentralTQuantile(p: number, degrees: number, noncentrality: number): number {
  const excess = (t: number): number => noncentralTCdf(t, degrees, noncentrality) - p;
  let reach = 1 + 0.5 * Math.abs(noncentrality);
  while (excess(noncentrality - reach) > 0) reach *= 2;
  const lower = noncentrality - reach;
  reach = 1 + 0.5 * Math.abs(noncentrality);
  while (excess(noncentrality + reach) < 0) reach *= 2;
  return findRoot(excess, lower, noncentrality + reach);
}
