/**
 * Smallest whole count >= 0 whose distribution function reaches `share`. Doubling, then halving: O(log count) calls.
 *
 * @param cdf never falls, and comes to 1
 * @param share 0 to 1
 */
export function smallestCount(cdf: (count: number) => number, share: number): number {
  let below = -1;
  let reached = 0;
  while (cdf(reached) < share) [below, reached] = [reached, 2 * reached + 1];
  while (reached - below > 1) {
    const middle = Math.floor((below + reached) / 2);
    if (cdf(middle) < share) below = middle;
    else reached = middle;
  }
  return reached;
}
