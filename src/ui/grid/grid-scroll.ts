import { clampOffset, offsetOfScroll, offsetToShow, scrollOfOffset, visibleRows } from './grid-window.ts';
import type { VisibleRows, WindowShape } from './grid-window.ts';

/**
 * Where a grid is scrolled to. The offset into the rows is kept exactly, as the scroll bar cannot say it where its range
 * is scaled: it follows the bar when a person moves that, and sets it otherwise.
 */
export class GridScroll {
  private shapeNow: WindowShape = { rows: 0, rowHeight: 0, viewHeight: 0 };
  private offsetNow = 0;
  private barNow = 0;
  private barWaits = false;

  get shape(): WindowShape {
    return this.shapeNow;
  }

  /** Offset into the rows, in pixels. */
  get offset(): number {
    return this.offsetNow;
  }

  /**
   * Where to put the scroll bar, in pixels; undefined where it is left to the person who moves it. Told once for each
   * move: to put it back at every drawing would fight a hand that has moved it since.
   */
  takeBar(): number | undefined {
    if (!this.barWaits) return undefined;
    this.barWaits = false;
    return this.barNow;
  }

  get visible(): VisibleRows {
    return visibleRows(this.shapeNow, this.offsetNow);
  }

  /** Takes new measures; the first row seen stays the same where it can, and `kept` stays in sight where it was. */
  reshape(shape: WindowShape, kept = -1): void {
    const { rowHeight } = this.shapeNow;
    const { first, count } = this.visible;
    const row = rowHeight > 0 ? this.offsetNow / rowHeight : 0;
    this.shapeNow = shape;
    this.goTo(row * shape.rowHeight);
    if (kept >= first && kept < first + count) this.show(kept);
  }

  /** Follows the scroll bar to `scrollTop`; a place that it was set to says nothing new. */
  followBar(scrollTop: number): boolean {
    if (Math.abs(scrollTop - this.barNow) < 1) return false;
    this.barNow = scrollTop;
    this.offsetNow = offsetOfScroll(this.shapeNow, scrollTop);
    return true;
  }

  /** Moves by pixels of rows, however much the scroll bar's range is scaled. */
  moveBy(pixels: number): void {
    this.goTo(this.offsetNow + pixels);
  }

  /** Moves as little as it takes to see the whole of a row. */
  show(row: number): void {
    this.goTo(offsetToShow(this.shapeNow, this.offsetNow, row));
  }

  private goTo(offset: number): void {
    this.offsetNow = clampOffset(this.shapeNow, offset);
    this.barNow = scrollOfOffset(this.shapeNow, this.offsetNow);
    this.barWaits = true;
  }
}
