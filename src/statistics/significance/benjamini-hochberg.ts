/**
 * Benjamini-Hochberg adjusted p-values, in the order given: rejecting all that are at most q keeps the expected share
 * of false rejections at or below q, for independent (or positively dependent) tests.
 *
 * Step-up: p n / rank, then the running minimum from the largest p down, at most 1. Source: Benjamini and Hochberg
 * 1995, Journal of the Royal Statistical Society B 57:289-300. Cost: O(n log n).
 *
 * @throws Error when a p-value is outside 0 to 1
 */
export function benjaminiHochberg(pValues: ArrayLike<number>): number[] {
  const order = Array.from(pValues, (p, index) => {
    if (!(p >= 0 && p <= 1)) throw new Error(`Benjamini-Hochberg needs p-values from 0 to 1, got ${String(p)}`);
    return { p, index };
  }).sort((a, b) => b.p - a.p);
  const adjusted = new Array<number>(order.length);
  let least = 1;
  order.forEach(({ p, index }, place) => {
    least = Math.min(least, (p * order.length) / (order.length - place));
    adjusted[index] = least;
  });
  return adjusted;
}
