/** What a scrolling grid of equally high rows measures, in CSS pixels. */
export interface WindowShape {
  readonly rows: number;
  readonly rowHeight: number;
  /** Height in which rows are seen, the header apart. */
  readonly viewHeight: number;
}

/** The rows to draw and where the first of them starts, in pixels from the top of the view (zero or above it). */
export interface VisibleRows {
  readonly first: number;
  readonly count: number;
  readonly shift: number;
}

/** Browsers limit an element's height and lose whole pixels from 2^24 of them on; beyond this the scroll range is scaled. */
export const MAX_SCROLL_HEIGHT = 15_000_000;

/** Height that all rows would take. */
function fullHeight({ rows, rowHeight }: WindowShape): number {
  return rows * rowHeight;
}

/** Height of the element that makes the scroll bar. */
export function scrollHeight(shape: WindowShape): number {
  return Math.min(fullHeight(shape), MAX_SCROLL_HEIGHT);
}

export function isScaled(shape: WindowShape): boolean {
  return fullHeight(shape) > MAX_SCROLL_HEIGHT;
}

/** The offset nearest to `offset` at which the view is full of rows, or zero where the rows do not fill it. */
export function clampOffset(shape: WindowShape, offset: number): number {
  return Math.max(0, Math.min(offset, fullHeight(shape) - shape.viewHeight));
}

/** Offset into the rows, in pixels, for a place of the scroll bar. */
export function offsetOfScroll(shape: WindowShape, scrollTop: number): number {
  if (!isScaled(shape)) return clampOffset(shape, scrollTop);
  const range = scrollHeight(shape) - shape.viewHeight;
  // Browsers round the scroll place, so the end may be missed by less than a pixel, which here stands for many rows.
  const share = scrollTop >= range - 1 ? 1 : scrollTop / range;
  return clampOffset(shape, share * (fullHeight(shape) - shape.viewHeight));
}

/** Place of the scroll bar for an offset into the rows. */
export function scrollOfOffset(shape: WindowShape, offset: number): number {
  if (!isScaled(shape)) return offset;
  return (offset / (fullHeight(shape) - shape.viewHeight)) * (scrollHeight(shape) - shape.viewHeight);
}

/** The rows seen at an offset, whole or in part. */
export function visibleRows(shape: WindowShape, offset: number): VisibleRows {
  const { rows, rowHeight, viewHeight } = shape;
  if (rows === 0 || rowHeight <= 0) return { first: 0, count: 0, shift: 0 };
  const first = Math.min(rows - 1, Math.floor(offset / rowHeight));
  const end = Math.min(rows, Math.ceil((offset + viewHeight) / rowHeight));
  return { first, count: Math.max(0, end - first), shift: first * rowHeight - offset };
}

/** Whole rows that fit into the view, at least one. */
export function rowsPerView({ rowHeight, viewHeight }: WindowShape): number {
  return rowHeight > 0 ? Math.max(1, Math.floor(viewHeight / rowHeight)) : 1;
}

/** The offset nearest to `offset` at which the whole of a row is seen. */
export function offsetToShow(shape: WindowShape, offset: number, row: number): number {
  const top = row * shape.rowHeight;
  const bottom = top + shape.rowHeight - shape.viewHeight;
  return clampOffset(shape, offset > top ? top : offset < bottom ? bottom : offset);
}

/** Pixels of rows by which a turn of the wheel moves; undefined where it is meant for something else: zoom, or sideways. */
export function wheelPixels(event: WheelEvent, { rowHeight, viewHeight }: WindowShape): number | undefined {
  if (event.ctrlKey || event.shiftKey || Math.abs(event.deltaX) > Math.abs(event.deltaY)) return undefined;
  return event.deltaY * ({ 0: 1, 1: rowHeight, 2: viewHeight }[event.deltaMode] ?? 1);
}
