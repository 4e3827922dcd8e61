import { describe, expect, test } from 'vitest';
import type { Part } from '../../../src/domain/family.ts';
import type { ExaminedRepair } from '../../../src/patterns/examined-repair.ts';
import { chanceOfAll, failureModel } from '../../../src/patterns/failure-model/failure-model.ts';
import { examined, GOOD, record, SHORTED, SUSPECTED, times } from '../examined.ts';

const apart = (designator: string): Part => ({ designator, nodes: [`${designator} in`, `${designator} out`] });
const across = (designator: string): Part => ({ designator, nodes: ['rail', 'ground'] });
const IN_CIRCUIT = { ...GOOD, proof: 'in circuit' } as const;

describe('one failure model a family', () => {
  // Stouffer and Toby's role conflict, 216 respondents of four answers each: Goodman 1974, Biometrika 61:215-231, table 1; two classes fit it well
  // (likelihood ratio 2.72 on 6 degrees of freedom). Figures from memory.
  test('fits the published example of latent classes', () => {
    const counts = [42, 23, 6, 25, 6, 24, 7, 38, 1, 4, 1, 6, 2, 9, 2, 20];
    const names = ['D1', 'D2', 'D3', 'D4'];
    const repairs = counts.flatMap((count, at) =>
      times(count, () => examined(Object.fromEntries(names.map((name, bit) => [name, (at >> (3 - bit)) & 1 ? GOOD : SHORTED])))),
    ); // prettier-ignore
    const model = failureModel(names.map(apart), repairs);
    // All four alike in 42; a count's standard error is its root.
    expect(Math.abs(216 * chanceOfAll(model, names).chance - 42)).toBeLessThan(Math.sqrt(42));
    // The first answer is given by 171 of 216, the last by 67.
    expect(chanceOfAll(model, ['D1']).chance).toBeCloseTo(171 / 216, 1);
    expect(chanceOfAll(model, ['D4']).chance).toBeCloseTo(67 / 216, 1);
  });

  test('a part that was not read is not good: the share is of the boards on which it was', () => {
    const repairs = [
      ...times(60, () => examined({ Q1: SHORTED })),
      ...times(60, () => examined({ Q1: GOOD })),
      ...times(400, () => examined({})),
    ];
    const { chance, low, high } = chanceOfAll(failureModel([apart('Q1')], repairs), ['Q1']);
    expect(chance).toBeCloseTo(0.5, 1);
    expect(low).toBeGreaterThan(0.38);
    expect(high).toBeLessThan(0.62);
  });

  test('the bench that stops at the first bad part hides what that one takes along, which the others tell', () => {
    // F1 is read on one board of four once Q1 has read bad, and had failed on all of these.
    const repairs = [
      ...times(60, () => examined({ Q1: SHORTED })),
      ...times(20, () => examined({ Q1: SHORTED, F1: SHORTED })),
      ...times(80, () => examined({ Q1: GOOD, F1: GOOD })),
    ];
    const { chance } = chanceOfAll(failureModel([apart('Q1'), apart('F1')], repairs), ['F1']);
    expect(chance).toBeGreaterThan(0.4);
  });

  test('a good reading across two nodes clears every part there', () => {
    const parts = [across('D4'), across('D5')];
    const repairs = [
      ...times(30, () => examined({ D4: GOOD, D5: SHORTED })),
      ...times(170, () => examined({ D4: IN_CIRCUIT })),
    ];
    expect(chanceOfAll(failureModel(parts, repairs), ['D5']).chance).toBeCloseTo(0.15, 1);
  });

  test('of parts that read bad together one at least has failed, and the settled boards say which', () => {
    const parts = [across('D4'), across('D5')];
    const repairs = [
      ...times(40, () => examined({ D4: GOOD, D5: SHORTED })),
      ...times(10, () => examined({ D4: SHORTED, D5: GOOD })),
      ...times(50, () => examined({ D4: SUSPECTED, D5: SUSPECTED })),
    ];
    const model = failureModel(parts, repairs);
    const [d4, d5] = [chanceOfAll(model, ['D4']).chance, chanceOfAll(model, ['D5']).chance];
    expect(d4 + d5).toBeGreaterThan(0.95);
    expect(d5).toBeGreaterThan(0.7);
    const toLift = chanceOfAll(model, ['D5'], { oneOf: [['D4', 'D5']] });
    expect(toLift.chance).toBeCloseTo(d5, 1);
    expect(chanceOfAll(model, ['D5'], { oneOf: [['D4', 'D5']], good: ['D4'] }).chance).toBeGreaterThan(0.99);
  });

  test('parts renewed with the rest, though good, are no evidence against them', () => {
    // D6 is renewed on every board that read bad and never failed where it was lifted.
    const parts = [across('D4'), across('D6')];
    const renewed = { replaced: new Set(['D4', 'D6']), record: record({ replaced: ['D4', 'D6'] }) };
    const repairs = [
      ...times(40, () => examined({ D4: SHORTED, D6: GOOD }, renewed)),
      ...times(60, () => examined({ D4: SHORTED }, renewed)),
    ];
    expect(chanceOfAll(failureModel(parts, repairs), ['D6']).chance).toBeLessThan(0.1);
  });

  test('the same repairs in another order give the same figures to the last bit', () => {
    const repairs: ExaminedRepair[] = [
      ...times(9, () => examined({ Q1: SHORTED, F1: GOOD }, { record: record({ complaint: 'burnt smell' }) })),
      ...times(7, () => examined({ Q1: GOOD, F1: SHORTED }, { record: record({ complaint: 'flicker' }) })),
      ...times(5, () => examined({ Q1: SHORTED })),
    ];
    const parts = [apart('Q1'), apart('F1')];
    const ask = (some: readonly ExaminedRepair[], declared: readonly Part[]) =>
      chanceOfAll(failureModel(declared, some), ['Q1'], { complaint: 'flicker' });
    expect(ask(repairs.toReversed(), parts.toReversed())).toEqual(ask(repairs, parts));
  });
});
