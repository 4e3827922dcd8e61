import { requireWhole } from '../numerics/guards.ts';
import { intersection } from './intersection.ts';
import type { Itemset } from './itemset.ts';
import { tidsets } from './tidsets.ts';

/**
 * All sets of one to `largest` items that occur together in at least `minimum` transactions, exactly, in lexical order.
 *
 * Depth first over lists of transactions. Source: Zaki 2000, "Scalable algorithms for association mining" (Eclat), IEEE
 * Transactions on Knowledge and Data Engineering 12:372-390. Cost: grows with the number of sets found, which doubles
 * with every item of the largest one; bound it by `largest`, or take the closed sets.
 *
 * @param transactions lists of items, each a whole number from 0 up; order and repeats do not matter
 * @param minimum fewest transactions, at least 1
 * @throws Error when an item, minimum or largest is not a whole number in its range
 */
export function frequentItemsets(
  transactions: readonly (readonly number[])[],
  minimum: number,
  largest: number,
): Itemset[] {
  requireWhole('itemset', 'minimum', minimum, 1);
  requireWhole('itemset', 'largest size', largest, 1);
  const result: Itemset[] = [];
  const extend = (items: readonly number[], candidates: readonly (readonly [number, readonly number[]])[]): void => {
    candidates.forEach(([item, held], place) => {
      if (held.length < minimum) return;
      const grown = [...items, item];
      result.push({ items: grown, count: held.length });
      if (grown.length === largest) return;
      const later = candidates.slice(place + 1);
      extend(
        grown,
        later.map(([other, its]) => [other, intersection(held, its)] as const),
      );
    });
  };
  extend([], [...tidsets(transactions)]);
  return result;
}
