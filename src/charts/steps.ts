import { scaleLinear } from 'd3';
import { hundredths, tickCount, ticksOf, type Tick } from './places.ts';

/** A share from a time on, with its limits where there are some. */
export interface Step {
  readonly time: number;
  readonly share: number;
  readonly limits: { readonly low: number; readonly high: number } | undefined;
}

export interface StepsCurve {
  /** Path data of the steps, from zero at time 0. */
  readonly line: string;
  /** Path data of the limits' area; empty where there are none. */
  readonly area: string;
  readonly points: readonly { readonly x: number; readonly y: number }[];
}

export interface StepsLayout {
  readonly curves: readonly StepsCurve[];
  readonly across: readonly Tick[];
  readonly up: readonly Tick[];
}

export interface StepsSize {
  readonly width: number;
  readonly height: number;
}

/**
 * Lays out shares that grow by steps from zero, such as the share of boards that have come back, each up to its last step,
 * on one scale from zero to the highest limit.
 * @param curves - the steps of each in order of time
 */
export function layOutSteps(curves: readonly (readonly Step[])[], { width, height }: StepsSize): StepsLayout {
  const all = curves.flat();
  const last = all.reduce((most, { time }) => Math.max(most, time), 0);
  const highest = all.reduce((most, { share, limits }) => Math.max(most, limits?.high ?? share), 0);
  const x = scaleLinear()
    .domain([0, last || 1])
    .range([0, width])
    .nice(tickCount(width));
  const y = scaleLinear()
    .domain([0, Math.min(1, highest) || 1])
    .range([height, 0])
    .nice(4);
  const across: Place = (time) => hundredths(x(time));
  const up: Place = (share) => hundredths(y(share));
  return {
    curves: curves.map((steps) => ({
      line: lineOf(steps, across, up),
      area: areaOf(steps, across, up),
      points: steps.map(({ time, share }) => ({ x: x(time), y: y(share) })),
    })),
    across: ticksOf(x, tickCount(width)),
    up: ticksOf(y, 4),
  };
}

type Place = (value: number) => number;

function lineOf(steps: readonly Step[], x: Place, y: Place): string {
  return steps.reduce((path, { time, share }) => `${path}H${x(time)}V${y(share)}`, `M${x(0)} ${y(0)}`);
}

/** Forth along the upper limits and back along the lower; the last step's limits end with it. */
function areaOf(steps: readonly Step[], x: Place, y: Place): string {
  const limited = steps.flatMap(({ time, limits }) => (limits === undefined ? [] : [{ time, ...limits }]));
  const [first] = limited;
  if (first === undefined) return '';
  const forth = limited.map(({ high }, at) => `V${y(high)}H${x(limited[at + 1]?.time ?? limited[at]!.time)}`).join('');
  const back = limited
    .map(({ time, low }) => `V${y(low)}H${x(time)}`)
    .reverse()
    .join('');
  return `M${x(first.time)} ${y(first.low)}${forth}${back}Z`;
}
