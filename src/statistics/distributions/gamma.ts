import { poissonMass, stirlingError } from './saddle-point.ts';

/** Natural logarithm of the gamma function, for real x > 0. Absolute error below 1e-14 near 1; relative elsewhere. */
export function logGamma(x: number): number {
  return stirlingError(x) + (x - 0.5) * Math.log(x) - x + 0.5 * Math.log(2 * Math.PI);
}

/**
 * Regularised incomplete gamma function, both tails: `lower` is P(shape, x), `upper` is Q(shape, x) = 1 - P.
 * The smaller tail keeps its relative precision.
 *
 * Power series below shape + 1, continued fraction by the modified Lentz method above. Source: NIST DLMF 8.11.4 and
 * 8.9.2; Press et al., Numerical Recipes, 6.2. Cost: O(sqrt(shape)) terms near the middle, fewer in the tails.
 *
 * @param shape > 0
 * @param x >= 0
 */
export function incompleteGamma(shape: number, x: number): { readonly lower: number; readonly upper: number } {
  if (x <= 0) return { lower: 0, upper: 1 };
  if (x === Infinity) return { lower: 1, upper: 0 };
  const mass = poissonMass(shape, x);
  if (x < shape + 1) {
    const lower = mass * seriesSum(shape, x);
    return { lower, upper: 1 - lower };
  }
  const upper = mass * shape * continuedFraction(shape, x);
  return { lower: 1 - upper, upper };
}

/** Sum of x^k / ((shape + 1) ... (shape + k)). */
function seriesSum(shape: number, x: number): number {
  let sum = 1;
  let term = 1;
  for (let k = 1; ; k++) {
    term *= x / (shape + k);
    const next = sum + term;
    if (next === sum) return sum;
    sum = next;
  }
}

function continuedFraction(shape: number, x: number): number {
  let b = x + 1 - shape;
  let c = Infinity;
  let d = 1 / b;
  let value = d;
  let step: number;
  let i = 1;
  do {
    const a = -i * (i - shape);
    b += 2;
    d = 1 / (a * d + b);
    c = b + a / c;
    step = c * d;
    value *= step;
    i++;
  } while (Math.abs(step - 1) > 1e-15);
  return value;
}
