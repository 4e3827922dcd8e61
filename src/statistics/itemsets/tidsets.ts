import { requireWhole } from '../numerics/guards.ts';

/**
 * For each item, the positions of the transactions that hold it, ascending; an item named twice in one counts once.
 *
 * @throws Error when an item is not a whole number from 0 up
 */
export function tidsets(transactions: readonly (readonly number[])[]): ReadonlyMap<number, readonly number[]> {
  const found = new Map<number, number[]>();
  transactions.forEach((transaction, position) => {
    for (const item of new Set(transaction)) {
      requireWhole('itemset', 'item', item, 0);
      const held = found.get(item);
      if (held) held.push(position);
      else found.set(item, [position]);
    }
  });
  return new Map([...found].sort(([a], [b]) => a - b));
}
