import { html, nothing } from 'lit';
import type { DecimalMark } from '../../domain/quantity.ts';
import { countOf } from '../words.ts';

/** A column of a printed table; what it holds is a short text unless it says otherwise. */
export interface SheetColumn {
  readonly title: string;
  readonly holds?: 'number' | 'wraps';
}

/** A printed table under the heading `id`; the first cell of each row names it. */
export function sheetTable(id: string, columns: readonly SheetColumn[], rows: readonly (readonly string[])[]) {
  return html`<table aria-labelledby=${id}>
    <thead>
      <tr>
        ${columns.map(({ title, holds = '' }) => html`<th scope="col" class=${holds}>${title}</th>`)}
      </tr>
    </thead>
    <tbody>
      ${rows.map(
        ([first, ...cells]) =>
          html`<tr>
            <th scope="row">${first}</th>
            ${cells.map((cell, at) => html`<td class=${columns[at + 1]?.holds ?? ''}>${cell}</td>`)}
          </tr>`,
      )}
    </tbody>
  </table>`;
}

/** Columns of numbers. */
export function numberColumns(...titles: readonly string[]): readonly SheetColumn[] {
  return titles.map((title) => ({ title, holds: 'number' }));
}

/** What a table that shows its head alone leaves out. */
export function leftOut(count: number, noun: string, mark: DecimalMark) {
  return count === 0 ? nothing : html`<p class="quiet">And ${countOf(count, `more ${noun}`, mark)} on the page.</p>`;
}
