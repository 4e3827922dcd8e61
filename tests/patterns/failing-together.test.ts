import fc from '../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import type { ExaminedRepair } from '../../src/patterns/examined-repair.ts';
import { pairsFailingTogether as pairsOf } from '../../src/patterns/failing-together.ts';
import { failureModel } from '../../src/patterns/failure-model/failure-model.ts';
import { failureSignatures as signaturesOf } from '../../src/patterns/failure-signatures.ts';
import { examineBench } from '../support/examined-bench.ts';
import { examined, failing, GOOD, SHORTED, times } from './examined.ts';

const pairsFailingTogether = (repairs: readonly ExaminedRepair[]) => pairsOf(failureModel([], repairs));
const failureSignatures = (repairs: readonly ExaminedRepair[], minimum: number) =>
  signaturesOf(repairs, failureModel([], repairs), minimum);

/** A repair in which both are read. */
const read = (f1: boolean, q1: boolean) => examined({ F1: f1 ? SHORTED : GOOD, Q1: q1 ? SHORTED : GOOD });

function table(both: number, first: number, second: number, neither: number) {
  return [
    ...times(both, () => read(true, true)),
    ...times(first, () => read(true, false)),
    ...times(second, () => read(false, true)),
    ...times(neither, () => read(false, false)),
  ];
}

describe('pairsFailingTogether(repairs)', () => {
  // Fisher 1935, The Design of Experiments, ch. 2 (the lady tasting tea): 17/70. The second table is computed, by R's fisher.test.
  test.each([
    [[3, 1, 1, 3], 17 / 70],
    [[8, 2, 1, 5], 0.0244755244755245],
  ] as const)(
    "has the one-sided chance of Fisher's exact test of the table %j",
    ([both, first, second, neither], p) => {
      const [pair] = pairsFailingTogether(table(both, first, second, neither));
      expect(pair?.parts).toEqual(['F1', 'Q1']);
      expect(pair?.p).toBeCloseTo(p, 12);
      expect(pair?.adjusted).toBeCloseTo(p, 12);
    },
  );

  test('adjusts over all pairs of parts that failed', () => {
    const pairs = pairsFailingTogether([...table(8, 2, 1, 5), failing(['R1'])]);
    expect(pairs).toHaveLength(3);
    expect(pairs[0]?.adjusted).toBeCloseTo(3 * pairs[0]!.p, 12);
  });

  test('has the lift of the failure model, which comes near the counts where all is read', () => {
    const [pair] = pairsFailingTogether(table(80, 20, 10, 90));
    expect(pair?.lift).toBeCloseTo((80 * 200) / (100 * 90), 1);
    expect(pair?.both.low).toBeLessThan(0.4);
    expect(pair?.both.high).toBeGreaterThan(0.4);
  });

  test('repairs in which one of the two was not read tell nothing of the pair', () => {
    const unread = [...times(300, () => examined({})), ...times(200, () => examined({ Q1: SHORTED }))];
    const [pair] = pairsFailingTogether([...table(3, 1, 1, 3), ...unread]);
    expect(pair).toMatchObject({ together: 3, first: 4, second: 4, repairs: 8 });
    expect(pair?.p).toBeCloseTo(17 / 70, 12);
  });

  test('finds no pair in no repairs, or where one part failed alone', () => {
    expect(pairsFailingTogether([])).toEqual([]);
    expect(pairsFailingTogether([failing(['Q1'])])).toEqual([]);
  });

  test('on the simulated bench finds the boost transistor with its fuse and sense resistor', () => {
    const heron = examineBench({ seed: 1, repairs: 300 }).families.find(({ family }) => family.name === 'HERON-48')!;
    const sure = pairsOf(failureModel(heron.family.parts, heron.repairs)).filter(({ adjusted }) => adjusted <= 0.05);
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

  test('have the share of the boards on which they were read', () => {
    const repairs = [
      ...times(40, () => read(true, true)),
      ...times(40, () => read(false, false)),
      ...times(300, () => examined({})),
    ];
    const [pair] = failureSignatures(repairs, 2).filter(({ parts }) => parts.length === 2);
    expect(pair?.count).toBe(40);
    expect(pair?.share.middle).toBeCloseTo(0.5, 1);
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
