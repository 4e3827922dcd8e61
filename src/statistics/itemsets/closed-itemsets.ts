import { requireWhole } from '../numerics/guards.ts';
import { intersection } from './intersection.ts';
import type { Itemset } from './itemset.ts';
import { tidsets } from './tidsets.ts';

/**
 * All closed sets of items that occur together in at least `minimum` transactions: those to which no item can be added
 * without losing a transaction. They tell the counts of all frequent sets, and there are far fewer of them. The empty
 * set is not reported.
 *
 * Each closed set is reached once, by its prefix-preserving closure extension. Source: Uno, Asai, Uchida and Arimura
 * 2004, "LCM ver. 2", FIMI workshop. Cost: O(size of the log) for each closed set and item.
 *
 * @param transactions lists of items, each a whole number from 0 up, and how often each list was met; order and repeats of items do not matter
 * @param minimum fewest transactions, at least 1
 * @throws Error when an item, count or minimum is not a whole number in its range
 */
export function closedItemsets(transactions: readonly Itemset[], minimum: number): Itemset[] {
  requireWhole('itemset', 'minimum', minimum, 1);
  for (const { count } of transactions) requireWhole('itemset', 'count', count, 1);
  const holders = tidsets(transactions.map(({ items }) => items));
  const countOf = (positions: readonly number[]): number =>
    positions.reduce((sum, position) => sum + transactions[position]!.count, 0);
  const closure = (positions: readonly number[]): number[] =>
    [...holders]
      .filter(
        ([, held]) => held.length >= positions.length && intersection(positions, held).length === positions.length,
      )
      .map(([item]) => item);
  const result: Itemset[] = [];
  const grow = (items: readonly number[], positions: readonly number[], core: number): void => {
    if (items.length > 0) result.push({ items, count: countOf(positions) });
    const inside = new Set(items);
    for (const [item, held] of holders) {
      if (item <= core || inside.has(item)) continue;
      const both = intersection(positions, held);
      if (countOf(both) < minimum) continue;
      const closed = closure(both);
      if (closed.every((other) => other >= item || inside.has(other))) grow(closed, both, item);
    }
  };
  const everywhere = transactions.map((_, position) => position);
  if (countOf(everywhere) >= minimum) grow(closure(everywhere), everywhere, -1);
  return result;
}
