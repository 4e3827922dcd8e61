import { SPECIMENS, type Mode } from '../domain/reading.ts';
import { VALUE, type ReadingLog } from '../columns/reading-log.ts';

/** The last live voltage of one repair at one check by one meter. */
export interface LiveVoltage {
  readonly meter: number;
  readonly repair: number;
  readonly check: number;
  readonly time: number;
  /** Natural logarithm of its size in volts. */
  readonly log: number;
}

const BOARD = SPECIMENS.indexOf('board');

/** The modes in which meters can be compared, live. */
const COMPARED_MODES = ['DC volts', 'AC volts'] as const satisfies readonly Mode[];

/** By check code, 1 where meters can be compared by it. */
export function comparableChecks({ names: { checks } }: ReadingLog): Uint8Array {
  return Uint8Array.from({ length: checks.size }, (_, check) =>
    checks.stage(check) === 'live' && COMPARED_MODES.some((mode) => mode === checks.mode(check)) ? 1 : 0,
  );
}

/**
 * The voltages by which meters can be compared: live readings of rails and mains. Of several readings by one meter at one check of one repair the last
 * counts, which is of the mended board, and of several at one moment the highest. Cost: O(n).
 */
export function liveVoltages(log: ReadingLog): readonly LiveVoltage[] {
  const { checks } = log.names;
  const isVoltage = comparableChecks(log);
  const last = new Map<number, LiveVoltage>();
  for (let row = 0; row < log.count; row += 1) {
    const [check, repair, meter, time] = [log.check[row]!, log.repair[row]!, log.meter[row]!, log.time[row]!];
    const value = Math.abs(log.value[row]!);
    if (isVoltage[check] === 0 || log.state[row] !== VALUE || log.specimen[row] !== BOARD || !(value > 0)) continue;
    if (Number.isNaN(time)) continue;
    const key = (repair * checks.size + check) * log.names.meters.size + meter;
    const known = last.get(key);
    const next = { meter, repair, check, time, log: Math.log(value) };
    if (known === undefined || known.time < time || (known.time === time && known.log < next.log)) last.set(key, next);
  }
  return [...last.values()];
}
