/**
 * Chances of many tests, adjusted so that the chance of even one false finding among those up to a level is at most that level, however the tests
 * hang together. Holm 1979, Scandinavian Journal of Statistics 6:65-70.
 * @param p - from 0 to 1, of each test
 * @returns in the same order
 */
export function holm(p: readonly number[]): readonly number[] {
  const order = [...p.keys()].sort((a, b) => p[a]! - p[b]!);
  const adjusted = new Array<number>(p.length).fill(0);
  let most = 0;
  order.forEach((test, rank) => {
    most = Math.max(most, Math.min(1, (p.length - rank) * p[test]!));
    adjusted[test] = most;
  });
  return adjusted;
}
