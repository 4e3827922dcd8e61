import { VALUE } from '../../columns/reading-log.ts';
import { isWithin, limitsOf, type Limits } from '../../domain/band.ts';
import { MODE_UNITS, isPowered } from '../../domain/reading.ts';
import type { ExaminedRepair } from '../../patterns/examined-repair.ts';
import type { LiveNumbers, LivePoints } from '../contract/families.ts';
import type { Judged } from './bench-data.ts';
import { rowsOf } from './repair-lines.ts';

interface Gathered {
  readonly received: number[];
  readonly returned: number[];
  without: number;
  lastDigit: number;
}

/**
 * What boards of a family read under power, by check in the order of the log, before the last work on each and after it.
 * @param meter - only what this meter read
 */
export function livePoints(
  judged: Judged,
  family: string,
  repairs: readonly ExaminedRepair[],
  meter: string | undefined,
): readonly LivePoints[] {
  const { log } = judged.data;
  const { checks, families, meters, points } = log.names;
  const own = families.find(family);
  const isLive = Array.from({ length: checks.size }, (_, check) => isPowered(checks.stage(check)));
  const meterCode = meter === undefined ? undefined : meters.find(meter);
  const byCheck = new Map<number, Gathered>();
  for (const { repair } of repairs) {
    const rows = rowsOf(judged, repair);
    const lastWork = rows.findLastIndex((row) => !isLive[log.check[row]!]);
    rows.forEach((row, at) => {
      const check = log.check[row]!;
      if (!isLive[check] || checks.familyCode(check) !== own) return;
      if (meterCode !== undefined && log.meter[row] !== meterCode) return;
      let known = byCheck.get(check);
      if (known === undefined) {
        known = { received: [], returned: [], without: 0, lastDigit: -Infinity };
        byCheck.set(check, known);
      }
      const value = log.value[row]!;
      if (log.state[row] !== VALUE || !Number.isFinite(value)) known.without += 1;
      else {
        (at > lastWork ? known.returned : known.received).push(value);
        known.lastDigit = Math.max(known.lastDigit, log.prefix[row]! - log.decimals[row]!);
      }
    });
  }
  return [...byCheck]
    .sort(([a], [b]) => a - b)
    .map(([code, { received, returned, without, lastDigit }]) => {
      const check = checks.check(code, families, points);
      const band = judged.standard.table.bands[code];
      const limits = band && limitsOf(band.expects);
      return {
        check,
        unit: MODE_UNITS[check.mode],
        received: numbersOf(received, limits),
        returned: numbersOf(returned, limits),
        without,
        lastDigit: Number.isFinite(lastDigit) ? lastDigit : 0,
        ...(limits && { limits }),
      };
    });
}

function numbersOf(numbers: readonly number[], limits: Limits | undefined): LiveNumbers {
  return {
    count: numbers.length,
    values: Float64Array.from(new Set(numbers)).sort(),
    within: limits && numbers.filter((value) => isWithin(limits, 'value', value) === true).length,
  };
}
