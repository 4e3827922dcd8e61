import { scaleLinear } from 'd3';
import { tickCount, ticksOf, type Tick } from './places.ts';

/** An estimate with its limits, in the unit of the scale. */
export interface Interval {
  readonly low: number;
  readonly high: number;
  readonly middle: number;
}

/** An interval's places, in pixels from the left end of the scale and from the top. */
export interface IntervalMark {
  readonly from: number;
  readonly to: number;
  readonly middle: number;
  readonly y: number;
}

export interface IntervalRow {
  /** Middle of the row. */
  readonly y: number;
  /** One for each series; undefined where the row has none. */
  readonly marks: readonly (IntervalMark | undefined)[];
}

export interface IntervalsLayout {
  readonly rows: readonly IntervalRow[];
  readonly ticks: readonly Tick[];
  readonly height: number;
  /** Place of zero, where the scale holds it. */
  readonly zero: number | undefined;
}

export interface IntervalsSize {
  readonly width: number;
  readonly rowHeight: number;
  /** The scale's ends, widened to round values and to what is drawn. */
  readonly domain: readonly [number, number];
}

/** Space between the series of one row, in pixels. */
const APART = 10;

/**
 * Lays out rows of estimates with their intervals on one scale.
 * @param rows - each an estimate for every series, or undefined where it cannot be told
 */
export function layOutIntervals(
  rows: readonly (readonly (Interval | undefined)[])[],
  { width, rowHeight, domain }: IntervalsSize,
): IntervalsLayout {
  const drawn = rows.flat().filter((one) => one !== undefined);
  const low = drawn.reduce((least, one) => Math.min(least, one.low), domain[0]);
  const high = drawn.reduce((most, one) => Math.max(most, one.high), domain[1]);
  const x = scaleLinear().domain([low, high]).range([0, width]).nice(tickCount(width));
  const [first = low, last = high] = x.domain();
  return {
    rows: rows.map((row, at) => {
      const y = (at + 0.5) * rowHeight;
      const top = y - (APART * (row.length - 1)) / 2;
      const marks = row.map((one, series) =>
        one === undefined
          ? undefined
          : { from: x(one.low), to: x(one.high), middle: x(one.middle), y: top + series * APART },
      );
      return { y, marks };
    }),
    ticks: ticksOf(x, tickCount(width)),
    height: rows.length * rowHeight,
    zero: first <= 0 && last >= 0 ? x(0) : undefined,
  };
}
