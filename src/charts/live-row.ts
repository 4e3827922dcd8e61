import { extent, scaleLinear } from 'd3';
import { ticksOf, type Tick } from './places.ts';

/** Readings of one point in one unit, with the limits of its band. */
export interface LiveReadings {
  readonly received: ArrayLike<number>;
  readonly returned: ArrayLike<number>;
  /** Infinite where a side is open. */
  readonly limits: { readonly low: number; readonly high: number } | undefined;
}

export interface LiveRowLayout {
  /** Path data of the marks: one upright stroke each, above the middle as received, below it as returned. */
  readonly received: string;
  readonly returned: string;
  /** The band, cut at the ends of the scale. */
  readonly band: { readonly from: number; readonly to: number } | undefined;
  readonly ticks: readonly Tick[];
}

/** Strokes closer than this are one, in pixels: any number of readings stays quick to draw. */
const GRAIN = 0.5;

/**
 * Lays out readings as strokes on a scale that holds all of them and the finite limits of the band.
 * @param size - width of the scale and length of a stroke, in pixels
 * @returns undefined where there is neither a reading nor a finite limit
 */
export function layOutLiveRow(
  { received, returned, limits }: LiveReadings,
  { width, stroke }: { readonly width: number; readonly stroke: number },
): LiveRowLayout | undefined {
  const ends = limits === undefined ? [] : [limits.low, limits.high].filter(Number.isFinite);
  const [low, high] = extent([...ends, ...extentOf(received), ...extentOf(returned)]);
  if (low === undefined) return undefined;
  const air = (high - low) / 20 || Math.abs(high) / 20 || 1;
  const x = scaleLinear()
    .domain([low - air, high + air])
    .range([0, width]);
  // Cut before it is placed: a scale gives infinity no place.
  const cut = (value: number): number => x(Math.max(low - air, Math.min(high + air, value)));
  const strokes = (values: ArrayLike<number>, top: number): string => {
    const places = new Set(Array.from(values, (value) => Math.round(x(value) / GRAIN) * GRAIN));
    return [...places].map((place) => `M${place} ${top}v${stroke}`).join('');
  };
  return {
    received: strokes(received, 0),
    returned: strokes(returned, stroke + 2),
    band: limits && { from: cut(limits.low), to: cut(limits.high) },
    ticks: ticksOf(x, 4),
  };
}

function extentOf(values: ArrayLike<number>): readonly number[] {
  const [low, high] = extent(Array.from(values));
  return low === undefined ? [] : [low, high];
}
