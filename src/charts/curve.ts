import { scaleLinear } from 'd3';
import { hundredths, tickCount, ticksOf, type Tick } from './places.ts';

/** A share reached at some cost: of repairs covered by so many parts, of faults found after so many minutes. */
export interface CurvePoint {
  readonly cost: number;
  readonly share: number;
}

export interface CurveLayout {
  readonly points: readonly { readonly x: number; readonly y: number }[];
  /** Path data: the share holds until the cost of the next point. */
  readonly line: string;
  readonly across: readonly Tick[];
  readonly up: readonly Tick[];
}

/**
 * Lays out a rising curve of shares over cost, on scales from zero, the share up to 1.
 * @param points - in order of cost
 * @param size - of the plot, in pixels
 * @param from - where the curve begins: at nothing for no cost, or at the first point, what is cheaper not being known
 */
export function layOutCurve(
  points: readonly CurvePoint[],
  { width, height }: { readonly width: number; readonly height: number },
  from: 'zero' | 'first',
): CurveLayout {
  const last = points.at(-1)?.cost ?? 0;
  const x = scaleLinear()
    .domain([0, last || 1])
    .range([0, width])
    .nice(tickCount(width));
  const y = scaleLinear().domain([0, 1]).range([height, 0]);
  const placed = points.map(({ cost, share }) => ({ x: x(cost), y: y(share) }));
  const [first] = placed;
  const start = from === 'zero' || first === undefined ? { x: 0, y: y(0) } : first;
  const line = placed.reduce(
    (path, point) => `${path}H${hundredths(point.x)}V${hundredths(point.y)}`,
    `M${hundredths(start.x)} ${hundredths(start.y)}`,
  );
  return { points: placed, line, across: ticksOf(x, tickCount(width)), up: ticksOf(y, 4) };
}
