import { medianAbsoluteDeviation } from './median-absolute-deviation.ts';

/**
 * 1 / z(0.75), to the four places in common use, which makes the median absolute deviation of a normal sample estimate
 * its standard deviation.
 */
const NORMAL_CONSISTENCY = 1.4826;

/**
 * Robust standard deviation: the median absolute deviation times 1.4826. Half the readings may be wild before it breaks
 * down. Source: Hampel 1974, Journal of the American Statistical Association 69:383-393. Cost: O(n).
 *
 * @throws Error without readings, or when one is not finite
 */
export function robustStandardDeviation(values: ArrayLike<number>): number {
  return NORMAL_CONSISTENCY * medianAbsoluteDeviation(values);
}
