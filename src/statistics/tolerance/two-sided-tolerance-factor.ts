import { chiSquareQuantile, chiSquareUpperTail } from '../distributions/chi-square.ts';
import { normalCdf, normalDensity, normalQuantile } from '../distributions/normal.ts';
import { findRoot } from '../numerics/find-root.ts';
import { requireEnough, requireShare } from '../numerics/guards.ts';

/**
 * Exact two-sided normal tolerance factor k: with the given confidence, mean - k s to mean + k s holds at least the
 * share `content` of a normal population, where mean and s (n - 1) come from `n` readings of it.
 *
 * Exact, not Howe's approximation, which is too narrow from about 20 readings on. Solves E[ P(chi2 with n - 1 degrees
 * >= (n - 1) r(z)^2 / k^2) ] = confidence over z normal with variance 1 / n, where r(z) is the half-width about z that
 * holds `content`. Source: Odeh and Owen 1980, Tables for Normal Tolerance Limits; the tables of ISO 16269-6:2014 rest
 * on the same equation. The trapezoidal rule is used, which converges geometrically here. Cost: some 500 chi-square
 * tails, each O(sqrt(n)).
 *
 * @param n at least 2
 * @param content 0 to 1, for example 0.95
 * @param confidence 0 to 1, for example 0.95
 * @throws Error when n, content or confidence is outside its range
 */
export function twoSidedToleranceFactor(n: number, content: number, confidence: number): number {
  requireEnough('tolerance factor', n, 2);
  requireShare('tolerance factor', 'content', content);
  requireShare('tolerance factor', 'confidence', confidence);
  const degrees = n - 1;
  const nodes = meanNodes(n, content);
  const excess = (k: number): number => {
    let reached = 0;
    for (const { weight, halfWidth } of nodes) {
      reached += weight * chiSquareUpperTail(degrees * (halfWidth / k) ** 2, degrees);
    }
    return reached - confidence;
  };
  const howe =
    normalQuantile((1 + content) / 2) * Math.sqrt((degrees * (1 + 1 / n)) / chiSquareQuantile(1 - confidence, degrees));
  let lower = howe * 0.95;
  while (excess(lower) > 0) lower *= 0.8;
  let upper = howe * 1.05;
  while (excess(upper) < 0) upper *= 1.25;
  return findRoot(excess, lower, upper);
}

/**
 * Spacing of the nodes in standard errors of the mean, and how far out they go: beyond, the normal weight is below
 * 1e-16. Halving the spacing moves k by less than 1e-12 of itself.
 */
const SPACING = 0.125;
const REACH = 8.5;

/**
 * The sample mean's places, each with its weight and the half-width about it that holds `content` of the population.
 */
function meanNodes(n: number, content: number): readonly { readonly weight: number; readonly halfWidth: number }[] {
  return Array.from({ length: Math.floor(REACH / SPACING) + 1 }, (_, i) => ({
    weight: (i === 0 ? 1 : 2) * SPACING * normalDensity(i * SPACING),
    halfWidth: halfWidthHolding(content, (i * SPACING) / Math.sqrt(n)),
  }));
}

/** The r at which a standard normal value falls within z - r to z + r with probability `content`, for z >= 0. */
function halfWidthHolding(content: number, z: number): number {
  const central = normalQuantile((1 + content) / 2);
  if (z === 0) return central;
  const excess = (r: number): number => normalCdf(r - z) - normalCdf(-z - r) - content;
  return findRoot(excess, central * (1 - 1e-12), (z + central) * (1 + 1e-12));
}
