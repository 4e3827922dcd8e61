import { countAlike } from './alike.ts';
import { median } from '../statistics/descriptive/median.ts';

/**
 * The order in which the bench really makes its checks: by their median place among the checks of a repair, as a share of the way through it.
 * @param sequences - the checks of each repair in the order made; only the first time counts
 */
export function usualOrder(sequences: readonly (readonly string[])[]): readonly string[] {
  const places = new Map<string, number[]>();
  for (const { list, count } of countAlike(sequences)) {
    const distinct = [...new Set(list)];
    distinct.forEach((check, place) => {
      const shares = places.get(check) ?? [];
      places.set(check, shares);
      for (let time = 0; time < count; time += 1) shares.push(place / Math.max(1, distinct.length - 1));
    });
  }
  return [...places]
    .map(([check, shares]) => ({ check, place: median(shares) }))
    .sort((a, b) => a.place - b.place)
    .map(({ check }) => check);
}
