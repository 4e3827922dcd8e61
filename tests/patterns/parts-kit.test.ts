import fc from '../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { kitCurve, smallestKit, type RepairNeed } from '../../src/patterns/parts-kit.ts';
import { Random } from '../support/bench/random.ts';
import { times } from './examined.ts';

function needs(...sets: readonly string[]): RepairNeed[] {
  return sets.map((set, at) => ({ repair: `T-${at + 1}`, parts: set.split(' ').filter(Boolean) }));
}

const FIVE = needs('Q1 F1', 'Q1 F1', 'Q1 F1 BR1', 'U1', '');

describe('smallestKit(needs, share, prices)', () => {
  test('covers a repair only with every part that it needed', () => {
    expect(smallestKit(FIVE, 0.5)).toEqual({
      parts: ['F1', 'Q1'],
      covered: 2,
      repairs: 4,
      leftOut: ['T-3', 'T-4'],
      price: undefined,
      proved: true,
    });
    expect(smallestKit(FIVE, 0.75)).toMatchObject({ parts: ['F1', 'Q1', 'U1'], covered: 3, leftOut: ['T-3'] });
    expect(smallestKit(FIVE, 1)).toMatchObject({ parts: ['BR1', 'F1', 'Q1', 'U1'], covered: 4, leftOut: [] });
  });

  test('is the cheapest where prices are given, not the smallest', () => {
    const prices = new Map([['Q1', 1], ['F1', 1], ['BR1', 1], ['U1', 9]]); // prettier-ignore
    expect(smallestKit(FIVE, 0.75, prices)).toMatchObject({ parts: ['BR1', 'F1', 'Q1'], price: 3, leftOut: ['T-4'] });
  });

  test('is undefined without needs or with a price missing', () => {
    expect(smallestKit(needs('', ''), 0.9)).toBeUndefined();
    expect(smallestKit(FIVE, 0.9, new Map([['Q1', 1]]))).toBeUndefined();
  });

  test('refuses a share that is none', () => {
    expect(() => smallestKit(FIVE, 0)).toThrow('not 0');
    expect(() => smallestKit(FIVE, 1.5)).toThrow('not 1.5');
  });

  test('and the curve equal brute force over all kits, up to fourteen parts', () => {
    const instance = fc.integer({ min: 1, max: 14 }).chain((count) => {
      const part = fc.integer({ min: 0, max: count - 1 });
      const sets = fc.array(fc.uniqueArray(part, { minLength: 1, maxLength: 4 }), { minLength: 1, maxLength: 25 });
      return fc.tuple(
        sets,
        fc.array(fc.integer({ min: 0, max: 9 }), { minLength: count, maxLength: count }),
        fc.integer({ min: 1, max: 20 }),
      );
    });
    fc.assert(
      fc.property(instance, ([sets, prices, twentieths]) => {
        const list = sets.map((set, at) => ({ repair: `T-${at}`, parts: set.map((part) => `D${part}`) }));
        const priceOf = new Map(prices.map((price, part) => [`D${part}`, price]));
        const all = kitsByBruteForce(sets, prices);
        const share = twentieths / 20;
        const enough = all.filter(({ covered }) => covered >= share * sets.length - 1e-9);
        const smallest = smallestKit(list, share)!;
        const least = Math.min(...enough.map(({ size }) => size));
        expect(smallest.parts.length).toBe(least);
        expect(smallest.covered).toBe(Math.max(...enough.filter(({ size }) => size === least).map(({ covered }) => covered)));
        expect(smallestKit(list, share, priceOf)?.price).toBe(Math.min(...enough.map(({ price }) => price)));
        for (const { parts, covered } of kitCurve(list, 0)) {
          expect(covered).toBe(Math.max(...all.filter(({ size }) => size === parts.length).map((kit) => kit.covered)));
        }
      }),
      { numRuns: 25 },
    ); // prettier-ignore
  });
});

describe('with too many parts to try all kits', () => {
  const random = new Random(3);
  const hard = times(2000, (at) => ({
    repair: `T-${at}`,
    parts: [...new Set(times(1 + random.whole(0, 3), () => `Q${Math.floor(40 * random.uniform() ** 2)}`))],
  }));

  test('the kit covers its share all the same, and says that a better one may exist', () => {
    const kit = smallestKit(hard, 0.6)!;
    expect(kit.proved).toBe(false);
    expect(kit.covered).toBeGreaterThanOrEqual(0.6 * hard.length);
    const covers = (need: RepairNeed): boolean => need.parts.every((part) => kit.parts.includes(part));
    expect(hard.filter(covers)).toHaveLength(kit.covered);
  });

  test('the curve still grows with each part', () => {
    const covered = kitCurve(hard, 0.9).map((kit) => kit.covered);
    expect(covered.length).toBeGreaterThan(3);
    expect(covered).toEqual([...covered].sort((a, b) => a - b));
  });
});

describe('kitCurve(needs, from)', () => {
  test('has a kit of every size, up to all parts that were needed', () => {
    expect(kitCurve(FIVE, 0).map(({ parts, covered }) => [parts.length, covered])).toEqual([
      [1, 1],
      [2, 2],
      [3, 3],
      [4, 4],
    ]);
    expect(kitCurve([], 0)).toEqual([]);
    expect(kitCurve(FIVE, 0.5).map(({ parts }) => parts.length)).toEqual([2, 3, 4]);
  });
});

function kitsByBruteForce(sets: readonly (readonly number[])[], prices: readonly number[]) {
  const used = [...new Set(sets.flat())];
  const masks = sets.map((set) => set.reduce((bits, part) => bits | (1 << used.indexOf(part)), 0));
  return times(2 ** used.length, (kit) => {
    const parts = used.filter((_, at) => (kit >> at) & 1);
    return {
      size: parts.length,
      price: parts.reduce((sum, part) => sum + prices[part]!, 0),
      covered: masks.filter((mask) => (mask & ~kit) === 0).length,
    };
  });
}
