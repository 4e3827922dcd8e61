import { describe, expect, test } from 'vitest';
import { LogBuilder } from '../../src/columns/log-builder.ts';
import { compileBands } from '../../src/judging/band-table.ts';
import { evidenceOf, type Evidence } from '../../src/judging/evidence.ts';
import { judgeLog } from '../../src/judging/judge.ts';
import { mainsByRepair } from '../../src/judging/mains.ts';
import { compileMeters } from '../../src/judging/uncertainty.ts';
import { BANDS, FAMILIES, METERS } from '../support/bench/scenario.ts';
import { simulateBench } from '../support/bench/simulate.ts';

interface Scored {
  readonly evidence: Evidence;
  /** How the part had really failed; undefined where it was good. */
  readonly truth: string | undefined;
}

/** The evidence of every part of every simulated repair beside the truth. */
function scoredParts(): readonly Scored[] {
  const { readings, truth } = simulateBench({ seed: 5, repairs: 600 });
  const builder = new LogBuilder();
  for (const reading of readings) builder.add(reading);
  const log = builder.finish();
  const table = compileBands(log.names, BANDS);
  const verdicts = judgeLog(log, { table, accuracies: compileMeters(log.names, METERS), mains: mainsByRepair(log) });
  const rows = log.names.repairs.labels.map((): number[] => []);
  for (let row = 0; row < log.count; row += 1) rows[log.repair[row]!]!.push(row);
  return truth.flatMap(({ repair, family: name, failed }) => {
    const family = FAMILIES.find((known) => known.name === name)!;
    const own = rows[log.names.repairs.find(repair)] ?? [];
    return [...evidenceOf(log, verdicts, own, family)].map(([part, evidence]) => ({
      evidence,
      truth: failed.find((one) => one.part === part)?.how,
    }));
  });
}

describe('evidence against the truth of the simulated bench', () => {
  const scored = scoredParts();
  const withProof = (proof: Evidence['proof']): readonly Scored[] =>
    scored.filter(({ evidence }) => evidence.finding === 'failed' && evidence.proof === proof);

  test('no part that is proved failed was good', () => {
    const proved = scored.filter(({ evidence }) => evidence.finding === 'failed');
    expect(proved.length).toBeGreaterThan(500);
    expect(proved.filter(({ truth }) => truth === undefined)).toEqual([]);
  });

  test('out of circuit the word is the truth', () => {
    const wrong = withProof('out of circuit').filter(({ evidence, truth }) => evidence.word !== truth);
    expect(wrong).toEqual([]);
  });

  test('most suspected parts are masked ones, and some of them had failed', () => {
    const suspected = scored.filter(({ evidence }) => evidence.finding === 'suspected');
    expect(suspected.some(({ truth }) => truth !== undefined)).toBe(true);
    expect(suspected.some(({ truth }) => truth === undefined)).toBe(true);
  });
});
