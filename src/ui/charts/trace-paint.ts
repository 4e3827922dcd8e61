import { roundTicks, valueRange, type TraceColumns } from '../../charts/trace.ts';
import type { Limits } from '../../domain/band.ts';

/** Colours and type of the page, as the canvas needs them. */
export interface TraceInk {
  readonly paper: string;
  readonly ink: string;
  readonly quiet: string;
  readonly rule: string;
  readonly band: string;
  readonly blue: string;
  readonly font: string;
}

/** What stands on the scales. */
export interface TraceLabels {
  readonly value: (value: number) => string;
  /** Of a time since the beginning, in milliseconds. */
  readonly time: (since: number) => string;
}

/** Room for the scales, in CSS pixels. */
export const LEFT = 72;
const BOTTOM = 24;
const TOP = 8;
const MINUTE = 60_000;

/** Paints a trace with its band and scales. Each column of pixels is one upright stroke from its least to its greatest value, joined to the next. */
export function paintTrace(
  context: CanvasRenderingContext2D,
  size: { readonly width: number; readonly height: number; readonly ratio: number },
  trace: TraceColumns,
  start: number,
  limits: Limits | undefined,
  ink: TraceInk,
  labels: TraceLabels,
): void {
  const { width, height, ratio } = size;
  const plot = { width: width - LEFT, height: height - BOTTOM - TOP };
  const range = valueRange(trace, limits === undefined ? [] : [limits.low, limits.high]);
  const y = (value: number): number => TOP + ((range[1] - value) / (range[1] - range[0])) * plot.height;
  const x = (time: number): number => LEFT + ((time - trace.from) / Math.max(1, trace.to - trace.from)) * plot.width;
  context.setTransform(ratio, 0, 0, ratio, 0, 0);
  context.fillStyle = ink.paper;
  context.fillRect(0, 0, width, height);
  context.font = ink.font;
  context.textBaseline = 'middle';

  if (limits !== undefined) paintBand(context, plot.width, y, limits, range, ink);
  context.fillStyle = ink.quiet;
  context.strokeStyle = ink.rule;
  context.textAlign = 'right';
  for (const value of roundTicks(range, 5)) {
    stroke(context, LEFT, y(value), LEFT + plot.width, y(value));
    context.fillText(labels.value(value), LEFT - 8, y(value));
  }
  context.textAlign = 'center';
  const room = context.measureText(labels.time(trace.to - start)).width + 16;
  const minutes = roundTicks(
    [(trace.from - start) / MINUTE, (trace.to - start) / MINUTE],
    Math.min(6, plot.width / room / 1.5),
  );
  for (const minute of minutes) {
    context.fillText(labels.time(minute * MINUTE), x(start + minute * MINUTE), height - BOTTOM / 2);
  }
  paintLine(context, plot.width, y, trace, ink);
}

function paintBand(
  context: CanvasRenderingContext2D,
  width: number,
  y: (value: number) => number,
  { low, high }: Limits,
  range: readonly [number, number],
  ink: TraceInk,
): void {
  const [top, bottom] = [y(Math.min(high, range[1])), y(Math.max(low, range[0]))];
  context.fillStyle = ink.band;
  context.fillRect(LEFT, top, width, bottom - top);
  context.strokeStyle = ink.blue;
  for (const limit of [low, high]) if (Number.isFinite(limit)) stroke(context, LEFT, y(limit), LEFT + width, y(limit));
}

function paintLine(
  context: CanvasRenderingContext2D,
  width: number,
  y: (value: number) => number,
  { low, high, first, last, broken }: TraceColumns,
  ink: TraceInk,
): void {
  const step = width / low.length;
  context.strokeStyle = ink.ink;
  context.fillStyle = ink.ink;
  context.lineWidth = 1.25;
  context.beginPath();
  let before: { readonly x: number; readonly y: number } | undefined;
  low.forEach((least, column) => {
    if (Number.isNaN(least)) return;
    const x = LEFT + (column + 0.5) * step;
    if (before !== undefined && broken[column] === 0) {
      context.moveTo(before.x, before.y);
      context.lineTo(x, y(first[column] ?? least));
    }
    context.moveTo(x, y(least) + 0.6);
    context.lineTo(x, y(high[column] ?? least) - 0.6);
    before = { x, y: y(last[column] ?? least) };
  });
  context.stroke();
  context.lineWidth = 1;
}

function stroke(context: CanvasRenderingContext2D, x1: number, y1: number, x2: number, y2: number): void {
  context.beginPath();
  context.moveTo(x1, y1);
  context.lineTo(x2, y2);
  context.stroke();
}
