import { describe, expect, test } from 'vitest';
import type { Evidence } from '../../src/judging/evidence.ts';
import { failureModel } from '../../src/patterns/failure-model/failure-model.ts';
import type { Part } from '../../src/domain/family.ts';
import type { ExaminedRepair } from '../../src/patterns/examined-repair.ts';
import { inCircuitVerdicts as verdictsOf } from '../../src/patterns/in-circuit-verdicts.ts';
import { partsBadInCircuit } from '../../src/patterns/parts-bad-in-circuit.ts';
import { examineBench } from '../support/examined-bench.ts';
import { examined, GOOD, SHORTED, SUSPECTED, times } from './examined.ts';

const inCircuitVerdicts = (repairs: readonly ExaminedRepair[], parts: readonly Part[] = []) =>
  verdictsOf(repairs, failureModel(parts, repairs), parts);

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

  // Brown, Cai and DasGupta 2001: Jeffreys' limits; 15 of 148 computed with a general statistics library.
  test("has Jeffreys' interval of the settled ones of a part by itself: 15 of 148", () => {
    const [verdict] = inCircuitVerdicts(times(148, (at) => examined({ D11: at < 15 ? SHORTED : GOOD }, bad)));
    expect(verdict?.share?.lower).toBeCloseTo(0.060449, 5);
    expect(verdict?.share?.upper).toBeCloseTo(0.157643, 5);
  });

  test('of parts across the same nodes the boards tell on which the other one was lifted, too', () => {
    const nodes = ['18V winding', '18V main'] as const;
    const parts: Part[] = [
      { designator: 'D11', nodes },
      { designator: 'D13', nodes },
    ];
    // D13 is lifted first and found bad, and D11 is then left on the board; D11 had failed where it was lifted, since D13 was good.
    const both = { badInCircuit: new Set(['D11', 'D13']) };
    const repairs = [
      ...times(80, () => examined({ D13: SHORTED, D11: SUSPECTED }, both)),
      ...times(20, () => examined({ D13: GOOD, D11: SHORTED }, both)),
    ];
    const d11 = inCircuitVerdicts(repairs, parts).find(({ part }) => part === 'D11');
    expect(d11).toMatchObject({ wasIt: 20, wasGood: 0, unsettled: 80 });
    expect(d11?.share?.lower).toBeLessThan(0.5);
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
