/**
 * Coefficients of Stirling's asymptotic series, B(2k) / (2k (2k - 1)); from 16 on, seven terms reach full precision.
 */
const STIRLING = [1 / 12, -1 / 360, 1 / 1260, -1 / 1680, 1 / 1188, -691 / 360360, 1 / 156] as const;

/**
 * Error of Stirling's formula, log(n!) - log(sqrt(2 pi n) (n / e)^n), for real n > 0.
 *
 * Small n are lifted to 16 by the recurrence of the gamma function. Source: Loader 2000, "Fast and accurate computation
 * of binomial probabilities"; series NIST DLMF 5.11.1.
 */
export function stirlingError(n: number): number {
  let lift = 0;
  let x = n;
  for (; x < 16; x++) lift += (x + 0.5) * Math.log1p(1 / x) - 1;
  const series = STIRLING.reduceRight((sum, coefficient) => sum / (x * x) + coefficient, 0);
  return lift + series / x;
}

/** Deviance x log(x / m) + m - x for x, m > 0, without cancellation where x is near m. Source: Loader 2000. */
function deviance(x: number, m: number): number {
  const v = (x - m) / (x + m);
  if (!(Math.abs(v) <= 0.1)) return x * Math.log(x / m) + m - x;
  let sum = (x - m) * v;
  let power = 2 * x * v;
  for (let j = 1; ; j++) {
    power *= v * v;
    const next = sum + power / (2 * j + 1);
    if (next === sum) return sum;
    sum = next;
  }
}

/**
 * Poisson mass e^-mean mean^x / Gamma(x + 1), for real x >= 0 and mean >= 0, to full relative precision. Source: Loader
 * 2000.
 */
export function poissonMass(x: number, mean: number): number {
  if (x === 0) return Math.exp(-mean);
  if (mean === 0) return 0;
  return Math.exp(-stirlingError(x) - deviance(x, mean)) / Math.sqrt(2 * Math.PI * x);
}

/**
 * Binomial mass Gamma(n + 1) / (Gamma(x + 1) Gamma(n - x + 1)) p^x q^(n - x), for real 0 < x < n and p + q = 1,
 * to full relative precision. Both p and q are asked for, so that neither loses digits near 1. Source: Loader 2000.
 */
export function binomialMass(x: number, n: number, p: number, q: number): number {
  if (p === 0 || q === 0) return 0;
  const exponent =
    stirlingError(n) - stirlingError(x) - stirlingError(n - x) - deviance(x, n * p) - deviance(n - x, n * q);
  return Math.exp(exponent) * Math.sqrt(n / (2 * Math.PI * x * (n - x)));
}
