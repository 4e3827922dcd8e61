import { describe, expect, test } from 'vitest';
import type { Evidence } from '../../src/judging/evidence.ts';
import { inCircuitVerdicts } from '../../src/patterns/in-circuit-verdicts.ts';
import { partsBadInCircuit } from '../../src/patterns/parts-bad-in-circuit.ts';
import { examineBench } from '../support/examined-bench.ts';
import { examined, GOOD, SHORTED, SUSPECTED, times } from './examined.ts';

const bad = { badInCircuit: new Set(['D11']) };
const byItself: Evidence = { finding: 'failed', word: 'shorted', proof: 'nothing across it', rows: [] };
const lastOfAll: Evidence = { finding: 'failed', word: 'shorted', proof: 'all others across it are good', rows: [] };
const cleared: Evidence = { finding: 'cleared', rows: [] };

describe('inCircuitVerdicts(repairs)', () => {
  test('counts only what something other than the in-circuit reading settled', () => {
    const repairs = [SHORTED, lastOfAll, GOOD, cleared, SUSPECTED, byItself].map((D11) => examined({ D11 }, bad));
    expect(inCircuitVerdicts(repairs)[0]).toMatchObject({
      part: 'D11',
      readBad: 6,
      wasIt: 2,
      wasGood: 2,
      unsettled: 2,
    });
  });

  // Newcombe 1998, Statistics in Medicine 17:857-872, table I, Wilson's method.
  test('has the Wilson interval of the settled ones: 15 of 148', () => {
    const [verdict] = inCircuitVerdicts(times(148, (at) => examined({ D11: at < 15 ? SHORTED : GOOD }, bad)));
    expect(verdict?.share?.lower).toBeCloseTo(0.0624, 4);
    expect(verdict?.share?.upper).toBeCloseTo(0.1605, 4);
  });

  test('gives no share where nothing was settled, and nothing where nothing read bad', () => {
    expect(inCircuitVerdicts([examined({ D11: SUSPECTED }, bad)])[0]?.share).toBeUndefined();
    expect(inCircuitVerdicts([examined({ D11: GOOD })])).toEqual([]);
  });
});

describe('partsBadInCircuit(log, verdicts, rows, family)', () => {
  test('on the simulated bench holds every part that evidence suspects', () => {
    const { families, log, verdicts, rowsByRepair } = examineBench({ seed: 4, repairs: 60 });
    let suspects = 0;
    for (const { family, repairs } of families) {
      for (const { repair, evidence } of repairs) {
        const read = partsBadInCircuit(log, verdicts, rowsByRepair[log.names.repairs.find(repair)]!, family);
        for (const [part, { finding }] of evidence) {
          if (finding !== 'suspected') continue;
          suspects += 1;
          expect(read).toContain(part);
        }
      }
    }
    expect(suspects).toBeGreaterThan(0);
  });
});
