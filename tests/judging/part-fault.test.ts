import { describe, expect, test } from 'vitest';
import type { Expectation } from '../../src/domain/band.ts';
import type { Family } from '../../src/domain/family.ts';
import type { Reading } from '../../src/domain/reading.ts';
import { partWord } from '../../src/domain/verdict.ts';
import { compileBands } from '../../src/judging/band-table.ts';
import { judgeLog } from '../../src/judging/judge.ts';
import { mainsByRepair } from '../../src/judging/mains.ts';
import { compileMeters } from '../../src/judging/uncertainty.ts';
import { logOf, reading } from '../support/readings.ts';

const families = new Map<string, Family>([
  ['HERON-48', { name: 'HERON-48', boost: true, points: [{ name: 'switch', role: 'part', part: 'Q1' }], parts: [] }],
]);

function wordOf(of: Partial<Reading>, expects: Expectation): string | undefined {
  const log = logOf({ family: 'HERON-48', ...of });
  const { family, point, mode, value } = reading({ family: 'HERON-48', ...of });
  const table = compileBands(log.names, [{ family, point, mode, expects, basis: 'learned' }], families);
  const standard = { table, accuracies: compileMeters(log.names, []), mains: mainsByRepair(log) };
  return partWord(judgeLog(log, standard)[0]!, mode, value);
}

// Common practice, no source: a transistor that reads 0.3 to 0.9 Ω out of circuit is shorted, and a fuse that reads open is blown.
describe('a fault of the part is never good, whatever band was learned', () => {
  const short: readonly Expectation[] = [
    { kind: 'between', low: 0.2, high: 1.4 },
    { kind: 'at most', limit: 900 },
    { kind: 'shorted', limit: 10 },
    { kind: 'at least', limit: 0.1 },
  ];
  test.each(short)('a short in a transistor is shorted: $kind', (expects) => {
    for (const point of ['Q1 D→S', 'switch']) {
      for (const value of [0.3, 0.6, 0.9])
        expect(wordOf({ point, stage: 'part out', mode: 'resistance', value }, expects)).toBe('shorted');
      expect(wordOf({ point, stage: 'part out', mode: 'resistance', state: 'beep', value: NaN }, expects)).toBe(
        'shorted',
      );
    }
  });

  test('a diode or rectifier that drops nothing is shorted', () => {
    const expects = { kind: 'between', low: 0, high: 0.8 } as const;
    for (const point of ['D3 A→K', 'BR1 ~→+'])
      expect(wordOf({ point, stage: 'part out', mode: 'diode', value: 0.02 }, expects)).toBe('shorted');
    expect(wordOf({ point: 'D3 A→K', stage: 'part out', mode: 'diode', value: 0.21 }, expects)).toBe('good');
  });

  test('a fuse that reads open is open', () => {
    const open: readonly Expectation[] = [
      { kind: 'open', limit: 1e6 },
      { kind: 'at least', limit: 0.1 },
      { kind: 'between', low: 0, high: 5e6 },
    ];
    for (const expects of open) {
      for (const state of ['over-range', 'no beep'] as const)
        expect(wordOf({ point: 'F1', stage: 'as received', mode: 'continuity', state, value: NaN }, expects)).toBe(
          'open',
        );
      expect(wordOf({ point: 'F1', stage: 'part out', mode: 'resistance', value: 2e6 }, expects)).toBe('open');
    }
  });

  test('in circuit a low reading stays with its band, since what lies across a part lowers it', () => {
    const expects = { kind: 'at most', limit: 900 } as const;
    expect(wordOf({ point: 'Q1 D→S', stage: 'as received', mode: 'resistance', value: 0.6 }, expects)).toBe('good');
  });
});
