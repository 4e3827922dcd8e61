import { describe, expect, test } from 'vitest';
import type { Part } from '../../src/domain/family.ts';
import { estimateMaskedFailures } from '../../src/patterns/masked-failures.ts';
import { examineBench, maskedScores } from '../support/examined-bench.ts';
import { CONTRADICTORY, examined, failing, GOOD, record, SHORTED, SUSPECTED, times } from './examined.ts';

const across: readonly [string, string] = ['drain', 'source'];
const PAIR: readonly Part[] = [
  { designator: 'Q1', nodes: across },
  { designator: 'Q2', nodes: across },
];

describe('estimateMaskedFailures(parts, repairs, confidence)', () => {
  // Newcombe 1998, Statistics in Medicine 17:857-872, table I, Wilson's method.
  test.each([
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
  ])("has Wilson's interval where nothing is masked: %i of %i", (count, all, low, high) => {
    const repairs = times(all, (at) => examined({ Q9: at < count ? SHORTED : GOOD }));
    const rate = estimateMaskedFailures([], repairs, 0.95).parts[0]?.rate;
    expect(rate?.low).toBeCloseTo(low, 4);
    expect(rate?.high).toBeCloseTo(high, 4);
  });

  test('counts what is proved and what is inferred apart, and gives each suspect its chance', () => {
    const { parts, masked } = estimateMaskedFailures(
      PAIR,
      [
        ...times(9, () => examined({ Q1: SHORTED, Q2: GOOD })),
        ...times(3, () => examined({ Q1: GOOD, Q2: SHORTED })),
        ...times(8, () => examined({ Q1: GOOD, Q2: GOOD })),
        examined({ Q1: SUSPECTED, Q2: SUSPECTED }, { repair: 'T-0021' }),
      ],
      0.95,
    );
    expect(parts.map(({ part, measured, masked: open, repairs }) => [part, measured, open, repairs])).toEqual([
      ['Q1', 9, 1, 21],
      ['Q2', 3, 1, 21],
    ]);
    expect(parts[0]?.inferred).toBeCloseTo(0.75, 1);
    expect(masked).toEqual([
      {
        repair: 'T-0021',
        failed: [],
        suspects: [
          { part: 'Q1', chance: expect.closeTo(parts[0]!.inferred, 9) as number },
          { part: 'Q2', chance: expect.closeTo(parts[1]!.inferred, 9) as number },
        ],
      },
    ]);
  });

  test('an unmeasured part across a shorted one is a suspect; one across good ones is not', () => {
    const { masked } = estimateMaskedFailures(PAIR, [failing(['Q1']), examined({ Q1: GOOD })], 0.95);
    expect(masked.map(({ failed, suspects }) => [failed, suspects.map(({ part }) => part)])).toEqual([
      [['Q1'], ['Q2']],
    ]);
  });

  test('a suspect that went back on a working board was good', () => {
    const seen = { Q1: SUSPECTED, Q2: SUSPECTED };
    const [kept, comeback, open] = (['returned working', 'comeback', 'open'] as const).map((outcome) =>
      examined(seen, { replaced: new Set(['Q2']), record: record({ outcome }) }),
    );
    expect(estimateMaskedFailures(PAIR, [kept!], 0.95).masked[0]?.suspects).toEqual([{ part: 'Q2', chance: 1 }]);
    expect(estimateMaskedFailures(PAIR, [comeback!], 0.95).masked[0]?.suspects).toHaveLength(1);
    expect(estimateMaskedFailures(PAIR, [open!], 0.95).masked[0]?.suspects).toHaveLength(2);
  });

  test('a record without replaced parts clears nobody', () => {
    const repair = examined({ Q1: SUSPECTED, Q2: SUSPECTED }, { record: record({ outcome: 'returned working' }) });
    expect(estimateMaskedFailures(PAIR, [repair], 0.95).masked[0]?.suspects).toHaveLength(2);
  });

  test('repairs whose readings contradict each other do not count', () => {
    const { parts } = estimateMaskedFailures([], [examined({ Q9: CONTRADICTORY }), failing(['Q9'])], 0.95);
    expect(parts[0]).toMatchObject({ measured: 1, repairs: 1 });
    expect(estimateMaskedFailures([], [examined({ Q9: CONTRADICTORY })], 0.95).parts[0]?.rate).toBeUndefined();
  });

  test('has limits that are numbers also for a part that never failed in a group that did', () => {
    const { parts } = estimateMaskedFailures(
      PAIR,
      times(3, () => examined({ Q1: SHORTED, Q2: GOOD })),
      0.95,
    );
    expect(parts[1]).toMatchObject({ part: 'Q2', measured: 0, rate: { share: 0, low: 0 } });
    expect(parts[1]?.rate?.high).toBeGreaterThan(0.3);
    expect(parts[1]?.rate?.high).toBeLessThan(1);
  });

  test('names groups that are too large, and gives no rate without repairs', () => {
    const nine = times(9, (at): Part => ({ designator: `D${at}`, nodes: across }));
    expect(estimateMaskedFailures(nine, [], 0.95)).toMatchObject({
      parts: [],
      tooLarge: [nine.map((part) => part.designator)],
    });
    expect(estimateMaskedFailures(PAIR, [], 0.95).parts[0]?.rate).toBeUndefined();
  });

  test('on the simulated bench blames better than what reads short, and than equal shares', () => {
    const total = { pairs: 0, inferred: 0, naive: 0, equal: 0 };
    for (const seed of [1, 2, 3]) {
      const bench = examineBench({ seed, repairs: 300 });
      for (const { family, repairs } of bench.families) {
        const scores = maskedScores(bench, repairs, estimateMaskedFailures(family.parts, repairs, 0.95).masked);
        for (const key of ['pairs', 'inferred', 'naive', 'equal'] as const) total[key] += scores[key];
      }
    }
    expect(total.pairs).toBeGreaterThan(20);
    expect(total.inferred).toBeLessThan(0.7 * total.equal);
    expect(total.inferred).toBeLessThan(0.7 * total.naive);
  });
});
