import { describe, expect, test } from 'vitest';
import { secondsPerCheck } from '../../src/patterns/check-seconds.ts';
import { probingOrder, type ProbingCheck } from '../../src/patterns/probing-order.ts';
import { usualOrder } from '../../src/patterns/usual-order.ts';
import { examineBench, probingChecks } from '../support/examined-bench.ts';
import { logOf } from '../support/readings.ts';
import { failing, record, times } from './examined.ts';

const CHECKS: readonly ProbingCheck[] = [
  { point: 'F1', shows: ['F1'], seconds: 10 },
  { point: 'Q1 D→S', shows: ['Q1'], seconds: 20 },
  { point: 'U1 D→GND', shows: ['U1'], seconds: 20 },
];
const under = (complaint: string) => ({ record: record({ complaint }) });
const REPAIRS = [
  ...times(6, () => failing(['Q1', 'F1'], under('burnt smell'))),
  ...times(4, () => failing(['U1'], under('no standby light'))),
  failing(['F1'], under('no standby light')),
  failing([], under('flicker')),
];

describe('probingOrder(repairs, checks, board, usual)', () => {
  test('goes by chance over seconds; a blown fuse is not the fault where something else failed', () => {
    const order = probingOrder(REPAIRS, CHECKS);
    expect(order?.steps.map(({ point }) => point)).toEqual(['Q1 D→S', 'U1 D→GND', 'F1']);
    expect(order).toMatchObject({ rule: 'ratio', repairs: 11, usualMinutes: undefined });
    expect(order?.minutes).toBeCloseTo((6 * 20 + 4 * 40 + 50) / 11 / 60, 12);
    expect(order?.steps.at(-1)?.found).toBeCloseTo(1, 12);
  });

  test('sets the minutes of the usual order beside its own', () => {
    const order = probingOrder(REPAIRS, CHECKS, {}, ['F1', 'Q1 D→S', 'U1 D→GND', 'gone']);
    expect(order?.usualMinutes).toBeCloseTo((10 + 6 * 30 + 4 * 50) / 11 / 60, 12);
    expect(order!.minutes).toBeLessThan(order!.usualMinutes!);
  });

  test('is narrowed by the complaint and by what has measured good', () => {
    const told = probingOrder(REPAIRS, CHECKS, { complaint: 'no standby light' });
    expect(told?.steps[0]?.point).toBe('U1 D→GND');
    expect(told).toMatchObject({ repairs: 11, underComplaint: 5 });
    const left = probingOrder(REPAIRS, CHECKS, { cleared: ['Q1'] });
    expect(left?.steps.map(({ point }) => point)).toEqual(['U1 D→GND', 'F1']);
    expect(left?.repairs).toBe(5);
  });

  test('is undefined with fewer than five repairs to tell from, or without checks', () => {
    expect(probingOrder(REPAIRS.slice(0, 4), CHECKS)).toBeUndefined();
    expect(probingOrder(REPAIRS, [])).toBeUndefined();
    expect(probingOrder(REPAIRS, CHECKS, { cleared: ['Q1', 'U1'] })).toBeUndefined();
  });

  test('on the simulated bench saves time against the order that the bench uses', () => {
    const bench = examineBench({ seed: 2, repairs: 200 });
    const { names } = bench.log;
    for (const { family, repairs } of bench.families) {
      const sequences = repairs.map(({ repair }) => {
        const rows = bench.rowsByRepair[names.repairs.find(repair)]!;
        const first = [...rows].map((row) => bench.log.check[row]!).filter((check) => names.checks.stage(check) === 'as received');
        return first.map((check) => names.points.label(names.checks.pointCode(check)));
      }); // prettier-ignore
      const order = probingOrder(repairs, probingChecks(bench, family), {}, usualOrder(sequences));
      expect(order!.minutes).toBeLessThan(0.8 * order!.usualMinutes!);
    }
  });
});

describe('secondsPerCheck(log, rowsByRepair)', () => {
  test('is the median gap before a reading, with long gaps cut at five minutes', () => {
    const at = (second: number, point: string, repair = 'T-1') => ({ time: second * 1000, point, repair });
    const log = logOf(at(0, 'a'), at(20, 'b'), at(50, 'b'), at(4000, 'b'), at(4000, 'b'), at(9, 'c', 'T-2'));
    const seconds = secondsPerCheck(log, [[0, 1, 2, 3, 4], [5]]);
    expect([...seconds]).toEqual([[log.check[1], { seconds: 30, gaps: 3 }]]);
  });
});

describe('usualOrder(sequences)', () => {
  test('goes by the median place in the repairs, the first time that a check is made', () => {
    const sequences = [['F1', 'Q1', 'F1', 'D1'], ['F1', 'D1'], ['Q1', 'F1', 'D1'], []];
    expect(usualOrder(sequences)).toEqual(['F1', 'Q1', 'D1']);
    expect(usualOrder([])).toEqual([]);
  });
});
