import { describe, expect, test } from 'vitest';
import { GridScroll } from '../../../src/ui/grid/grid-scroll.ts';

function scrollOver(rows: number): GridScroll {
  const scroll = new GridScroll();
  scroll.reshape({ rows, rowHeight: 28, viewHeight: 280 });
  return scroll;
}

describe('the scroll of a grid', () => {
  test('follows the bar one to one where its range is not scaled', () => {
    const scroll = scrollOver(1000);
    expect(scroll.followBar(140)).toBe(true);
    expect(scroll.offset).toBe(140);
    expect(scroll.visible.first).toBe(5);
  });

  test('moves by real rows where the range is scaled, without losing what the bar cannot say', () => {
    const scroll = scrollOver(5_000_000);
    scroll.moveBy(28);
    expect(scroll.visible).toEqual({ first: 1, count: 10, shift: 0 });
    const bar = scroll.takeBar() ?? NaN;
    expect(bar).toBeLessThan(4);
    // The browser tells that the bar went where it was put, rounded to whole pixels.
    expect(scroll.followBar(Math.round(bar))).toBe(false);
    expect(scroll.offset).toBe(28);
  });

  test('keeps a row in sight that was, where the room for rows shrinks, and leaves one that was not', () => {
    const scroll = scrollOver(1000);
    scroll.reshape({ rows: 1000, rowHeight: 28, viewHeight: 224 }, 9);
    expect(scroll.visible).toEqual({ first: 2, count: 8, shift: 0 });
    scroll.reshape({ rows: 1000, rowHeight: 28, viewHeight: 196 }, 500);
    expect(scroll.visible.first).toBe(2);
  });

  test('jumps many rows where a person moves a scaled bar by a pixel', () => {
    const scroll = scrollOver(5_000_000);
    expect(scroll.followBar(10)).toBe(true);
    expect(scroll.offset).toBeCloseTo((10 * (140e6 - 280)) / (15e6 - 280), 6);
  });

  test('tells where the bar belongs once after each move, and never after a person has moved it', () => {
    const scroll = scrollOver(1000);
    scroll.takeBar();
    expect(scroll.takeBar()).toBeUndefined();
    scroll.show(999);
    expect(scroll.takeBar()).toBe(28_000 - 280);
    expect(scroll.takeBar()).toBeUndefined();
    scroll.followBar(140);
    expect(scroll.takeBar()).toBeUndefined();
  });

  test('keeps the first row when the rows grow', () => {
    const scroll = scrollOver(1000);
    scroll.followBar(140);
    scroll.reshape({ rows: 1000, rowHeight: 56, viewHeight: 280 });
    expect(scroll.visible).toEqual({ first: 5, count: 5, shift: 0 });
  });

  test('stays among the rows when there are fewer of them', () => {
    const scroll = scrollOver(1000);
    scroll.show(999);
    expect(scroll.visible).toMatchObject({ first: 990, count: 10 });
    scroll.reshape({ rows: 20, rowHeight: 28, viewHeight: 280 });
    expect(scroll.visible).toMatchObject({ first: 10, count: 10 });
  });

  test('shows the last of 5,000,000 rows and comes back to the first', () => {
    const scroll = scrollOver(5_000_000);
    scroll.show(4_999_999);
    expect(scroll.visible.first + scroll.visible.count).toBe(5_000_000);
    expect(scroll.takeBar()).toBe(15e6 - 280);
    scroll.show(0);
    expect(scroll.visible).toEqual({ first: 0, count: 10, shift: 0 });
    expect(scroll.takeBar()).toBe(0);
  });
});
