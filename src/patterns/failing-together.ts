import { benjaminiHochberg } from '../statistics/significance/benjamini-hochberg.ts';
import { fisherExact } from '../statistics/significance/fisher-exact.ts';
import { countAlike } from './alike.ts';
import { compareParts, type ExaminedRepair } from './examined-repair.ts';

/** Two parts that each failed at least once. All counts are of repairs. */
export interface PartPair {
  readonly parts: readonly [string, string];
  readonly together: number;
  readonly first: number;
  readonly second: number;
  readonly repairs: number;
  /** How many times oftener together than if they had nothing to do with each other. */
  readonly lift: number;
  /** Fisher's exact test, one-sided: chance of as many together or more if they had nothing to do with each other. */
  readonly p: number;
  /** The same, adjusted over all pairs (Benjamini and Hochberg): those up to 0.05 are false in one of twenty on average. */
  readonly adjusted: number;
}

/**
 * Which parts fail together: every pair of parts that each are proved failed at least once, the surest first.
 * Pairs are of proved failures alone, so parts that mask each other show less often together than they fail.
 */
export function pairsFailingTogether(repairs: readonly ExaminedRepair[]): readonly PartPair[] {
  const alike = countAlike(repairs.map(({ failed }) => failed));
  const parts = [...new Set(alike.flatMap(({ list }) => list))].sort(compareParts);
  const place = new Map(parts.map((part, at) => [part, at]));
  const size = parts.length;
  const counts = new Uint32Array(size * size);
  for (const { list, count } of alike) {
    const places = list.map((part) => place.get(part)!);
    for (const a of places) for (const b of places) counts[a * size + b]! += count;
  }
  const pairs = parts.flatMap((first, a) =>
    parts.slice(a + 1).map((second, step) => {
      const b = a + 1 + step;
      const [together, ofFirst, ofSecond] = [counts[a * size + b]!, counts[a * size + a]!, counts[b * size + b]!];
      const neither = repairs.length - ofFirst - ofSecond + together;
      return {
        parts: [first, second] as const,
        together,
        first: ofFirst,
        second: ofSecond,
        repairs: repairs.length,
        lift: (together * repairs.length) / (ofFirst * ofSecond),
        p: fisherExact(together, ofFirst - together, ofSecond - together, neither).greater,
      };
    }),
  );
  const adjusted = benjaminiHochberg(pairs.map(({ p }) => p));
  return pairs
    .map((pair, at) => ({ ...pair, adjusted: adjusted[at]! }))
    .sort((a, b) => a.adjusted - b.adjusted || a.p - b.p || b.together - a.together);
}
