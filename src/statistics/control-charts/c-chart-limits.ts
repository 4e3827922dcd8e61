import { mean } from '../descriptive/mean.ts';
import { requireWhole } from '../numerics/guards.ts';
import type { ControlLimits } from './limits.ts';

/**
 * Limits of a control chart for counts over equal opportunity (c chart): the mean count, and three of its square roots
 * either side, cut at 0. A count on a limit is in control. Source: Shewhart 1931; NIST/SEMATECH e-Handbook 6.3.3.1.
 *
 * @throws Error without counts, or when one is negative or not whole
 */
export function cChartLimits(counts: ArrayLike<number>): ControlLimits {
  const centre = mean(counts);
  for (const count of Array.from(counts)) requireWhole('c chart', 'count', count, 0);
  const reach = 3 * Math.sqrt(centre);
  return { centre, lower: Math.max(0, centre - reach), upper: centre + reach };
}
