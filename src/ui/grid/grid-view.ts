import { html, nothing, type TemplateResult } from 'lit';
import { ifDefined } from 'lit/directives/if-defined.js';
import { keyed } from 'lit/directives/keyed.js';
import { repeat } from 'lit/directives/repeat.js';
import type { DecimalMark } from '../../domain/quantity.ts';
import type { ReadingRow } from '../../session/answers.ts';
import type { GridColumn } from './grid-columns.ts';
import { HEADER_ROW, isInRange, type GridCursor, type GridRange } from './grid-cursor.ts';
import type { VisibleRows } from './grid-window.ts';
import { sortOf, type SortKeys } from './sort-keys.ts';

/** Everything that is drawn of the grid. */
export interface GridView {
  readonly columns: readonly GridColumn[];
  readonly sort: SortKeys;
  readonly cursor: GridCursor;
  readonly range: GridRange | undefined;
  readonly rowCount: number;
  readonly visible: VisibleRows;
  readonly mark: DecimalMark;
  /** The reading of a place, undefined while it is fetched. */
  readonly row: (index: number) => ReadingRow | undefined;
}

/** The row of column headers; a sorted one carries an arrow, and its place where there are several keys. */
export function headerTemplate({ columns, sort, cursor }: GridView): TemplateResult {
  return html`<div class="header" role="row" aria-rowindex="1">
    ${columns.map((column, index) => {
      const sorted = sortOf(sort, column.sort);
      const direction = sorted?.descending === true ? 'descending' : 'ascending';
      return html`<div
        role="columnheader"
        class=${sorted === undefined ? '' : 'sorted'}
        data-column=${column.id}
        ?data-sort=${column.sort !== undefined}
        tabindex=${cursor.row === HEADER_ROW && cursor.column === index ? 0 : -1}
        aria-colindex=${index + 1}
        aria-sort=${ifDefined(sorted?.place === 1 ? direction : undefined)}
      >
        ${column.title}${
          sorted === undefined
            ? nothing
            : html` <span aria-hidden="true"
                  >${sorted.descending ? '↓' : '↑'}${sort.length > 1 ? sorted.place : nothing}</span
                >${sorted.place > 1 ? html`<span class="spoken">, key ${sorted.place}, ${direction}</span>` : nothing}`
        }
      </div>`;
    })}
  </div>`;
}

/**
 * The rows that are seen, and the current one even where it is not: the focus may be in it. It has a place of its own
 * in the list, so that its nodes stay however the others come and go.
 */
export function rowsTemplate(view: GridView): TemplateResult {
  const { first, count } = view.visible;
  const current = view.cursor.row;
  const seen = Array.from({ length: count }, (_, index) => first + index);
  const list = (indexes: readonly number[]): unknown =>
    repeat(
      indexes,
      (index) => index,
      (index) => rowTemplate(view, index, ''),
    );
  const isSeen = current >= first && current < first + count;
  return html`
    ${list(seen.filter((index) => index < current))}
    ${
      current >= 0 && current < view.rowCount
        ? keyed(current, rowTemplate(view, current, isSeen ? 'current' : 'current pinned'))
        : nothing
    }
    ${list(seen.filter((index) => index > current))}
  `;
}

function rowTemplate(view: GridView, index: number, manner: string): TemplateResult {
  const row = view.row(index);
  const { cursor, range, columns, mark } = view;
  return html`<div class="row ${manner}" role="row" aria-rowindex=${index + 2}>
    ${columns.map(
      (column, place) =>
        html`<div
          role="gridcell"
          data-column=${column.id}
          tabindex=${cursor.row === index && cursor.column === place ? 0 : -1}
          aria-colindex=${place + 1}
          aria-selected=${isInRange(range, index, place)}
        >
          ${
            row === undefined
              ? html`<span class="waiting"></span>`
              : (column.cell?.(row, mark) ?? column.text(row, mark))
          }
        </div>`,
    )}
  </div>`;
}

/** A cell's place, the header being row -1. */
export interface CellPlace {
  readonly row: number;
  readonly column: number;
}

/** The cell in which an event happened, undefined where it was in none. */
export function cellOf(event: Event): CellPlace | undefined {
  const target = event.composedPath()[0];
  const cell = target instanceof Element ? target.closest('[aria-colindex]') : null;
  const row = cell?.closest('[aria-rowindex]') ?? null;
  if (cell === null || row === null) return undefined;
  return {
    row: Number(row.getAttribute('aria-rowindex')) - 2,
    column: Number(cell.getAttribute('aria-colindex')) - 1,
  };
}

/** The element of a cell, where it is drawn. */
export function cellElement(root: ParentNode, { row, column }: CellPlace): HTMLElement | null {
  return root.querySelector(`[aria-rowindex="${row + 2}"] > [aria-colindex="${column + 1}"]`);
}
