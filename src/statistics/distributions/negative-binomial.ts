import { incompleteBeta } from './beta.ts';

/**
 * Distribution function of the negative binomial distribution with the given mean and size (variance = mean +
 * mean^2 / size): P(X <= count), for a whole count >= 0. The size may be any positive number.
 * Source: Johnson, Kemp and Kotz 2005, Univariate Discrete Distributions, 5.6.
 */
export function negativeBinomialCdf(count: number, mean: number, size: number): number {
  return incompleteBeta(size / (size + mean), size, count + 1, mean / (size + mean)).lower;
}
