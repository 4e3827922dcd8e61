import { describe, expect, test } from 'vitest';
import { complaintMatrix } from '../../src/patterns/complaints.ts';
import { examineBench } from '../support/examined-bench.ts';
import { failing, record, times } from './examined.ts';

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

  // By hand: 6 of 10 with a prior of (6 + 1/2) / 21 worth four repairs: (6 + 4 · 6.5/21) / 14 = 0.51701.
  test('puts the likely parts in order, by the mean of the posterior', () => {
    const [first] = matrix.rows[0]!.likely;
    expect(first).toMatchObject({ part: 'U1', count: 6 });
    expect(first?.chance).toBeCloseTo((6 + (4 * 6.5) / 21) / 14, 12);
    expect(first?.low).toBeLessThan(0.517);
    expect(first?.high).toBeGreaterThan(0.517);
  });

  test('says little more than the family does of a complaint met once', () => {
    const once = matrix.rows[2]!.likely.find(({ part }) => part === 'Q1');
    expect(once?.chance).toBeCloseTo((1 + (4 * 3.5) / 21) / 5, 12);
  });

  test('has no rows without repairs', () => {
    expect(complaintMatrix([])).toEqual({ parts: [], rows: [], withoutComplaint: 0 });
  });

  test('on the simulated bench the clamp leads where a CURLEW-60 will not start, and the backlight parts where there is no picture', () => {
    const curlew = examineBench({ seed: 1, repairs: 300 }).families.find(({ family }) => family.name === 'CURLEW-60')!;
    const likely = (complaint: string) =>
      complaintMatrix(curlew.repairs).rows.find((row) => row.complaint === complaint)?.likely[0]?.part;
    expect(likely('light on but will not start')).toBe('D13');
    expect(['Q3', 'Q5', 'U2']).toContain(likely('sound but no picture'));
  });
});
