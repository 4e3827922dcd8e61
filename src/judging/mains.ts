import { roleOf } from '../domain/family.ts';
import { VALUE, type ReadingLog } from '../columns/reading-log.ts';

/**
 * The mains voltage of each repair of a log, in volts r.m.s., by repair code: its latest AC reading at a mains point, whatever the order of the log;
 * `NaN` where none was taken. A reading without a time comes before all that have one, and of several at one moment the highest counts.
 */
export function mainsByRepair(log: ReadingLog): Float64Array {
  const { checks, points } = log.names;
  const isMains = Uint8Array.from({ length: checks.size }, (_, check) =>
    checks.mode(check) === 'AC volts' && roleOf(points.label(checks.pointCode(check))) === 'mains' ? 1 : 0,
  );
  const mains = new Float64Array(log.names.repairs.size).fill(NaN);
  if (!isMains.includes(1)) return mains;
  const taken = new Float64Array(mains.length).fill(-Infinity);
  for (let row = 0; row < log.count; row += 1) {
    if (isMains[log.check[row]!] !== 1 || log.state[row] !== VALUE) continue;
    const [repair, value] = [log.repair[row]!, log.value[row]!];
    const time = Number.isNaN(log.time[row]!) ? -Infinity : log.time[row]!;
    if (time < taken[repair]! || (time === taken[repair] && value <= mains[repair]!)) continue;
    taken[repair] = time;
    mains[repair] = value;
  }
  return mains;
}
