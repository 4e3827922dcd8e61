import { describe, expect, test } from 'vitest';
import { chancesToFind, chancesToLift } from '../../src/patterns/part-chances.ts';
import { examineBench } from '../support/examined-bench.ts';
import { brierScore, chancesTold, reliabilityCurve } from '../support/next-on-bench.ts';
import { examined, failing, record, times } from './examined.ts';

const good = { finding: 'good', proof: 'out of circuit', rows: [] } as const;
const CHECKS = [
  { point: 'Q1 D→S', shows: ['Q1', 'D3'], seconds: 20 },
  { point: 'U1 D→GND', shows: ['U1'], seconds: 20 },
];

describe('chancesToLift(parts, earlier)', () => {
  test('five repairs alike make no certainty: (5 + 1) / (5 + 2) by the law of succession', () => {
    const alike = times(5, () => examined({ Q1: { finding: 'failed', rows: [] }, D3: good }));
    expect(chancesToLift(['Q1', 'D3'], alike)).toEqual({
      parts: [
        { chance: 6 / 7, failed: 5, told: 5 },
        { chance: 1 / 7, failed: 0, told: 5 },
      ],
      repairs: 5,
    });
  });

  test('a part that a repair left unsettled counts in neither way', () => {
    const unsettled = examined({ Q1: { finding: 'failed', rows: [] }, D3: { finding: 'suspected', rows: [] } });
    expect(chancesToLift(['Q1', 'D3'], [unsettled]).parts).toEqual([
      { chance: 2 / 3, failed: 1, told: 1 },
      { chance: 1 / 2, failed: 0, told: 0 },
    ]);
  });

  test('repairs in which they read bad and all proved good count against them; others tell nothing', () => {
    const none = { ...examined({ Q1: good, D3: { finding: 'cleared', rows: [] } }), badInCircuit: new Set(['Q1']) };
    expect(chancesToLift(['Q1', 'D3'], [none]).parts[0]).toEqual({ chance: 1 / 3, failed: 0, told: 1 });
    expect(chancesToLift(['Q1', 'D3'], [examined({ Q1: good, D3: good }), failing(['U1'])]).repairs).toBe(0);
  });
});

describe('chancesToFind(checks, earlier, board)', () => {
  test('is the posterior mean from a prior worth one repair, spread over the checks and none of them', () => {
    const earlier = [...times(5, () => failing(['D3'])), failing(['R9'])];
    const { chances, repairs } = chancesToFind(CHECKS, earlier, {});
    expect(repairs).toBe(6);
    expect(chances).toEqual([(5 + 1 / 3) / 7, 1 / 3 / 7]);
  });

  test('a fault that shows at two checks is found by the first; a fuse counts only where nothing else failed', () => {
    const checks = [{ point: 'F1', shows: ['F1'], seconds: 9 }, ...CHECKS];
    const { chances } = chancesToFind(checks, [failing(['Q1', 'U1', 'F1']), failing(['F1'])], {});
    for (const [at, weight] of [5 / 4, 5 / 4, 1 / 4].entries()) expect(chances[at]).toBeCloseTo(weight / 3, 12);
  });

  test('what is cleared rules repairs out, and so do repairs that are open or unmeasured', () => {
    const open = failing(['U1'], { record: record({ outcome: 'open' }) });
    const { repairs } = chancesToFind(CHECKS, [failing(['Q1']), open, examined({}), failing(['U1'])], {
      cleared: ['Q1'],
    });
    expect(repairs).toBe(1);
  });

  test('repairs under the complaint outweigh all others together', () => {
    const under = (complaint: string) => ({ record: record({ complaint }) });
    const earlier = [failing(['U1'], under('flicker')), ...times(40, () => failing(['Q1'], under('burnt smell')))];
    const { chances, underComplaint } = chancesToFind(CHECKS, earlier, { complaint: 'flicker' });
    expect(underComplaint).toBe(1);
    expect(chances[1]).toBeCloseTo((1 + 1 / 3) / 3, 12);
    expect(chances[0]).toBeCloseTo(chances[1]!, 12);
  });
});

describe('on the simulated bench', () => {
  const { told } = chancesTold(examineBench({ seed: 11, repairs: 400 }));

  test.each(['lift', 'probe'] as const)('chances to %s tell more than how often such a chance comes true', (kind) => {
    const own = told.filter((one) => one.kind === kind);
    const base = own.filter(({ isTrue }) => isTrue).length / own.length;
    expect(brierScore(own)).toBeLessThan(0.8 * base * (1 - base));
  });

  test('chances come true as often as they say: off by less than three in a hundred on the mean', () => {
    // Expected calibration error: Naeini, Cooper and Hauskrecht 2015, AAAI-15, 2901-2907.
    const bins = reliabilityCurve(told);
    const off = bins.reduce((sum, { count, meanTold, shareTrue }) => sum + count * Math.abs(meanTold - shareTrue), 0);
    expect(off / told.length).toBeLessThan(0.03);
  });
});
