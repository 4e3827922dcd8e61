import fc from '../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { bestSearchOrder, expectedCost, ratioOrder, type SearchCase } from '../../src/patterns/search-order.ts';
import { times } from './examined.ts';

/** One fault, which one check reveals. */
function oneFault(chances: readonly number[]): readonly SearchCase[] {
  return chances.map((weight, check) => ({ weight, revealedBy: [check] }));
}

/** Each check fails by its own chance; the first that fails ends the search. */
function series(chances: readonly number[]): readonly SearchCase[] {
  return times(2 ** chances.length, (bits) => {
    const fails = (check: number) => ((bits >> check) & 1) === 1;
    return {
      weight: chances.reduce((product, chance, check) => product * (fails(check) ? chance : 1 - chance), 1),
      revealedBy: [...chances.keys()].filter(fails),
    };
  });
}

function orders(count: number): readonly (readonly number[])[] {
  if (count === 0) return [[]];
  return orders(count - 1).flatMap((order) =>
    times(count, (at) => [...order.slice(0, at), count - 1, ...order.slice(at)]),
  );
}

const costs = (count: number) => fc.array(fc.integer({ min: 1, max: 20 }), { minLength: count, maxLength: count });
const weights = (count: number) => fc.array(fc.integer({ min: 0, max: 20 }), { minLength: count, maxLength: count }).filter((all) => all.some((weight) => weight > 0)); // prettier-ignore

describe('the order of a search', () => {
  // Simon and Kadane 1975, Artificial Intelligence 6:235-247; figures of this instance computed by brute force over all orders.
  test('is by chance over cost where there is one fault, better than by chance or by cost alone', () => {
    const [cost, cases] = [[1, 2, 5, 3], oneFault([0.1, 0.4, 0.3, 0.2])];
    const best = bestSearchOrder(cost, cases);
    expect(best).toMatchObject({ order: [1, 0, 3, 2], rule: 'ratio' });
    expect(best?.cost).toBeCloseTo(5.6, 12);
    expect(expectedCost([1, 2, 3, 0], cost, cases)).toBeCloseTo(6, 12);
    expect(expectedCost([0, 1, 3, 2], cost, cases)).toBeCloseTo(5.8, 12);
    expect(expectedCost([2, 3, 0, 1], cost, cases)).toBeCloseTo(8.4, 12);
  });

  // Mitten 1960, Journal of Industrial Engineering 11:17 (citation from memory): by cost over chance of failing; figures by brute force.
  test('is by chance over cost also for independent checks that end at the first failing one', () => {
    const [cost, cases] = [[4, 1, 3, 2], series([1 / 2, 1 / 10, 1 / 4, 1 / 5])];
    const best = bestSearchOrder(cost, cases);
    expect(best?.cost).toBeCloseTo(6.48, 12);
    expect([[0, 1, 3, 2], [0, 3, 1, 2]]).toContainEqual(best?.order); // prettier-ignore
    expect(expectedCost(ratioOrder(cost, cases), cost, cases)).toBeCloseTo(6.48, 12);
    expect(expectedCost([2, 3, 1, 0], cost, cases)).toBeCloseTo(7.26, 12);
  });

  test('is not by chance over cost where the last check may be inferred instead of made', () => {
    const [cost, chances] = [
      [7, 7, 8],
      [3 / 8, 1 / 8, 1 / 2],
    ];
    const withLastInferred = (order: readonly number[]) => {
      const paidForAll = expectedCost(order, cost, oneFault(chances))!;
      return paidForAll - cost[order.at(-1)!]! * chances[order.at(-1)!]!;
    };
    expect(ratioOrder(cost, oneFault(chances))).toEqual([2, 0, 1]);
    expect(withLastInferred([2, 0, 1])).toBeCloseTo(11.5, 12);
    expect(withLastInferred([0, 1, 2])).toBeCloseTo(11.375, 12);
  });

  test('by ratio equals the best of all orders with one fault, up to eight checks', () => {
    const instance = fc.integer({ min: 1, max: 8 }).chain((count) => fc.tuple(costs(count), weights(count)));
    const all = times(9, orders);
    fc.assert(
      fc.property(instance, ([cost, chances]) => {
        const cases = oneFault(chances);
        const least = Math.min(...all[cost.length]!.map((order) => costOf(order, cost, chances)));
        expect(bestSearchOrder(cost, cases)?.cost).toBeCloseTo(least, 9);
      }),
      { numRuns: 40 },
    );
  });

  test('by dynamic programming equals the best of all orders where faults show at several checks', () => {
    const instance = fc.integer({ min: 2, max: 6 }).chain((count) => {
      const shown = fc.record({
        weight: fc.integer({ min: 1, max: 9 }),
        revealedBy: fc.subarray([...times(count, (at) => at)]),
      });
      return fc.tuple(costs(count), fc.array(shown, { minLength: 1, maxLength: 10 }));
    });
    const all = times(7, orders);
    fc.assert(
      fc.property(instance, ([cost, cases]) => {
        const least = Math.min(...all[cost.length]!.map((order) => expectedCost(order, cost, cases)!));
        expect(bestSearchOrder(cost, cases)?.cost).toBeCloseTo(least, 9);
      }),
      { numRuns: 60 },
    );
  });

  test('is near the best beyond eighteen checks: each next one by ratio over the cases still open', () => {
    const cost = times(20, () => 1);
    const cases = [
      { weight: 6, revealedBy: [3, 7] },
      { weight: 5, revealedBy: [7, 3] },
      { weight: 2, revealedBy: [9] },
    ];
    expect(bestSearchOrder(cost, cases)).toMatchObject({ rule: 'greedy', cost: (11 + 4) / 13 });
  });

  test('is undefined without checks or cases', () => {
    expect(bestSearchOrder([], [])).toBeUndefined();
    expect(bestSearchOrder([1], [])).toBeUndefined();
    expect(bestSearchOrder([1], [{ weight: 0, revealedBy: [0] }])).toBeUndefined();
    expect(bestSearchOrder([], [{ weight: 1, revealedBy: [] }])).toBeUndefined();
  });
});

/** Expected cost by its definition: the costs up to each check, by its chance. */
function costOf(order: readonly number[], cost: readonly number[], chances: readonly number[]): number {
  let [spent, sum, total] = [0, 0, 0];
  for (const check of order) {
    spent += cost[check]!;
    sum += spent * chances[check]!;
    total += chances[check]!;
  }
  return sum / total;
}
