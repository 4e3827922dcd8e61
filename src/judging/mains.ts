import { roleOf } from '../domain/family.ts';
import { VALUE, type ReadingLog } from '../columns/reading-log.ts';

/** The mains voltage of each repair of a log, in volts r.m.s., by repair code: its last AC reading at a mains point; `NaN` where none was taken. */
export function mainsByRepair(log: ReadingLog): Float64Array {
  const { checks, points } = log.names;
  const isMains = Uint8Array.from({ length: checks.size }, (_, check) =>
    checks.mode(check) === 'AC volts' && roleOf(points.label(checks.pointCode(check))) === 'mains' ? 1 : 0,
  );
  const mains = new Float64Array(log.names.repairs.size).fill(NaN);
  if (!isMains.includes(1)) return mains;
  for (let row = 0; row < log.count; row += 1) {
    if (isMains[log.check[row]!] === 1 && log.state[row] === VALUE) mains[log.repair[row]!] = log.value[row]!;
  }
  return mains;
}
