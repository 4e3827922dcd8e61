import { robustStandardDeviation } from '../statistics/descriptive/robust-standard-deviation.ts';
import { selectMedian } from '../statistics/numerics/select-median.ts';
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
  /** When it was first within 1 % of that and stayed there for five minutes, or to the end; drop-outs are passed over. */
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
  /** Over how many pieces of equal count, by their medians, the slope is taken; as many as entries where there are few. */
  readonly pieces: number;
  /** Robust standard deviation about the line of drift: what the log ripples by; `NaN` with fewer than three entries. */
  readonly ripple: number;
}

/** Settled is within this share of where the trace ends (common practice, no source). */
const SETTLED_WITHIN = 0.01;
/** And has settled once it stays there for so many seconds: what leaves it later is an excursion (common practice, no source). */
const SETTLED_FOR = 300;
/** A rail that falls below this share of where it settled has dropped out (common practice, no source). */
const DROPPED_BELOW = 0.5;
const GAP_FACTOR = 3;
/** The slope compares all pairs, so that a longer trace is taken in as many pieces of equal count, each by its medians. */
const MOST_PIECES = 400;
const HOUR = 3600;

/** Sums a trace up in a few passes over it; undefined where no entry holds a number. */
export function summariseRunIn(trace: RunInTrace, limits?: { low: number; high: number }): RunInSummary | undefined {
  const { seconds, numbers } = known(trace);
  const count = numbers.length;
  if (count === 0) return undefined;
  const settledAt = selectMedian(numbers.slice(Math.floor(count * 0.75)));
  const settledFrom = firstSettled(seconds, numbers, settledAt);
  const pause = selectMedian(pausesOf(seconds));
  const start = settledFrom < count - 2 ? settledFrom : 0;
  return {
    entries: trace.values.length,
    blanks: trace.values.length - count,
    length: seconds[count - 1]!,
    pause,
    settledAt,
    settling: seconds[Math.min(settledFrom, count - 1)]!,
    minimum: numbers.reduce((least, value) => (value < least ? value : least)),
    maximum: numbers.reduce((most, value) => (value > most ? value : most)),
    longestOutside: limits && longestOutside(seconds, numbers, limits),
    dropOuts: runsBelow(numbers, DROPPED_BELOW * settledAt),
    gaps: pausesOf(seconds).reduce((gaps, one) => (one > GAP_FACTOR * pause ? gaps + 1 : gaps), 0),
    ...driftOf(seconds.subarray(start), numbers.subarray(start)),
  };
}

/** The entries with a time and a number, in seconds from the first of them. */
function known({ times, values }: RunInTrace): { readonly seconds: Float64Array; readonly numbers: Float64Array } {
  const seconds = new Float64Array(values.length);
  const numbers = new Float64Array(values.length);
  let count = 0;
  let first = NaN;
  for (let row = 0; row < values.length; row += 1) {
    const [time, value] = [times[row]!, values[row]!];
    if (Number.isNaN(time) || Number.isNaN(value)) continue;
    if (count === 0) first = time;
    seconds[count] = (time - first) / 1000;
    numbers[count] = value;
    count += 1;
  }
  return { seconds: seconds.subarray(0, count), numbers: numbers.subarray(0, count) };
}

/**
 * The first entry from which the trace stays within {@link SETTLED_WITHIN} of where it settled for {@link SETTLED_FOR} seconds or to its end;
 * entries of a drop-out are passed over, since they are counted apart. The number of entries where it never does.
 */
function firstSettled(seconds: Float64Array, values: Float64Array, settledAt: number): number {
  const reach = SETTLED_WITHIN * Math.abs(settledAt);
  let from = values.length;
  for (let at = 0; at < values.length; at += 1) {
    const value = values[at]!;
    if (value < DROPPED_BELOW * settledAt) continue;
    if (Math.abs(value - settledAt) > reach) from = values.length;
    else if (from === values.length) from = at;
    if (from < at && seconds[at]! - seconds[from]! >= SETTLED_FOR) return from;
  }
  return from;
}

function pausesOf(seconds: Float64Array): Float64Array {
  return seconds.subarray(1).map((second, at) => second - seconds[at]!);
}

/** From the first entry outside to the next one inside, or to the end. */
function longestOutside(seconds: Float64Array, values: Float64Array, limits: { low: number; high: number }): number {
  let longest = 0;
  let since = NaN;
  for (let at = 0; at < values.length; at += 1) {
    const isOut = values[at]! < limits.low || values[at]! > limits.high;
    if (isOut && Number.isNaN(since)) since = seconds[at]!;
    if (!Number.isNaN(since)) longest = Math.max(longest, seconds[at]! - since);
    if (!isOut) since = NaN;
  }
  return longest;
}

function runsBelow(values: Float64Array, limit: number): number {
  let runs = 0;
  let isBelow = false;
  for (const value of values) {
    if (value < limit && !isBelow) runs += 1;
    isBelow = value < limit;
  }
  return runs;
}

function driftOf(seconds: Float64Array, values: Float64Array): Pick<RunInSummary, 'drift' | 'ripple' | 'pieces'> {
  if (values.length < 3 || seconds[0] === seconds[seconds.length - 1])
    return { drift: undefined, pieces: 0, ripple: NaN };
  const hours = inPieces(seconds).map((second) => second / HOUR);
  const { slope, intercept, lower, upper } = theilSen(hours, inPieces(values), 0.95);
  const residuals = values.map((value, at) => value - intercept - (slope * seconds[at]!) / HOUR);
  const drift = { perHour: slope, low: lower, high: upper };
  return { drift, pieces: hours.length, ripple: robustStandardDeviation(residuals) };
}

/** The medians of pieces of equal count, at most {@link MOST_PIECES} of them. */
function inPieces(values: Float64Array): Float64Array {
  const count = Math.min(values.length, MOST_PIECES);
  return Float64Array.from({ length: count }, (_, piece) => {
    const from = Math.floor((piece * values.length) / count);
    const to = Math.floor(((piece + 1) * values.length) / count);
    return selectMedian(values.slice(from, to));
  });
}
