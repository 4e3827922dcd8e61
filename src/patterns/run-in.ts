import { median } from '../statistics/descriptive/median.ts';
import { robustStandardDeviation } from '../statistics/descriptive/robust-standard-deviation.ts';
import { theilSen } from '../statistics/trend/theil-sen.ts';

/** A logged rail in order of time: milliseconds, and its mode's SI unit; `NaN` where an entry holds no number. */
export interface RunInTrace {
  readonly times: Float64Array;
  readonly values: Float64Array;
}

/** What a run-in shows. Lengths of time are in seconds, values in the SI unit. */
export interface RunInSummary {
  readonly entries: number;
  /** Entries without a number. */
  readonly blanks: number;
  readonly length: number;
  /** Median pause between entries; `NaN` for one entry. */
  readonly pause: number;
  /** Median of the last quarter. */
  readonly settledAt: number;
  /** Time after which it stays within 1 % of that. */
  readonly settling: number;
  readonly minimum: number;
  readonly maximum: number;
  /** Longest time outside the band without an entry inside; undefined without a band. */
  readonly longestOutside: number | undefined;
  /** Runs of entries below half of where it settled. */
  readonly dropOuts: number;
  /** Pauses more than three times as long as usual. */
  readonly gaps: number;
  /** Theil–Sen slope once settled, per hour, with 95 % limits; undefined with fewer than three entries or all at one time. */
  readonly drift: { readonly perHour: number; readonly low: number; readonly high: number } | undefined;
  /** Robust standard deviation about the line of drift: what the log ripples by; `NaN` with fewer than three entries. */
  readonly ripple: number;
}

/** Settled is within this share of where the trace ends (common practice, no source). */
const SETTLED_WITHIN = 0.01;
/** A rail that falls below this share of where it settled has dropped out (common practice, no source). */
const DROPPED_BELOW = 0.5;
const GAP_FACTOR = 3;
/** The slope compares all pairs, so that a longer trace is taken in as many pieces of equal count, each by its medians. */
const MOST_PIECES = 400;
const HOUR = 3600;

/** Sums a trace up; undefined where no entry holds a number. */
export function summariseRunIn(trace: RunInTrace, limits?: { low: number; high: number }): RunInSummary | undefined {
  const { times, values } = trace;
  const rows = Uint32Array.from(values.keys()).filter(
    (row) => !Number.isNaN(values[row]!) && !Number.isNaN(times[row]!),
  );
  if (rows.length === 0) return undefined;
  const seconds = Float64Array.from(rows, (row) => (times[row]! - times[rows[0]!]!) / 1000);
  const numbers = Float64Array.from(rows, (row) => values[row]!);
  const settledAt = median(numbers.subarray(Math.floor(numbers.length * 0.75)));
  const settledFrom = numbers.findLastIndex((value) => Math.abs(value - settledAt) > SETTLED_WITHIN * Math.abs(settledAt)) + 1; // prettier-ignore
  const pauses = seconds.slice(1).map((second, at) => second - seconds[at]!);
  const pause = pauses.length === 0 ? NaN : median(pauses);
  const start = settledFrom < numbers.length - 2 ? settledFrom : 0;
  return {
    entries: values.length,
    blanks: values.length - rows.length,
    length: seconds.at(-1)!,
    pause,
    settledAt,
    settling: seconds[Math.min(settledFrom, seconds.length - 1)]!,
    minimum: numbers.reduce((least, value) => Math.min(least, value), Infinity),
    maximum: numbers.reduce((most, value) => Math.max(most, value), -Infinity),
    longestOutside: limits && longestOutside(seconds, numbers, limits),
    dropOuts: runsBelow(numbers, DROPPED_BELOW * settledAt),
    gaps: pauses.filter((one) => one > GAP_FACTOR * pause).length,
    ...driftOf(seconds.subarray(start), numbers.subarray(start)),
  };
}

/** From the first entry outside to the next one inside, or to the end. */
function longestOutside(seconds: Float64Array, values: Float64Array, limits: { low: number; high: number }): number {
  let longest = 0;
  let since = NaN;
  values.forEach((value, at) => {
    const isOut = value < limits.low || value > limits.high;
    if (isOut && Number.isNaN(since)) since = seconds[at]!;
    if (!Number.isNaN(since)) longest = Math.max(longest, seconds[at]! - since);
    if (!isOut) since = NaN;
  });
  return longest;
}

function runsBelow(values: Float64Array, limit: number): number {
  return values.filter((value, at) => value < limit && !(at > 0 && values[at - 1]! < limit)).length;
}

function driftOf(seconds: Float64Array, values: Float64Array): Pick<RunInSummary, 'drift' | 'ripple'> {
  if (values.length < 3 || seconds[0] === seconds.at(-1)) return { drift: undefined, ripple: NaN };
  const hours = inPieces(seconds).map((second) => second / HOUR);
  const { slope, intercept, lower, upper } = theilSen(hours, inPieces(values), 0.95);
  const residuals = values.map((value, at) => value - intercept - (slope * seconds[at]!) / HOUR);
  return { drift: { perHour: slope, low: lower, high: upper }, ripple: robustStandardDeviation(residuals) };
}

/** The medians of pieces of equal count, at most `MOST_PIECES` of them. */
function inPieces(values: Float64Array): Float64Array {
  const count = Math.min(values.length, MOST_PIECES);
  return Float64Array.from({ length: count }, (_, piece) => {
    const from = Math.floor((piece * values.length) / count);
    const to = Math.floor(((piece + 1) * values.length) / count);
    return median(values.subarray(from, to));
  });
}
