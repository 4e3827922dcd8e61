import { incompleteGamma } from './gamma.ts';

/**
 * Distribution function of the Poisson distribution: P(X <= count), for a whole count >= 0 and mean >= 0. Source: NIST
 * DLMF 8.4.10.
 */
export function poissonCdf(count: number, mean: number): number {
  return incompleteGamma(count + 1, mean).upper;
}
