import fc from '../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { pairsFailingTogether } from '../../src/patterns/failing-together.ts';
import { failureSignatures } from '../../src/patterns/failure-signatures.ts';
import { examineBench } from '../support/examined-bench.ts';
import { failing, times } from './examined.ts';

function table(both: number, first: number, second: number, neither: number) {
  return [
    ...times(both, () => failing(['F1', 'Q1'])),
    ...times(first, () => failing(['F1'])),
    ...times(second, () => failing(['Q1'])),
    ...times(neither, () => failing([])),
  ];
}

describe('pairsFailingTogether(repairs)', () => {
  // Fisher 1935, The Design of Experiments, ch. 2 (the lady tasting tea): 17/70. The second table is computed, by R's fisher.test.
  test.each([
    [[3, 1, 1, 3], 17 / 70, 1.5],
    [[8, 2, 1, 5], 0.0244755244755245, (64 * 2) / 90],
  ] as const)(
    "has the one-sided chance of Fisher's exact test, and the lift, of the table %j",
    ([both, first, second, neither], p, lift) => {
      const [pair] = pairsFailingTogether(table(both, first, second, neither));
      expect(pair?.parts).toEqual(['F1', 'Q1']);
      expect(pair?.p).toBeCloseTo(p, 12);
      expect(pair?.adjusted).toBeCloseTo(p, 12);
      expect(pair?.lift).toBeCloseTo(lift, 12);
    },
  );

  test('adjusts over all pairs of parts that failed', () => {
    const pairs = pairsFailingTogether([...table(8, 2, 1, 5), failing(['R1'])]);
    expect(pairs).toHaveLength(3);
    expect(pairs[0]?.adjusted).toBeCloseTo(3 * pairs[0]!.p, 12);
  });

  test('finds no pair in no repairs, or where one part failed alone', () => {
    expect(pairsFailingTogether([])).toEqual([]);
    expect(pairsFailingTogether([failing(['Q1'])])).toEqual([]);
  });

  test('on the simulated bench finds the boost transistor with its fuse and sense resistor', () => {
    const heron = examineBench({ seed: 1, repairs: 300 }).families.find(({ family }) => family.name === 'HERON-48')!;
    const sure = pairsFailingTogether(heron.repairs).filter(({ adjusted }) => adjusted <= 0.05);
    const names = sure.map(({ parts }) => parts.join());
    expect(names).toEqual(expect.arrayContaining(['F1,Q1', 'Q1,R1', 'F1,R1']));
    expect(names).not.toContain('F1,Q3');
  });
});

describe('failureSignatures(repairs, minimum)', () => {
  // Han, Kamber and Pei, Data Mining: Concepts and Techniques, ch. 6: nine transactions, minimum count 2, items written as parts.
  const NINE = ['1 2 5', '2 4', '2 3', '1 2 4', '1 3', '2 3', '1 3', '1 2 3 5', '1 2 3'].map((items, at) =>
    failing(items.split(' ').map((item) => `Q${item}`), { repair: `T${at + 1}00` }),
  ); // prettier-ignore

  test('are the nine closed sets of the nine transactions of the textbook', () => {
    const found = failureSignatures(NINE, 2).map(({ parts, count }) => `${parts.join('')}:${count}`);
    expect(new Set(found)).toEqual(
      new Set(['Q1:6', 'Q2:7', 'Q3:6', 'Q1Q2:4', 'Q1Q3:4', 'Q2Q3:4', 'Q2Q4:2', 'Q1Q2Q3:2', 'Q1Q2Q5:2']),
    );
    expect(found).toHaveLength(9);
  });

  test('come with the latest repairs that hold them', () => {
    const signatures = failureSignatures(NINE, 2);
    expect(signatures.find(({ parts }) => parts.join() === 'Q1,Q2,Q5')?.examples).toEqual(['T100', 'T800']);
    expect(signatures[0]).toMatchObject({ parts: ['Q2'], examples: ['T300', 'T400', 'T600', 'T800', 'T900'] });
  });

  test('equal those of brute force over all sets of parts', () => {
    const parts = ['F1', 'Q1', 'Q2', 'R1', 'D1', 'D2'];
    fc.assert(
      fc.property(fc.array(fc.subarray(parts), { minLength: 1, maxLength: 14 }), fc.integer({ min: 1, max: 3 }), (sets, minimum) => {
        const repairs = sets.map((set) => failing(set));
        const found = failureSignatures(repairs, minimum).map(({ parts: own, count }) => `${[...own].sort().join()}:${count}`);
        expect([...found].sort()).toEqual(closedByBruteForce(parts, sets, minimum).sort());
      }),
      { numRuns: 100 },
    ); // prettier-ignore
  });

  test('are none where nothing failed', () => {
    expect(failureSignatures([], 2)).toEqual([]);
    expect(failureSignatures([failing([]), failing([])], 1)).toEqual([]);
  });
});

function closedByBruteForce(parts: readonly string[], sets: readonly (readonly string[])[], minimum: number): string[] {
  const count = (subset: readonly string[]): number =>
    sets.filter((set) => subset.every((part) => set.includes(part))).length;
  const subsets = times(2 ** parts.length - 1, (bits) => parts.filter((_, at) => ((bits + 1) >> at) & 1));
  return subsets
    .filter((subset) => count(subset) >= minimum)
    .filter((subset) => parts.every((part) => subset.includes(part) || count([...subset, part]) < count(subset)))
    .map((subset) => `${[...subset].sort().join()}:${count(subset)}`);
}
