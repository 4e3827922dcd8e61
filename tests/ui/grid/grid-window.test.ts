import fc from '../../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import {
  clampOffset,
  isScaled,
  MAX_SCROLL_HEIGHT,
  offsetOfScroll,
  offsetToShow,
  rowsPerView,
  scrollHeight,
  scrollOfOffset,
  visibleRows,
  type WindowShape,
} from '../../../src/ui/grid/grid-window.ts';

const shapes = fc.record({
  rows: fc.integer({ min: 1, max: 5_000_000 }),
  rowHeight: fc.double({ min: 16, max: 80, noNaN: true }),
  viewHeight: fc.integer({ min: 100, max: 2000 }),
});

function lastPlace(shape: WindowShape): number {
  return scrollHeight(shape) - shape.viewHeight;
}

describe('the window of rows', () => {
  test('shows the rows that are seen in part, and where the first of them starts', () => {
    const shape = { rows: 1000, rowHeight: 28, viewHeight: 280 };
    expect(visibleRows(shape, 0)).toEqual({ first: 0, count: 10, shift: 0 });
    expect(visibleRows(shape, 14)).toEqual({ first: 0, count: 11, shift: -14 });
    expect(visibleRows(shape, 28)).toEqual({ first: 1, count: 10, shift: 0 });
  });

  test('shows fewer rows than fit where there are no more', () => {
    expect(visibleRows({ rows: 3, rowHeight: 28, viewHeight: 280 }, 0)).toEqual({ first: 0, count: 3, shift: 0 });
    expect(visibleRows({ rows: 0, rowHeight: 28, viewHeight: 280 }, 0)).toEqual({ first: 0, count: 0, shift: 0 });
    expect(visibleRows({ rows: 3, rowHeight: 0, viewHeight: 280 }, 0)).toEqual({ first: 0, count: 0, shift: 0 });
  });

  test('scales the scroll range beyond the greatest height alone', () => {
    const shape = { rowHeight: 30, viewHeight: 600 };
    expect(isScaled({ ...shape, rows: MAX_SCROLL_HEIGHT / 30 })).toBe(false);
    expect(isScaled({ ...shape, rows: MAX_SCROLL_HEIGHT / 30 + 1 })).toBe(true);
    expect(scrollHeight({ ...shape, rows: 5_000_000 })).toBe(MAX_SCROLL_HEIGHT);
  });

  test('reaches the last row at 5,000,000 rows, also where the browser rounds the last place down', () => {
    const shape = { rows: 5_000_000, rowHeight: 28, viewHeight: 601 };
    for (const place of [lastPlace(shape), lastPlace(shape) - 0.9]) {
      const { first, count, shift } = visibleRows(shape, offsetOfScroll(shape, place));
      expect(first + count).toBe(5_000_000);
      expect(shift + count * 28).toBe(601);
    }
  });

  test('covers the view at every place of the scroll bar', () => {
    fc.assert(
      fc.property(shapes, fc.double({ min: 0, max: 1, noNaN: true }), (shape, share) => {
        const offset = offsetOfScroll(shape, share * Math.max(0, lastPlace(shape)));
        const { first, count, shift } = visibleRows(shape, offset);
        expect(first).toBeGreaterThanOrEqual(0);
        expect(first + count).toBeLessThanOrEqual(shape.rows);
        expect(shift).toBeLessThanOrEqual(0);
        expect(shift).toBeGreaterThan(-shape.rowHeight - 1e-6);
        const covered = shift + count * shape.rowHeight;
        const most = Math.min(shape.viewHeight, shape.rows * shape.rowHeight);
        expect(covered).toBeGreaterThanOrEqual(most - 1e-6);
      }),
    );
  });

  test('lets every row be shown whole, and found again from the place that the scroll bar then has', () => {
    fc.assert(
      fc.property(shapes, fc.nat(), fc.double({ min: 0, max: 1, noNaN: true }), (shape, pick, share) => {
        const row = pick % shape.rows;
        const from = clampOffset(shape, share * shape.rows * shape.rowHeight);
        const offset = offsetToShow(shape, from, row);
        expect(row * shape.rowHeight - offset).toBeGreaterThanOrEqual(-1e-6);
        expect((row + 1) * shape.rowHeight - offset).toBeLessThanOrEqual(shape.viewHeight + 1e-6);
        // What a pixel of the scroll bar stands for, at most.
        const coarse = (shape.rows * shape.rowHeight) / scrollHeight(shape);
        const back = offsetOfScroll(shape, scrollOfOffset(shape, offset));
        expect(Math.abs(back - offset)).toBeLessThanOrEqual(coarse * 1.001 + 1e-6);
      }),
    );
  });

  test('does not move where the row is seen already', () => {
    fc.assert(
      fc.property(shapes, fc.double({ min: 0, max: 1, noNaN: true }), (shape, share) => {
        const offset = clampOffset(shape, share * shape.rows * shape.rowHeight);
        const whole = Math.ceil(offset / shape.rowHeight);
        fc.pre(whole < shape.rows && (whole + 1) * shape.rowHeight <= offset + shape.viewHeight);
        expect(offsetToShow(shape, offset, whole)).toBe(offset);
      }),
    );
  });

  test('moves no further down than to the last row, and no further up than to the first', () => {
    const shape = { rows: 100, rowHeight: 28, viewHeight: 280 };
    expect(clampOffset(shape, 1e9)).toBe(90 * 28);
    expect(clampOffset(shape, -5)).toBe(0);
    expect(clampOffset({ ...shape, rows: 2 }, 50)).toBe(0);
  });

  test('counts the whole rows of a view, one at least', () => {
    expect(rowsPerView({ rows: 9, rowHeight: 28, viewHeight: 279 })).toBe(9);
    expect(rowsPerView({ rows: 9, rowHeight: 28, viewHeight: 10 })).toBe(1);
    expect(rowsPerView({ rows: 9, rowHeight: 0, viewHeight: 10 })).toBe(1);
  });
});
