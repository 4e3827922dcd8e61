import { HEADER_ROW } from './grid-cursor.ts';
import { cellElement } from './grid-view.ts';

/** Scrolls sideways as little as it takes to see the whole of a cell, beside the columns that are pinned over the others. */
export function showColumn(scroller: HTMLElement, header: HTMLElement, cell: HTMLElement): void {
  if (cell.hasAttribute('data-pin') || cell.hasAttribute('aria-colspan')) return;
  const { left, right } = cell.getBoundingClientRect();
  const view = scroller.getBoundingClientRect();
  const end = view.left + scroller.clientWidth;
  const pinned = [...header.querySelectorAll('[data-pin]')].at(-1);
  const start = pinned?.getBoundingClientRect().right ?? view.left;
  if (left < start) scroller.scrollLeft -= start - left;
  else if (right > end) scroller.scrollLeft += Math.min(left - start, right - end);
}

/** Width of a drawn column, and of one em of its cells, in pixels. */
export function measureColumn(
  root: ParentNode,
  scroller: HTMLElement,
  column: number,
): { readonly width: number; readonly em: number } {
  const header = cellElement(root, { row: HEADER_ROW, column });
  return {
    width: header?.getBoundingClientRect().width ?? 0,
    em: parseFloat(getComputedStyle(scroller).fontSize) * stretchOf(scroller),
  };
}

/** Width of a letter among others, in em: about half the height of its line. */
const LETTER = 0.5;

/** By how much a reader's own letter spacing widens texts (WCAG 2.2, 1.4.12). */
export function stretchOf(element: Element): number {
  const { letterSpacing, fontSize } = getComputedStyle(element);
  const spacing = parseFloat(letterSpacing);
  return Number.isNaN(spacing) ? 1 : 1 + spacing / (LETTER * parseFloat(fontSize));
}
