import { limitsOf, type Limits } from '../domain/band.ts';
import { MODES, STATES } from '../domain/reading.ts';
import { CONDITIONAL_FAIL, CONDITIONAL_PASS, FAIL, HIGH, LOW, NOT_JUDGED, PASS } from '../domain/verdict.ts';
import { OVER_RANGE, VALUE, type ReadingLog } from '../columns/reading-log.ts';
import { expandedUncertainty, rangeOf, type AccuracyTable } from './uncertainty.ts';
import type { BandTable } from './band-table.ts';

/** All that judging needs beside the readings. */
export interface Standard {
  readonly table: BandTable;
  readonly accuracies: AccuracyTable;
  /** Volts r.m.s. by repair code. */
  readonly mains: Float64Array;
}

/**
 * The verdict code on a number by ILAC-G8:09/2019, 4.2 (non-binary rule) with guard w = U. Every boundary belongs to the better side:
 * a reading exactly on an acceptance limit passes, one exactly on the tolerance limit passes conditionally (passes, where U is 0),
 * one exactly U outside it fails conditionally.
 * @param low - lower tolerance limit, `-Infinity` where there is none
 * @param high - upper tolerance limit, `Infinity` where there is none
 * @param guard - U in the same unit, 0 where it is not known
 */
export function judgeValue(value: number, low: number, high: number, guard: number): number {
  const above = zone(value - high, guard);
  const below = zone(low - value, guard);
  if (above === PASS && below === PASS) return PASS;
  // In a band narrower than its guard both sides are in doubt: the nearer limit names the side.
  return above === below
    ? above | (value - high >= low - value ? HIGH : LOW)
    : above > below
      ? above | HIGH
      : below | LOW;
}

/** Verdict codes of all rows of a log, one pass over its columns. */
export function judgeLog(log: ReadingLog, standard: Standard): Uint8Array {
  const { table, mains } = standard;
  const { check, state, value } = log;
  const { low, high, followsMains, byState } = table;
  const verdicts = new Uint8Array(log.count);
  const hasBand = Uint8Array.from(table.bands, (band) => (band === undefined ? 0 : 1));
  const modes = Uint8Array.from(table.bands, (_, one) => log.names.checks.modeCode(one));
  const isOpen = Uint8Array.from(table.bands, (band) => (band?.expects.kind === 'open' ? 1 : 0));
  const guardAt = (row: number, mode: number): number => {
    const uncertainty = uncertaintyIn(log, row, mode, standard.accuracies);
    return Number.isNaN(uncertainty) ? 0 : uncertainty;
  };
  for (let row = 0; row < log.count; row += 1) {
    const code = check[row]!;
    if (hasBand[code] === 0) continue;
    if (state[row] !== VALUE) {
      const verdict = byState[code * STATES.length + state[row]!]!;
      const isSettled = state[row] !== OVER_RANGE || isOpen[code] === 1;
      if (isSettled) {
        verdicts[row] = verdict;
        continue;
      }
      const limits =
        followsMains[code] === 1
          ? followedLimits(table, code, mains[log.repair[row]!]!)
          : { low: low[code]!, high: high[code]! };
      verdicts[row] = limits
        ? judgeOverRange(rangeLimitIn(log, row, modes[code]!, standard.accuracies), verdict, limits)
        : NOT_JUDGED;
    } else if (followsMains[code] === 1) {
      const limits = followedLimits(table, code, mains[log.repair[row]!]!);
      verdicts[row] = limits
        ? judgeValue(value[row]!, limits.low, limits.high, guardAt(row, modes[code]!))
        : NOT_JUDGED;
    } else {
      verdicts[row] = judgeValue(value[row]!, low[code]!, high[code]!, guardAt(row, modes[code]!));
    }
  }
  return verdicts;
}

/** The limits against which a row was judged; undefined where it has no band or nobody measured the mains that its band follows. */
export function limitsAt(log: ReadingLog, row: number, standard: Standard): Limits | undefined {
  const { table, mains } = standard;
  const code = log.check[row]!;
  if (table.bands[code] === undefined) return undefined;
  if (table.followsMains[code] === 1) return followedLimits(table, code, mains[log.repair[row]!]!);
  return { low: table.low[code]!, high: table.high[code]! };
}

/** Expanded uncertainty of a row's number in its SI unit; `NaN` where the meter's accuracy is unknown or there is no number. */
export function uncertaintyAt(log: ReadingLog, row: number, accuracies: AccuracyTable): number {
  if (log.state[row] !== VALUE) return NaN;
  return uncertaintyIn(log, row, log.names.checks.modeCode(log.check[row]!), accuracies);
}

function uncertaintyIn(log: ReadingLog, row: number, mode: number, accuracies: AccuracyTable): number {
  const ranges = accuracies[log.meter[row]! * MODES.length + mode];
  if (ranges === undefined) return NaN;
  const lastDigit = log.prefix[row]! - log.decimals[row]!;
  const range = rangeOf(ranges, log.value[row]!, lastDigit);
  return range === undefined ? NaN : expandedUncertainty(log.value[row]!, lastDigit, range);
}

/**
 * The range above which an over-range reading lies, in its SI unit: as the log states it, else the largest of its meter's; `-Infinity` where
 * neither is known.
 */
export function rangeLimitAt(log: ReadingLog, row: number, accuracies: AccuracyTable): number {
  return rangeLimitIn(log, row, log.names.checks.modeCode(log.check[row]!), accuracies);
}

function rangeLimitIn(log: ReadingLog, row: number, mode: number, accuracies: AccuracyTable): number {
  const stated = log.value[row]!;
  if (!Number.isNaN(stated)) return stated;
  return accuracies[log.meter[row]! * MODES.length + mode]?.at(-1)?.upTo ?? -Infinity;
}

/** A range that ends below the limit in question leaves open on which side of it an over-range reading lies. */
function judgeOverRange(rangeLimit: number, verdict: number, { low, high }: Limits): number {
  if (rangeLimit === -Infinity) return verdict;
  const limit = verdict === PASS ? low : high;
  return rangeLimit < limit ? NOT_JUDGED : verdict;
}

function followedLimits(table: BandTable, check: number, mains: number): Limits | undefined {
  const expects = table.bands[check]?.expects;
  return expects && limitsOf(expects, Number.isNaN(mains) ? undefined : mains);
}

/** How far beyond a limit: `excess` is negative inside. */
function zone(excess: number, guard: number): number {
  if (excess <= -guard) return PASS;
  if (excess <= 0) return CONDITIONAL_PASS;
  return excess <= guard ? CONDITIONAL_FAIL : FAIL;
}
