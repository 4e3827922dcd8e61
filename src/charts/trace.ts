import { ticks } from 'd3';

/** A trace in as many columns as the drawing has pixels. Columns without an entry are `NaN` throughout. */
export interface TraceColumns {
  /** Times of the window's two ends; column `c` holds the times from `from + c·step` to under the next. */
  readonly from: number;
  readonly to: number;
  /** Smallest and largest value in each column: no extreme of the trace is lost. */
  readonly low: Float64Array;
  readonly high: Float64Array;
  /** First and last value in each column, which join it to its neighbours. */
  readonly first: Float64Array;
  readonly last: Float64Array;
  /** 1 where the line breaks before the column: a gap, or an entry without a number. */
  readonly broken: Uint8Array;
}

/**
 * Min–max decimation of a trace: each column of pixels keeps the extremes of its entries, so that a spike of one entry in a million is drawn.
 * @param times - ascending, in milliseconds
 * @param values - `NaN` for an entry without a number
 * @param gap - a longer pause than this breaks the line, in milliseconds
 */
export function decimateTrace(
  times: Float64Array,
  values: Float64Array,
  window: TraceWindow,
  columns: number,
  gap = Infinity,
): TraceColumns {
  const { from, to } = window;
  const empty = (): Float64Array => new Float64Array(columns).fill(NaN);
  const trace = {
    from,
    to,
    low: empty(),
    high: empty(),
    first: empty(),
    last: empty(),
    broken: new Uint8Array(columns),
  };
  const scale = columns / Math.max(to - from, Number.MIN_VALUE);
  let before = -Infinity;
  let isBroken = true;
  for (let at = firstAtOrAfter(times, from); at < times.length && times[at]! <= to; at += 1) {
    const [time, value] = [times[at]!, values[at]!];
    if (time - before > gap) isBroken = true;
    before = time;
    if (Number.isNaN(value)) {
      isBroken = true;
      continue;
    }
    const column = Math.min(columns - 1, Math.floor((time - from) * scale));
    if (Number.isNaN(trace.first[column]!)) {
      trace.first[column] = trace.low[column] = trace.high[column] = value;
      trace.broken[column] = isBroken ? 1 : 0;
    } else {
      if (value < trace.low[column]!) trace.low[column] = value;
      if (value > trace.high[column]!) trace.high[column] = value;
    }
    trace.last[column] = value;
    isBroken = false;
  }
  return trace;
}

/** The part of a trace that is shown, in milliseconds. */
export interface TraceWindow {
  readonly from: number;
  readonly to: number;
}

/** A window `factor` times as long around the time `at`, kept within the whole trace and no shorter than `shortest`. */
export function zoomWindow(
  { from, to }: TraceWindow,
  whole: TraceWindow,
  factor: number,
  at: number,
  shortest: number,
): TraceWindow {
  const length = Math.min(whole.to - whole.from, Math.max(shortest, (to - from) * factor));
  const share = to > from ? (at - from) / (to - from) : 0.5;
  return within(at - share * length, length, whole);
}

/** A window moved by a share of its own length, kept within the whole trace. */
export function panWindow({ from, to }: TraceWindow, whole: TraceWindow, share: number): TraceWindow {
  return within(from + share * (to - from), to - from, whole);
}

/** The values that a drawing shows: those of the trace and the band's finite limits, with a little room around. */
export function valueRange({ low, high }: TraceColumns, limits: readonly number[]): readonly [number, number] {
  let [least, most] = [Infinity, -Infinity];
  for (const value of [...limits.filter(Number.isFinite), ...low, ...high]) {
    if (value < least) least = value;
    if (value > most) most = value;
  }
  if (least > most) return [0, 1];
  const room = (most - least || Math.abs(most) || 1) * 0.08;
  return [least - room, most + room];
}

/** Round values between two, about as many as asked for. */
export function roundTicks([least, most]: readonly [number, number], count: number): readonly number[] {
  return ticks(least, most, count);
}

function within(from: number, length: number, whole: TraceWindow): TraceWindow {
  const start = Math.max(whole.from, Math.min(whole.to - length, from));
  return { from: start, to: start + length };
}

function firstAtOrAfter(times: Float64Array, time: number): number {
  let [low, high] = [0, times.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (times[middle]! < time) low = middle + 1;
    else high = middle;
  }
  return low;
}
