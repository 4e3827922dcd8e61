import { describe, expect, test } from 'vitest';
import type { Part } from '../../src/domain/family.ts';
import { complaintMatrix as matrixOf } from '../../src/patterns/complaints.ts';
import type { ExaminedRepair } from '../../src/patterns/examined-repair.ts';
import { failureModel } from '../../src/patterns/failure-model/failure-model.ts';
import { examineBench } from '../support/examined-bench.ts';
import { examined, failing, GOOD, record, SHORTED, times } from './examined.ts';

const complaintMatrix = (repairs: readonly ExaminedRepair[], parts: readonly Part[] = []) =>
  matrixOf(repairs, failureModel(parts, repairs));

function under(complaint: string, ...parts: string[]) {
  return failing(parts, { record: record({ complaint }) });
}

describe('complaintMatrix(repairs)', () => {
  const matrix = complaintMatrix([
    ...times(6, () => under('no standby light', 'U1')),
    ...times(2, () => under('no standby light', 'Q1', 'F1')),
    ...times(2, () => under('no standby light')),
    ...times(9, () => under('flicker', 'C1')),
    under('burnt smell', 'Q1'),
    under('', 'Q1'),
    failing(['Q1']),
  ]);

  test('counts repairs and failed parts by complaint, and what has none apart', () => {
    expect(matrix.parts).toEqual(['C1', 'F1', 'Q1', 'U1']);
    expect(matrix.rows.map(({ complaint, repairs, nothingProved }) => [complaint, repairs, nothingProved])).toEqual([
      ['no standby light', 10, 2],
      ['flicker', 9, 0],
      ['burnt smell', 1, 0],
    ]);
    expect(matrix.withoutComplaint).toBe(2);
  });

  test('puts the likely parts in order', () => {
    const all = { C1: GOOD, U1: GOOD, Q1: GOOD };
    const told = (complaint: string, part: string) =>
      examined({ ...all, [part]: SHORTED }, { record: record({ complaint }) });
    const { rows } = complaintMatrix([
      ...times(8, () => told('no standby light', 'U1')),
      ...times(2, () => told('no standby light', 'Q1')),
      ...times(9, () => told('flicker', 'C1')),
    ]);
    expect(rows[0]!.likely.map(({ part, count, read }) => [part, count, read]).slice(0, 2)).toEqual([
      ['U1', 8, 10],
      ['Q1', 2, 10],
    ]);
    expect(rows[1]!.likely[0]).toMatchObject({ part: 'C1', count: 9, read: 9 });
  });

  test('a board on which a part was not read is no board on which it was good', () => {
    const boards = (complaint: string, failed: number, good: number) => [
      ...times(failed, () => examined({ Q1: SHORTED }, { record: record({ complaint }) })),
      ...times(good, () => examined({ Q1: GOOD }, { record: record({ complaint }) })),
      ...times(150, () => examined({}, { record: record({ complaint }) })),
    ];
    const { rows } = complaintMatrix([...boards('flicker', 40, 10), ...boards('burnt smell', 10, 40)]);
    const chanceUnder = (name: string) => rows.find(({ complaint }) => complaint === name)!.likely[0]!;
    expect(chanceUnder('flicker').chance).toBeGreaterThan(0.65);
    expect(chanceUnder('burnt smell').chance).toBeLessThan(0.35);
    expect(chanceUnder('flicker')).toMatchObject({ count: 40, read: 50 });
  });

  test('has no rows without repairs', () => {
    expect(complaintMatrix([])).toEqual({ parts: [], rows: [], withoutComplaint: 0 });
  });

  test('on the simulated bench the clamp leads where a CURLEW-60 will not start, and the backlight parts where there is no picture', () => {
    const curlew = examineBench({ seed: 1, repairs: 300 }).families.find(({ family }) => family.name === 'CURLEW-60')!;
    const likely = (complaint: string) =>
      complaintMatrix(curlew.repairs, curlew.family.parts).rows.find((row) => row.complaint === complaint)?.likely[0]
        ?.part;
    expect(likely('light on but will not start')).toBe('D13');
    expect(['Q3', 'Q5', 'U2']).toContain(likely('sound but no picture'));
  });
});
