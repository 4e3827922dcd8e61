/** A column of a log. */
export type Column = Float64Array | Int8Array | Uint8Array | Uint16Array | Uint32Array;

/**
 * How a stretch of a column is written: whole numbers as their distance from the smallest, counted in steps, in `width`
 * bytes each; all else as doubles (width 8).
 */
export interface Packing {
  readonly base: number;
  readonly width: Width;
  readonly step: Step;
}

/** Times are mostly whole seconds, kept in milliseconds. */
const STEPS = [1, 1000] as const;
type Step = (typeof STEPS)[number];

const WIDTHS = [0, 1, 2, 4, 8] as const;
type Width = (typeof WIDTHS)[number];

const DOUBLES: Packing = { base: 0, width: 8, step: 1 };

/** Whether a number is a width that columns are packed in. */
export function isWidth(number: number): number is Width {
  return WIDTHS.includes(number as Width);
}

/** Whether a number is a step that columns are packed in. */
export function isStep(number: number): number is Step {
  return STEPS.includes(number as Step);
}

/** The narrowest packing that gives every number of the column back, bit for bit but for the payload of a NaN. */
export function choosePacking(column: Column): Packing {
  if (column.length === 0) return { base: 0, width: 0, step: 1 };
  if (column instanceof Float64Array && !isWhole(column)) return DOUBLES;
  let low = Infinity;
  let high = -Infinity;
  for (const value of column) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  const step = column instanceof Float64Array && isStepped(column, low, 1000) ? 1000 : 1;
  const span = (high - low) / step;
  if (span === 0) return { base: low, width: 0, step };
  if (span <= 0xff) return { base: low, width: 1, step };
  if (span <= 0xffff) return { base: low, width: 2, step };
  return span <= 0xffffffff ? { base: low, width: 4, step } : DOUBLES;
}

/** Writes a column at a place of `buffer`, which lies on a multiple of its width. */
export function packColumn(column: Column, { base, width, step }: Packing, buffer: ArrayBuffer, place: number): void {
  if (width === 0) return;
  const packed = packedView(width, buffer, place, column.length);
  if (base === 0 && step === 1) {
    packed.set(column);
    return;
  }
  for (let at = 0; at < column.length; at += 1) packed[at] = ((column[at] ?? 0) - base) / step;
}

/** Fills `column` from what {@link packColumn} wrote with the same packing. */
export function unpackColumn(column: Column, { base, width, step }: Packing, buffer: ArrayBuffer, place: number): void {
  if (width === 0) {
    column.fill(base);
    return;
  }
  const packed = packedView(width, buffer, place, column.length);
  if (base === 0 && step === 1) {
    column.set(packed);
    return;
  }
  for (let at = 0; at < packed.length; at += 1) column[at] = base + (packed[at] ?? 0) * step;
}

function isWhole(column: Float64Array): boolean {
  return column.every((value) => Number.isSafeInteger(value) && !Object.is(value, -0));
}

/** Whether all distances from `low` are multiples of a step; differences of safe integers that are small enough are exact. */
function isStepped(column: Float64Array, low: number, step: number): boolean {
  return column.every((value) => (value - low) % step === 0);
}

function packedView(width: 1 | 2 | 4 | 8, buffer: ArrayBuffer, place: number, length: number): Column {
  switch (width) {
    case 1:
      return new Uint8Array(buffer, place, length);
    case 2:
      return new Uint16Array(buffer, place, length);
    case 4:
      return new Uint32Array(buffer, place, length);
    case 8:
      return new Float64Array(buffer, place, length);
  }
}
