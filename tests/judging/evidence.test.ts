import { describe, expect, test } from 'vitest';
import type { Band } from '../../src/domain/band.ts';
import type { Family } from '../../src/domain/family.ts';
import type { Reading } from '../../src/domain/reading.ts';
import { compileBands } from '../../src/judging/band-table.ts';
import { evidenceOf, type Evidence } from '../../src/judging/evidence.ts';
import { judgeLog } from '../../src/judging/judge.ts';
import { mainsByRepair } from '../../src/judging/mains.ts';
import { logOf } from '../support/readings.ts';

const across: readonly [string, string] = ['drain', 'source'];
const family: Family = {
  name: 'CURLEW-60',
  boost: true,
  points: ['F1', 'Q1 D→S', 'Q2 D→S', 'D5 A→K'].map((name) => ({ name, role: 'part', part: name.split(' ')[0]! })),
  parts: [
    { designator: 'F1', nodes: ['inlet', 'bridge'] },
    { designator: 'Q1', nodes: across },
    { designator: 'Q2', nodes: across },
    { designator: 'D5', nodes: ['coil', 'bulk'] },
  ],
};
const bands: readonly Band[] = [
  ...['Q1 D→S', 'Q2 D→S', 'D5 A→K'].map((point): Band => ({
    family: family.name,
    point,
    mode: 'resistance',
    expects: { kind: 'at least', limit: 100_000 },
    basis: 'typed in',
  })),
  { family: family.name, point: 'F1', mode: 'continuity', expects: { kind: 'shorted', limit: 2 }, basis: 'typed in' },
];

const GOOD = 640_000;
const SHORT = 0.4;

function ohms(point: string, stage: Reading['stage'], value: number, given: Partial<Reading> = {}): Partial<Reading> {
  return { family: family.name, point, stage, mode: 'resistance', value, prefix: 0, decimals: 1, ...given };
}

function evidenceFrom(...readings: readonly Partial<Reading>[]): ReadonlyMap<string, Evidence> {
  const log = logOf(...readings);
  const table = compileBands(log.names, bands);
  const verdicts = judgeLog(log, { table, accuracies: [], mains: mainsByRepair(log) });
  return evidenceOf(log, verdicts, Array.from({ length: log.count }, (_, row) => row), family); // prettier-ignore
}

describe('evidenceOf(log, verdicts, rows, family)', () => {
  test('a part that reads short out of circuit has failed; one that reads good out of circuit is good', () => {
    const evidence = evidenceFrom(ohms('Q1 D→S', 'part out', SHORT), ohms('Q2 D→S', 'part out', GOOD));
    expect(evidence.get('Q1')).toMatchObject({
      finding: 'failed',
      word: 'shorted',
      proof: 'out of circuit',
      rows: [0],
    });
    expect(evidence.get('Q2')).toMatchObject({ finding: 'good', proof: 'out of circuit' });
    expect(evidence.get('F1')?.finding).toBe('not measured');
  });

  test('parts across the same nodes that read short in circuit are only suspected', () => {
    const evidence = evidenceFrom(ohms('Q1 D→S', 'as received', SHORT), ohms('Q2 D→S', 'as received', SHORT));
    expect(evidence.get('Q1')).toMatchObject({ finding: 'suspected', maskedBy: ['Q2'] });
    expect(evidence.get('Q2')).toMatchObject({ finding: 'suspected', maskedBy: ['Q1'] });
  });

  test('the last of a group has failed once all others across it measured good', () => {
    const evidence = evidenceFrom(
      ohms('Q1 D→S', 'as received', SHORT),
      ohms('Q2 D→S', 'as received', SHORT),
      ohms('Q2 D→S', 'part out', GOOD),
    );
    expect(evidence.get('Q1')).toMatchObject({ finding: 'failed', proof: 'all others across it are good' });
  });

  test('a part whose short went when another came out is cleared', () => {
    const evidence = evidenceFrom(
      ohms('Q1 D→S', 'as received', SHORT),
      ohms('Q2 D→S', 'as received', SHORT),
      ohms('Q2 D→S', 'part out', SHORT),
      ohms('Q1 D→S', 'as received', GOOD),
    );
    expect(evidence.get('Q1')?.finding).toBe('cleared');
    expect(evidence.get('Q2')?.finding).toBe('failed');
  });

  test('a failed neighbour does not clear a part: both may have failed', () => {
    const evidence = evidenceFrom(ohms('Q1 D→S', 'as received', SHORT), ohms('Q2 D→S', 'part out', SHORT));
    expect(evidence.get('Q1')).toMatchObject({ finding: 'suspected', maskedBy: ['Q2'] });
  });

  test('a part with nothing across it has failed by its in-circuit short alone', () => {
    const evidence = evidenceFrom(ohms('D5 A→K', 'as received', SHORT));
    expect(evidence.get('D5')).toMatchObject({ finding: 'failed', proof: 'nothing across it' });
  });

  test('an open fuse is proved in circuit, since nothing beside it can raise its resistance', () => {
    const open = { family: family.name, point: 'F1', stage: 'as received', mode: 'continuity', value: NaN } as const;
    const evidence = evidenceFrom({ ...open, state: 'over-range' });
    expect(evidence.get('F1')).toMatchObject({ finding: 'failed', word: 'open', proof: 'in circuit' });
  });

  test('one check that read both bad and good out of circuit is a contradiction, shown with both readings', () => {
    const evidence = evidenceFrom(ohms('Q1 D→S', 'part out', 111), ohms('Q1 D→S', 'part out', GOOD));
    expect(evidence.get('Q1')).toMatchObject({ finding: 'contradictory', word: 'leaky', rows: [0, 1] });
  });

  test('new parts, refitted parts and live readings prove nothing of the part that failed', () => {
    const evidence = evidenceFrom(
      ohms('Q1 D→S', 'part out', GOOD, { specimen: 'new part' }),
      ohms('Q1 D→S', 'refitted', GOOD),
      ohms('Q1 D→S', 'live', SHORT),
    );
    expect(evidence.get('Q1')?.finding).toBe('not measured');
  });
});
