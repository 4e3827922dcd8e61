import { OVER_RANGE, VALUE, type ReadingLog } from '../../columns/reading-log.ts';
import { lastDigit, UNITS, type Unit } from '../../domain/quantity.ts';
import { MODE_UNITS, MODES } from '../../domain/reading.ts';
import { isOutOfBand, PASS, VERDICT_MASK } from '../../domain/verdict.ts';
import type { Judged } from './bench-data.ts';

/** What some rows hold, counted in one pass. */
export interface RowNumbers {
  readonly outOfBand: number;
  /** Rows held against a band. */
  readonly judged: number;
  readonly overRange: number;
  /** The numbers of those that hold one, in the order of the rows. */
  readonly values: Float64Array;
  /** The unit that all of the numbers share; undefined where there is none. */
  readonly unit: Unit | undefined;
  /** Power of ten of the coarsest last digit among them. */
  readonly lastDigit: number;
}

/** For each mode, a bit of its own for its unit. */
const UNIT_BITS = MODES.map((mode) => 1 << UNITS.indexOf(MODE_UNITS[mode]));

/** Counts some rows and gathers their numbers. */
export function rowNumbers({ data: { log }, verdicts }: Judged, rows: Uint32Array): RowNumbers {
  const values = new Float64Array(rows.length);
  let [count, outOfBand, judged, overRange, coarsest, units] = [0, 0, 0, 0, -Infinity, 0];
  let lastCheck = -1;
  const { checks } = log.names;
  for (const row of rows) {
    const verdict = verdicts[row]!;
    if ((verdict & VERDICT_MASK) >= PASS) judged += 1;
    if (isOutOfBand(verdict)) outOfBand += 1;
    if (log.state[row] === OVER_RANGE) overRange += 1;
    if (log.state[row] !== VALUE) continue;
    values[count++] = log.value[row]!;
    coarsest = Math.max(coarsest, lastDigitAt(log, row));
    const check = log.check[row]!;
    if (check === lastCheck) continue;
    units |= UNIT_BITS[checks.modeCode(check)]!;
    lastCheck = check;
  }
  const unit = UNITS.find((_, place) => units === 1 << place);
  return { outOfBand, judged, overRange, values: values.subarray(0, count), unit, lastDigit: coarsest };
}

function lastDigitAt(log: ReadingLog, row: number): number {
  return lastDigit({ prefix: log.prefix[row]!, decimals: log.decimals[row]! });
}
