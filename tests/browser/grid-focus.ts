import type { ReadingsGrid } from '../../src/ui/grid/readings-grid.ts';

/** The row and column of the focused cell as assistive technology is told them, and whether all of it can be seen. */
export function focused(grid: ReadingsGrid): { row: number; column: number; seen: boolean } {
  const cell = grid.shadowRoot?.activeElement;
  const scroller = grid.shadowRoot?.querySelector('.scroller');
  const header = grid.shadowRoot?.querySelector('.header');
  if (cell == null || scroller == null || header == null) return { row: NaN, column: NaN, seen: false };
  const box = cell.getBoundingClientRect();
  const view = scroller.getBoundingClientRect();
  const isHeader = cell.getAttribute('role') === 'columnheader';
  // A group's line goes under all columns, so that it may be wider than the view.
  const isWide = cell.hasAttribute('aria-colspan');
  const top = isHeader ? view.top : header.getBoundingClientRect().bottom;
  return {
    row: Number(cell.closest('[role=row]')?.getAttribute('aria-rowindex')),
    column: Number(cell.getAttribute('aria-colindex')),
    seen:
      box.top >= top - 1 &&
      box.bottom <= view.bottom + 1 &&
      (isWide || (box.left >= view.left - 1 && box.right <= view.right + 1)),
  };
}
