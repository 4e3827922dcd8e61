import { LogBuilder } from '../../src/columns/log-builder.ts';
import { queryRows } from '../../src/columns/query.ts';
import { bytesOf, type ReadingLog } from '../../src/columns/reading-log.ts';
import { compileBands } from '../../src/judging/band-table.ts';
import { judgeLog, type Standard } from '../../src/judging/judge.ts';
import type { Meter } from '../../src/domain/meter.ts';
import { mainsByRepair } from '../../src/judging/mains.ts';
import { compileMeters } from '../../src/judging/uncertainty.ts';
import { BANDS, METERS } from '../support/bench/scenario.ts';
import { simulateBench } from '../support/bench/simulate.ts';

export interface JudgingLoad {
  readonly readings: number;
  readonly rounds: number;
}

export interface JudgingFigures {
  readonly readings: number;
  readonly checks: number;
  readonly bytesPerReading: number;
  /** All in milliseconds, one a round. */
  readonly plain: readonly number[];
  readonly guarded: readonly number[];
  readonly sortNumber: readonly number[];
  readonly sortName: readonly number[];
  readonly filter: readonly number[];
}

/** Makes a log of invented readings and times what is done with all of it. */
export function measureJudging({ readings, rounds }: JudgingLoad): JudgingFigures {
  const log = simulatedLog(readings);
  const standard = (meters: readonly Meter[]): Standard => ({
    table: compileBands(log.names, BANDS),
    accuracies: compileMeters(log.names, meters),
    mains: mainsByRepair(log),
  });
  const plainStandard = standard([]);
  const guardedStandard = standard(METERS);
  const verdicts = judgeLog(log, guardedStandard);
  const query = (filters: Parameters<typeof queryRows>[2]['filters'], field?: 'reading' | 'repair'): void => {
    queryRows(log, verdicts, { filters, sort: field ? [{ field, descending: false }] : [] });
  };
  const times = (work: () => void): number[] =>
    Array.from({ length: rounds }, () => {
      const start = performance.now();
      work();
      return performance.now() - start;
    });
  return {
    readings: log.count,
    checks: log.names.checks.size,
    bytesPerReading: bytesOf(log) / log.count,
    plain: times(() => judgeLog(log, plainStandard)),
    guarded: times(() => judgeLog(log, guardedStandard)),
    sortNumber: times(() => { query([], 'reading'); }), // prettier-ignore
    sortName: times(() => { query([], 'repair'); }), // prettier-ignore
    filter: times(() => { query([{ field: 'verdict', oneOf: ['fail'] }]); }), // prettier-ignore
  };
}

function simulatedLog(count: number): ReadingLog {
  const builder = new LogBuilder(undefined, count);
  const { readings } = simulateBench({ seed: 1, repairs: Math.ceil(count / 23), perDay: 12 });
  for (const reading of readings) if (builder.count < count) builder.add(reading);
  return builder.finish();
}
