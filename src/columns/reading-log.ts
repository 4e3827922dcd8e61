import { SPECIMENS, STATES, type Reading } from '../domain/reading.ts';
import { CheckTable } from './check-table.ts';
import { Dictionary } from './dictionary.ts';

/** The texts that a log's codes stand for. */
export interface LogNames {
  readonly repairs: Dictionary;
  readonly families: Dictionary;
  readonly points: Dictionary;
  readonly meters: Dictionary;
  readonly files: Dictionary;
  readonly checks: CheckTable;
}

/** Readings as typed columns, all of length `count`. Never mutated: a change makes a new log. */
export interface ReadingLog {
  readonly count: number;
  readonly names: LogNames;
  /** Local wall time in milliseconds counted as if UTC; `dayOnly` where the day alone is known; `NaN` where unknown. */
  readonly time: Float64Array;
  /** SI unit of the check's mode; the range limit for over-range where known; else `NaN`. */
  readonly value: Float64Array;
  readonly prefix: Int8Array;
  readonly decimals: Uint8Array;
  readonly state: Uint8Array;
  readonly specimen: Uint8Array;
  readonly repair: Uint32Array;
  readonly check: Uint32Array;
  readonly meter: Uint16Array;
  readonly file: Uint16Array;
  readonly line: Uint32Array;
}

export const VALUE = STATES.indexOf('value');
export const OVER_RANGE = STATES.indexOf('over-range');
export const BELOW_RANGE = STATES.indexOf('below-range');
export const BEEP = STATES.indexOf('beep');
export const NO_BEEP = STATES.indexOf('no beep');
export const BLANK = STATES.indexOf('blank');

export function newLogNames(): LogNames {
  return {
    repairs: new Dictionary(),
    families: new Dictionary(),
    points: new Dictionary(),
    meters: new Dictionary(),
    files: new Dictionary(),
    checks: new CheckTable(),
  };
}

/** The bytes that a log's columns hold, names apart. */
export function bytesOf(log: ReadingLog): number {
  return columnsOf(log).reduce((sum, column) => sum + column.byteLength, 0);
}

/** All typed columns of a log. */
export function columnsOf(
  log: ReadingLog,
): readonly (Float64Array | Int8Array | Uint8Array | Uint16Array | Uint32Array)[] {
  const { time, value, prefix, decimals, state, specimen, repair, check, meter, file, line } = log;
  return [time, value, prefix, decimals, state, specimen, repair, check, meter, file, line];
}

/** One row of the log as a reading. @throws RangeError where there is no such row. */
export function readingAt(log: ReadingLog, row: number): Reading {
  if (!(row >= 0 && row < log.count)) throw new RangeError(`There is no row ${row} in a log of ${log.count}.`);
  const { names } = log;
  return {
    time: log.time[row]!,
    repair: names.repairs.label(log.repair[row]!),
    ...names.checks.check(log.check[row]!, names.families, names.points),
    specimen: SPECIMENS[log.specimen[row]!]!,
    state: STATES[log.state[row]!]!,
    value: log.value[row]!,
    prefix: log.prefix[row]!,
    decimals: log.decimals[row]!,
    meter: names.meters.label(log.meter[row]!),
    origin: { file: names.files.label(log.file[row]!), line: log.line[row]! },
  };
}
