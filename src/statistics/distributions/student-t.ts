import { findRoot } from '../numerics/find-root.ts';
import { incompleteBeta } from './beta.ts';
import { normalQuantile } from './normal.ts';

/**
 * Distribution function of Student's t with `degrees` > 0 degrees of freedom. Source: NIST DLMF 8.17 (the incomplete
 * beta form).
 */
export function studentTCdf(t: number, degrees: number): number {
  const square = t * t;
  const tail = 0.5 * incompleteBeta(degrees / (degrees + square), degrees / 2, 0.5, square / (degrees + square)).lower;
  return t < 0 ? tail : 1 - tail;
}

/** Quantile of Student's t, 0 < p < 1, by root-finding in the tail that `p` lies in. */
export function studentTQuantile(p: number, degrees: number): number {
  if (p === 0.5) return 0;
  const tail = Math.min(p, 1 - p);
  // Student's t has the heavier tail, so its quantile lies at or beyond the normal one.
  let far = 2 * normalQuantile(tail) - 1;
  while (studentTCdf(far, degrees) > tail) far *= 2;
  const below = findRoot((t) => studentTCdf(t, degrees) - tail, far, 0);
  return p < 0.5 ? below : -below;
}
