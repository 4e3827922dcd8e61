import { LogBuilder } from '../../src/columns/log-builder.ts';
import type { ReadingLog } from '../../src/columns/reading-log.ts';
import { maskedBy, type Family } from '../../src/domain/family.ts';
import type { Repair } from '../../src/domain/repair.ts';
import { compileBands } from '../../src/judging/band-table.ts';
import { evidenceOf } from '../../src/judging/evidence.ts';
import { judgeLog } from '../../src/judging/judge.ts';
import { mainsByRepair } from '../../src/judging/mains.ts';
import { compileMeters } from '../../src/judging/uncertainty.ts';
import { secondsPerCheck } from '../../src/patterns/check-seconds.ts';
import { examinedRepair, type ExaminedRepair } from '../../src/patterns/examined-repair.ts';
import type { FailureModel } from '../../src/patterns/failure-model/failure-model.ts';
import { chancesOnBoard } from '../../src/patterns/failure-model/latent-classes.ts';
import { minutesAtBench } from '../../src/patterns/minutes-at-bench.ts';
import { partsBadInCircuit } from '../../src/patterns/parts-bad-in-circuit.ts';
import type { ProbingCheck } from '../../src/patterns/probing-order.ts';
import { BANDED_FAMILIES, BANDS, METERS } from './bench/scenario.ts';
import { simulateBench, type BenchOptions, type RepairTruth } from './bench/simulate.ts';

/** A simulated bench, judged and examined as the page does it, beside what nobody on the bench knows. */
export interface ExaminedBench {
  readonly log: ReadingLog;
  readonly verdicts: Uint8Array;
  /** Rows by repair code, in order of time. */
  readonly rowsByRepair: readonly Uint32Array[];
  readonly records: readonly Repair[];
  readonly truth: ReadonlyMap<string, RepairTruth>;
  readonly families: readonly { readonly family: Family; readonly repairs: readonly ExaminedRepair[] }[];
}

/** Simulates a bench and examines every repair of the families that have bands. */
export function examineBench(options: BenchOptions): ExaminedBench {
  const bench = simulateBench(options);
  const builder = new LogBuilder();
  for (const reading of bench.readings) builder.add(reading);
  const log = builder.finish();
  const { names } = log;
  const verdicts = judgeLog(log, {
    table: compileBands(names, BANDS),
    accuracies: compileMeters(names, METERS),
    mains: mainsByRepair(log),
  });
  const rowsByRepair = groupRows(log);
  const examine = (record: Repair, family: Family): ExaminedRepair => {
    const rows = rowsByRepair[names.repairs.find(record.id)] ?? new Uint32Array();
    const times = Array.from(rows, (row) => log.time[row]!);
    const minutes = minutesAtBench(times);
    return examinedRepair({
      repair: record.id,
      evidence: evidenceOf(log, verdicts, rows, family),
      replaced: new Set(record.replaced),
      record,
      badInCircuit: partsBadInCircuit(log, verdicts, rows, family),
      ...(times[0] === undefined ? {} : { started: times[0] }),
      ...(minutes === undefined ? {} : { minutes }),
    });
  };
  return {
    log,
    verdicts,
    rowsByRepair,
    records: bench.repairs,
    truth: new Map(bench.truth.map((truth) => [truth.repair, truth])),
    families: BANDED_FAMILIES.map((family) => ({
      family,
      repairs: bench.repairs.filter((record) => record.family === family.name).map((record) => examine(record, family)),
    })),
  };
}

/** Readings come in order of time, so each repair's rows do too. */
function groupRows(log: ReadingLog): readonly Uint32Array[] {
  const rows = log.names.repairs.labels.map((): number[] => []);
  for (let row = 0; row < log.count; row += 1) rows[log.repair[row]!]!.push(row);
  return rows.map((own) => Uint32Array.from(own));
}

/** Sums of squared errors over all suspects of masked repairs, against the truth. */
export interface MaskedScores {
  readonly pairs: number;
  /** Of the chances given. */
  readonly inferred: number;
  /** Of blaming each suspect that reads short. */
  readonly naive: number;
  /** Of blaming all bad and suspected parts of the group alike. */
  readonly equal: number;
}

/** Scores the chances of suspects (Brier 1950, Monthly Weather Review 78:1-3, before division by the number of pairs). */
export function maskedScores(
  { truth }: ExaminedBench,
  repairs: readonly ExaminedRepair[],
  { seen, draws }: FailureModel,
): MaskedScores {
  const readBad = new Map(repairs.map(({ repair, badInCircuit }) => [repair, badInCircuit]));
  const scores = { pairs: 0, inferred: 0, naive: 0, equal: 0 };
  for (const [at, { repair, evidence, failed }] of repairs.entries()) {
    const suspects = seen.parts.filter((part) => evidence.get(part)?.finding === 'suspected');
    if (suspects.length === 0) continue;
    const board = seen.patterns[seen.ofRepair[at]!]!;
    const told = draws.map((draw) => chancesOnBoard(draw, board));
    for (const part of suspects) {
      const place = seen.parts.indexOf(part);
      const chance = told.reduce((sum, chances) => sum + chances[place]!, 0) / told.length;
      const hasFailed = truth.get(repair)?.failed.some((failure) => failure.part === part) === true ? 1 : 0;
      const blamed = readBad.get(repair)?.has(part) === true ? 1 : 0;
      scores.pairs += 1;
      scores.inferred += (chance - hasFailed) ** 2;
      scores.naive += (blamed - hasFailed) ** 2;
      scores.equal += (1 / (failed.length + suspects.length) - hasFailed) ** 2;
    }
  }
  return scores;
}

/** The as-received checks of a family's parts, with the seconds that the bench takes for them. */
export function probingChecks({ log, rowsByRepair }: ExaminedBench, family: Family): readonly ProbingCheck[] {
  const { checks, families, points } = log.names;
  return [...secondsPerCheck(log, rowsByRepair)].flatMap(([check, { seconds }]) => {
    const own = families.label(checks.familyCode(check)) === family.name && checks.stage(check) === 'as received';
    const point = family.points.find(({ name }) => name === points.label(checks.pointCode(check)));
    if (!own || point?.part === undefined) return [];
    return [{ point: point.name, shows: [point.part, ...maskedBy(family.parts, point.part)], seconds }];
  });
}
