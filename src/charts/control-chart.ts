import { scaleLinear } from 'd3';
import { hundredths, ticksOf, type Tick } from './places.ts';

/** One sample of a control chart for shares. */
export interface ControlPoint {
  readonly time: number;
  readonly share: number;
  readonly lower: number;
  readonly upper: number;
  readonly outside: boolean;
}

export interface ControlChartLayout {
  readonly points: readonly { readonly x: number; readonly y: number; readonly outside: boolean }[];
  /** Path data that joins the samples. */
  readonly line: string;
  /** Path data of the limits, stepped from sample to sample, as their sizes differ. */
  readonly upper: string;
  readonly lower: string;
  readonly centre: number;
  /** Place between the samples where a change began; undefined for none. */
  readonly change: number | undefined;
  /** Room of one sample. */
  readonly step: number;
  readonly up: readonly Tick[];
  /** Samples that are named below the chart. */
  readonly across: readonly Tick[];
}

export interface ControlChartSize {
  readonly width: number;
  readonly height: number;
}

/** Room that a date below the chart takes, in pixels. */
const DATE_ROOM = 92;

/**
 * Lays out a control chart for shares with one room for each sample, in order of time, on a scale from zero.
 * @param centre - the share over all samples
 * @param change - time of the first sample after a change
 */
export function layOutControlChart(
  samples: readonly ControlPoint[],
  centre: number,
  change: number | undefined,
  { width, height }: ControlChartSize,
): ControlChartLayout {
  const step = samples.length === 0 ? width : width / samples.length;
  const highest = samples.reduce((most, { share, upper }) => Math.max(most, share, upper), centre);
  const y = scaleLinear()
    .domain([0, Math.min(1, highest) || 1])
    .range([height, 0])
    .nice(4);
  const middle = (at: number): number => (at + 0.5) * step;
  const points = samples.map(({ share, outside }, at) => ({ x: middle(at), y: y(share), outside }));
  const limit = (side: 'upper' | 'lower'): string =>
    samples
      .map((sample, at) => `${at === 0 ? 'M0 ' : 'V'}${hundredths(y(sample[side]))}H${hundredths((at + 1) * step)}`)
      .join('');
  const begun = samples.findIndex(({ time }) => time === change);
  const every = Math.max(1, Math.ceil(DATE_ROOM / step));
  return {
    points,
    line: points.map(({ x, y: place }, at) => `${at === 0 ? 'M' : 'L'}${hundredths(x)} ${hundredths(place)}`).join(''),
    upper: limit('upper'),
    lower: limit('lower'),
    centre: y(centre),
    change: begun < 0 ? undefined : begun * step,
    step,
    up: ticksOf(y, 4),
    across: samples.flatMap(({ time }, at) => (at % every === 0 ? [{ value: time, place: middle(at) }] : [])),
  };
}
