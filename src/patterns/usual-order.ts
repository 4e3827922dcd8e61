import { median } from '../statistics/descriptive/median.ts';

/**
 * The order in which the bench really makes its checks: by their median place among the checks of a repair, as a share of the way through it.
 * @param sequences - the checks of each repair in the order made; only the first time counts
 */
export function usualOrder(sequences: readonly (readonly string[])[]): readonly string[] {
  const places = new Map<string, number[]>();
  for (const sequence of sequences) {
    const distinct = [...new Set(sequence)];
    distinct.forEach((check, place) => {
      const share = place / Math.max(1, distinct.length - 1);
      const known = places.get(check);
      if (known) known.push(share);
      else places.set(check, [share]);
    });
  }
  return [...places]
    .map(([check, shares]) => ({ check, place: median(shares) }))
    .sort((a, b) => a.place - b.place)
    .map(({ check }) => check);
}
