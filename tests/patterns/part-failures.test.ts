import { describe, expect, test } from 'vitest';
import type { Evidence } from '../../src/judging/evidence.ts';
import { examinedRepair } from '../../src/patterns/examined-repair.ts';
import { countPartFailures } from '../../src/patterns/part-failures.ts';

const shorted: Evidence = { finding: 'failed', word: 'shorted', proof: 'out of circuit', rows: [] };
const open: Evidence = { finding: 'failed', word: 'open', proof: 'in circuit', rows: [] };
const good: Evidence = { finding: 'good', proof: 'out of circuit', rows: [] };
const suspected: Evidence = { finding: 'suspected', word: 'shorted', rows: [] };

function repair(id: string, evidence: Record<string, Evidence>, ...replaced: string[]) {
  return examinedRepair({ repair: id, evidence: new Map(Object.entries(evidence)), replaced: new Set(replaced) });
}

describe('countPartFailures(repairs)', () => {
  const counts = countPartFailures([
    repair('T-1', { Q1: shorted, Q2: good, F1: open }, 'Q1', 'Q2', 'F1'),
    repair('T-2', { Q1: shorted, Q2: suspected }, 'Q1'),
    repair('T-3', { Q1: good, Q2: shorted }, 'Q1', 'C9'),
  ]);

  test('counts failed and replaced apart, with how each failed, most failures first', () => {
    expect(counts.map(({ part, failed, replaced }) => [part, failed, replaced])).toEqual([
      ['Q1', 2, 3],
      ['Q2', 1, 1],
      ['F1', 1, 1],
      ['C9', 0, 1],
    ]);
    expect(counts[0]).toMatchObject({ shorted: 2, leaky: 0, open: 0, suspected: 0, replacedGood: 1 });
    expect(counts[1]).toMatchObject({ shorted: 1, suspected: 1, replacedGood: 1 });
  });
});
