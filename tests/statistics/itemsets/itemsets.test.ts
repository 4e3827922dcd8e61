import fc from '../../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { closedItemsets } from '../../../src/statistics/itemsets/closed-itemsets.ts';
import { frequentItemsets } from '../../../src/statistics/itemsets/frequent-itemsets.ts';
import type { Itemset } from '../../../src/statistics/itemsets/itemset.ts';

// Han, Kamber and Pei, Data Mining: Concepts and Techniques, ch. 6: nine transactions, minimum count 2.
const shop = Object.freeze(
  [
    [1, 2, 5],
    [2, 4],
    [2, 3],
    [1, 2, 4],
    [1, 3],
    [2, 3],
    [1, 3],
    [1, 2, 3, 5],
    [1, 2, 3],
  ].map((items) => Object.freeze(items)),
);

const text = (itemsets: readonly Itemset[]): string[] =>
  itemsets.map(({ items, count }) => `${items.join(' ')}: ${String(count)}`).sort();

/** Every set over the items 0 to 6 with its count, by trying each transaction. */
function allSets(transactions: readonly (readonly number[])[]): Itemset[] {
  return Array.from({ length: 127 }, (_, mask) => {
    const items = [0, 1, 2, 3, 4, 5, 6].filter((item) => ((mask + 1) >> item) & 1);
    return { items, count: transactions.filter((held) => items.every((item) => held.includes(item))).length };
  });
}

const logs = fc.array(fc.array(fc.integer({ min: 0, max: 6 }), { maxLength: 8 }), { maxLength: 15 });

describe('frequentItemsets', () => {
  test('Han, Kamber and Pei: thirteen sets, none of four items', () => {
    expect(text(frequentItemsets(shop, 2, 9))).toEqual(
      [
        ['1: 6', '2: 7', '3: 6', '4: 2', '5: 2'],
        ['1 2: 4', '1 3: 4', '1 5: 2', '2 3: 4', '2 4: 2', '2 5: 2'],
        ['1 2 3: 2', '1 2 5: 2'],
      ]
        .flat()
        .sort(),
    );
  });

  test('agrees with trying every set', () => {
    fc.assert(
      fc.property(logs, fc.integer({ min: 1, max: 5 }), fc.integer({ min: 1, max: 7 }), (log, minimum, largest) => {
        const expected = allSets(log).filter(({ items, count }) => count >= minimum && items.length <= largest);
        expect(text(frequentItemsets(log, minimum, largest))).toEqual(text(expected));
      }),
    );
  });

  test('refuses what has no meaning', () => {
    expect(() => frequentItemsets(shop, 0, 3)).toThrow('itemset needs a whole minimum of at least 1');
    expect(() => frequentItemsets(shop, 1, 0)).toThrow('itemset needs a whole largest size of at least 1');
    expect(() => frequentItemsets([[1.5]], 1, 3)).toThrow('itemset needs a whole item of at least 0');
  });
});

describe('closedItemsets', () => {
  const once = (items: readonly number[]) => ({ items, count: 1 });

  test('Han, Kamber and Pei: nine closed sets', () => {
    expect(text(closedItemsets(shop.map(once), 2))).toEqual(
      ['1: 6', '2: 7', '3: 6', '1 2: 4', '1 3: 4', '2 3: 4', '2 4: 2', '1 2 3: 2', '1 2 5: 2'].sort(),
    );
  });

  test('agrees with trying every set, each found once', () => {
    fc.assert(
      fc.property(logs, fc.integer({ min: 1, max: 5 }), (log, minimum) => {
        const all = allSets(log).filter(({ count }) => count >= minimum);
        const closed = all.filter(
          ({ items, count }) =>
            !all.some(
              (other) =>
                other.count === count &&
                other.items.length > items.length &&
                items.every((item) => other.items.includes(item)),
            ),
        );
        expect(text(closedItemsets(log.map(once), minimum))).toEqual(text(closed));
      }),
    );
  });

  test('a transaction met often is worth as many', () => {
    fc.assert(
      fc.property(logs, fc.integer({ min: 1, max: 5 }), fc.integer({ min: 1, max: 4 }), (log, minimum, often) => {
        const repeated = log.flatMap((items) => Array.from({ length: often }, () => once(items)));
        const counted = log.map((items) => ({ items, count: often }));
        expect(text(closedItemsets(counted, minimum))).toEqual(text(closedItemsets(repeated, minimum)));
      }),
    );
    expect(() => closedItemsets([{ items: [1], count: 0 }], 1)).toThrow('itemset needs a whole count of at least 1');
  });

  test('thirty items that always come together are one closed set', () => {
    const kit = Array.from({ length: 30 }, (_, i) => i);
    expect(closedItemsets([{ items: kit, count: 2 }, once([...kit, 40])], 2)).toEqual([{ items: kit, count: 3 }]);
  });

  test('no transactions hold nothing', () => {
    expect(closedItemsets([], 1)).toEqual([]);
    expect(frequentItemsets([], 1, 5)).toEqual([]);
  });
});
