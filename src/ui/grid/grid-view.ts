import { html, nothing, type TemplateResult } from 'lit';
import { ifDefined } from 'lit/directives/if-defined.js';
import { keyed } from 'lit/directives/keyed.js';
import { repeat } from 'lit/directives/repeat.js';
import type { DecimalMark } from '../../domain/quantity.ts';
import type { GridLine } from '../../session/answers.ts';
import type { GridEditController } from '../controllers/grid-edit-controller.ts';
import type { ShownColumn } from './column-layout.ts';
import { originalText } from './edit-text.ts';
import { editorTemplate } from './edit-view.ts';
import { HEADER_ROW, isInRange, type GridCursor, type GridRange } from './grid-cursor.ts';
import type { VisibleRows } from './grid-window.ts';
import { groupTemplate, isGroup } from './group-text.ts';
import { sortOf, type SortKeys } from './sort-keys.ts';

/** Everything that is drawn of the grid. */
export interface GridView {
  readonly columns: readonly ShownColumn[];
  readonly sort: SortKeys;
  readonly grouped: boolean;
  readonly cursor: GridCursor;
  readonly range: GridRange | undefined;
  readonly rowCount: number;
  readonly visible: VisibleRows;
  readonly mark: DecimalMark;
  /** The column on which a dragged one would be dropped. */
  readonly target: number | undefined;
  /** The cells that are being edited, if any. */
  readonly edits: GridEditController;
  /** The reading or group of a place, undefined while it is fetched. */
  readonly row: (index: number) => GridLine | undefined;
}

/** The row of column headers; a sorted one carries an arrow, and its place where there are several keys. */
export function headerTemplate({ columns, sort, cursor, target }: GridView): TemplateResult {
  return html`<div class="header" role="row" aria-rowindex="1">
    ${columns.map((column, index) => {
      const sorted = sortOf(sort, column.sort);
      const direction = sorted?.descending === true ? 'descending' : 'ascending';
      return html`<div
        role="columnheader"
        id="heading-${column.id}"
        class="${sorted === undefined ? '' : 'sorted'} ${target === index ? 'target' : ''}"
        data-column=${column.id}
        data-pin=${ifDefined(column.pinned ? index : undefined)}
        ?data-derived=${column.derived !== undefined}
        ?data-sort=${column.sort !== undefined}
        tabindex=${cursor.row === HEADER_ROW && cursor.column === index ? 0 : -1}
        aria-colindex=${index + 1}
        aria-sort=${ifDefined(sorted?.place === 1 ? direction : undefined)}
        title=${ifDefined(column.about)}
      >
        <span class="title"
          >${column.title}${
            sorted === undefined
              ? nothing
              : html` <span aria-hidden="true"
                    >${sorted.descending ? '↓' : '↑'}${sort.length > 1 ? sorted.place : nothing}</span
                  >${sorted.place > 1 ? html`<span class="spoken">, key ${sorted.place}, ${direction}</span>` : nothing}`
          }</span
        ><span class="edge" aria-hidden="true"></span>
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
      (index) => lineTemplate(view, index, ''),
    );
  const isSeen = current >= first && current < first + count;
  return html`
    ${list(seen.filter((index) => index < current))}
    ${
      current >= 0 && current < view.rowCount
        ? keyed(current, lineTemplate(view, current, isSeen ? 'current' : 'current pinned'))
        : nothing
    }
    ${list(seen.filter((index) => index > current))}
  `;
}

function lineTemplate(view: GridView, index: number, manner: string): TemplateResult {
  const line = view.row(index);
  const { cursor, range, columns, mark, grouped } = view;
  if (isGroup(line)) {
    return html`<div
      class="row group ${manner}"
      role="row"
      aria-rowindex=${index + 2}
      aria-level="1"
      aria-expanded=${!line.folded}
    >
      <div
        role="gridcell"
        class="group-line"
        tabindex=${cursor.row === index ? 0 : -1}
        aria-colindex="1"
        aria-colspan=${columns.length}
        aria-selected=${isInRange(range, index, cursor.column)}
      >
        ${groupTemplate(line, mark)}
      </div>
    </div>`;
  }
  return html`<div class="row ${manner}" role="row" aria-rowindex=${index + 2} aria-level=${grouped ? 2 : nothing}>
    ${columns.map((column, place) => {
      const original = line === undefined ? undefined : originalText(column.edit, line, mark);
      const { editor } = view.edits;
      const isEdited = editor?.line === index && editor.column === place;
      const isCurrent = cursor.row === index && cursor.column === place;
      return html`<div
        role="gridcell"
        id=${ifDefined(isCurrent ? 'current' : cursor.row === index && column.id === 'point' ? 'current-point' : undefined)}
        aria-labelledby=${ifDefined(isCurrent ? `heading-${column.id} current-point current` : undefined)}
        class="${original === undefined ? '' : 'changed'} ${isEdited ? 'editing' : ''}"
        title=${ifDefined(original === undefined ? undefined : `was ${original}`)}
        aria-readonly=${column.edit === undefined}
        data-column=${column.id}
        data-pin=${ifDefined(column.pinned ? place : undefined)}
        ?data-derived=${column.derived !== undefined}
        tabindex=${ifDefined(isEdited ? undefined : isCurrent ? 0 : -1)}
        aria-colindex=${place + 1}
        aria-selected=${isInRange(range, index, place)}
      >
        ${
          line === undefined
            ? html`<span class="waiting"></span>`
            : isEdited
              ? editorTemplate(editor, column.title, 2 * (index - view.visible.first) > view.visible.count, view.edits)
              : (column.cell?.(line, mark) ?? column.text(line, mark))
        }${original === undefined ? nothing : html`<span class="spoken">, was ${original}</span>`}
      </div>`;
    })}
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

/** The element of a cell, where it is drawn; a group's line is one cell under all columns. */
export function cellElement(root: ParentNode, { row, column }: CellPlace): HTMLElement | null {
  const line = root.querySelector(`[aria-rowindex="${row + 2}"]`);
  return line?.querySelector(`:scope > [aria-colindex="${column + 1}"], :scope > [aria-colspan]`) ?? null;
}

/** The column whose header stands over a place of the page, counted from the left edge in pixels. */
export function columnAt(root: ParentNode, x: number): number | undefined {
  const headers = [...root.querySelectorAll('[role=columnheader]')];
  const found = headers.findIndex((header) => {
    const { left, right } = header.getBoundingClientRect();
    return x >= left && x < right;
  });
  return found < 0 ? undefined : found;
}
