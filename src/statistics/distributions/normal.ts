import { incompleteGamma } from './gamma.ts';

/** Density of the standard normal distribution. */
export function normalDensity(z: number): number {
  return Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);
}

/** Distribution function of the standard normal distribution; keeps relative precision in the lower tail. */
export function normalCdf(z: number): number {
  const { lower, upper } = incompleteGamma(0.5, 0.5 * z * z);
  return z < 0 ? 0.5 * upper : 0.5 + 0.5 * lower;
}

/**
 * Logarithm of the standard normal distribution function, right where the function itself underflows or comes near 1.
 * Source: asymptotic series, NIST DLMF 7.12.1.
 */
export function normalLogCdf(z: number): number {
  if (z > 0) return Math.log1p(-normalCdf(-z));
  if (z > -20) return Math.log(normalCdf(z));
  let sum = 1;
  let term = 1;
  for (let k = 1; k <= 8; k++) {
    term *= -(2 * k - 1) / (z * z);
    sum += term;
  }
  return -0.5 * z * z - 0.5 * Math.log(2 * Math.PI) - Math.log(-z) + Math.log(sum);
}

type Coefficients = readonly [number, number, number, number, number, number, number, number];

const CENTRE_ABOVE: Coefficients = [
  3.3871328727963665, 133.14166789178438, 1971.5909503065513, 13731.69376550946, 45921.95393154987, 67265.7709270087,
  33430.57558358813, 2509.0809287301227,
];
const CENTRE_BELOW: Coefficients = [
  1, 42.31333070160091, 687.1870074920579, 5394.196021424751, 21213.794301586597, 39307.89580009271, 28729.085735721943,
  5226.495278852854,
];
const TAIL_ABOVE: Coefficients = [
  1.4234371107496835, 4.630337846156546, 5.769497221460691, 3.6478483247632045, 1.2704582524523684, 0.2417807251774506,
  0.022723844989269184, 0.0007745450142783414,
];
const TAIL_BELOW: Coefficients = [
  1, 2.053191626637759, 1.6763848301838038, 0.6897673349851, 0.14810397642748008, 0.015198666563616457,
  0.0005475938084995345, 1.0507500716444169e-9,
];
const FAR_ABOVE: Coefficients = [
  6.657904643501103, 5.463784911164114, 1.7848265399172913, 0.29656057182850487, 0.026532189526576124,
  0.0012426609473880784, 2.7115555687434876e-5, 2.0103343992922881e-7,
];
const FAR_BELOW: Coefficients = [
  1, 0.599832206555888, 0.1369298809227358, 0.014875361290850615, 0.0007868691311456133, 1.8463183175100548e-5,
  1.421511758316446e-7, 2.0442631033899397e-15,
];

function ratio(x: number, above: Coefficients, below: Coefficients): number {
  const horner = (sum: number, coefficient: number): number => sum * x + coefficient;
  return above.reduceRight(horner, 0) / below.reduceRight(horner, 0);
}

/**
 * Quantile of the standard normal distribution for 0 < p < 1, to about 1e-15 relative; the published
 * coefficients are given as the doubles nearest to them.
 * Source: Wichura 1988, algorithm AS 241 (PPND16), Applied Statistics 37:477-484.
 */
export function normalQuantile(p: number): number {
  const q = p - 0.5;
  if (Math.abs(q) <= 0.425) return q * ratio(0.180625 - q * q, CENTRE_ABOVE, CENTRE_BELOW);
  const r = Math.sqrt(-Math.log(q < 0 ? p : 1 - p));
  const size = r <= 5 ? ratio(r - 1.6, TAIL_ABOVE, TAIL_BELOW) : ratio(r - 5, FAR_ABOVE, FAR_BELOW);
  return q < 0 ? -size : size;
}
