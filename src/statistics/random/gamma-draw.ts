import type { Uniform } from './seeded-random.ts';

/**
 * One draw of a gamma law with scale 1. Marsaglia and Tsang 2000, ACM Transactions on Mathematical Software 26:363-372; below shape 1 by their
 * remark, with one draw of the shape above times a power of a uniform number.
 * @param shape - above 0
 */
export function gammaDraw(shape: number, uniform: Uniform): number {
  if (shape < 1) return gammaDraw(shape + 1, uniform) * Math.max(uniform(), SMALLEST) ** (1 / shape);
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = normalDraw(uniform);
    const v = (1 + c * x) ** 3;
    if (v <= 0) continue;
    if (Math.log(Math.max(uniform(), SMALLEST)) < 0.5 * x * x + d - d * v + d * Math.log(v)) return d * v;
  }
}

/** One draw of a beta law, both parameters above 0. */
export function betaDraw(a: number, b: number, uniform: Uniform): number {
  const x = gammaDraw(a, uniform);
  const y = gammaDraw(b, uniform);
  return x + y > 0 ? x / (x + y) : a / (a + b);
}

/** One draw of a Dirichlet law into `into`, all weights above 0. */
export function dirichletDraw(weights: ArrayLike<number>, uniform: Uniform, into: Float64Array): void {
  let sum = 0;
  for (let at = 0; at < weights.length; at += 1) {
    const drawn = Math.max(gammaDraw(weights[at]!, uniform), Number.MIN_VALUE);
    into[at] = drawn;
    sum += drawn;
  }
  for (let at = 0; at < weights.length; at += 1) into[at]! /= sum;
}

/** Below any number that a generator of 32 bits gives, so that a logarithm stays finite. */
const SMALLEST = 2 ** -40;

/** One draw of the standard normal law: Box and Muller 1958, Annals of Mathematical Statistics 29:610-611. */
function normalDraw(uniform: Uniform): number {
  return Math.sqrt(-2 * Math.log(Math.max(uniform(), SMALLEST))) * Math.cos(2 * Math.PI * uniform());
}
