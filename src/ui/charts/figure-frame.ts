import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { saveFile } from '../save-file.ts';
import { shared } from '../styles/shared.styles.ts';
import { ChartElement } from './chart-element.ts';
import { csvText, type FigureCell, type FigureTable } from './figure-table.ts';
import { saveSvg } from './save-svg.ts';

/**
 * A figure: the question that it answers, a sentence on what is drawn and of how many, the chart, its numbers as a
 * table, and both to save.
 * @slot choices - what narrows the figure, above it
 * @slot - the chart, and what is said of it
 * @slot words - what follows from it, below
 */
@customElement('bt-figure-frame')
export class FigureFrame extends LitElement {
  static override styles = [
    shared,
    css`
      section {
        container-type: inline-size;
        padding-block: 1.25rem 1.5rem;
        border-top: 1px solid var(--rule);
      }

      h2:focus {
        outline: none;
      }

      .beside {
        display: grid;
        gap: 0.5rem 3rem;
        align-items: start;
      }

      @container (inline-size >= 60rem) {
        .beside:has(> :nth-child(2)) {
          grid-template-columns: minmax(0, 9fr) minmax(0, 11fr);
        }
      }

      @container (inline-size >= 100rem) {
        .beside :is(th, td):not(:last-child) {
          padding-inline-end: 1rem;
        }
      }

      .beside > * {
        min-inline-size: 0;
      }

      .actions {
        display: flex;
        flex-wrap: wrap;
        gap: 0.25rem 1.5rem;
      }

      summary {
        min-block-size: 1.75rem;
        color: var(--blue);
        cursor: pointer;
      }

      table {
        inline-size: auto;
        font-size: 0.9375rem;
      }

      th,
      td {
        padding: 0.1875rem 0.5rem 0.1875rem 0;
      }

      /* A table of few columns has the room to set them apart. */
      table:not(:has(th:nth-child(9))) .number {
        padding-inline-start: 0.75rem;
      }

      caption {
        white-space: nowrap;
      }

      thead :is(th, .number) {
        min-inline-size: 2rem;
        max-inline-size: 5.5rem;
        vertical-align: bottom;
        white-space: normal;
      }

      :is(th, td):last-child:not(.number) {
        inline-size: auto;
      }

      @media print {
        .beside {
          display: block;
        }

        h2,
        section > p,
        caption {
          break-after: avoid;
        }

        section > p,
        ::slotted(*),
        tr {
          break-inside: avoid;
        }

        .sideways {
          overflow: visible;
        }

        .actions,
        details:not([open]) {
          display: none;
        }
      }
    `,
  ];

  @query('slot:not([name])') private readonly body!: HTMLSlotElement | null;

  /** Whether a folded table has been unfolded: before, none of its many rows is made. */
  @state() private unfolded = false;

  @property({ attribute: false }) question = '';
  @property({ attribute: false }) sentence: unknown = '';
  /** What is said in place of a chart, where there is too little to draw. */
  @property({ attribute: false }) instead: unknown = undefined;
  /** Whether there is a chart, or the table is all. */
  @property({ attribute: false }) charted = true;
  @property({ attribute: false }) table: FigureTable | undefined;
  /** Whether the table stands folded below, being long. */
  @property({ attribute: false }) folded = false;
  /** Name of the files. */
  @property({ attribute: false }) file = '';

  /** Goes to this figure, as to a heading. */
  reach(): void {
    const heading = this.renderRoot.querySelector('h2');
    heading?.focus({ preventScroll: true });
    this.scrollIntoView({ block: 'start' });
  }

  private unfold(): void {
    this.unfolded = true;
  }

  private saveDrawing(): void {
    const chart = this.body?.assignedElements().find((element) => element instanceof ChartElement);
    if (chart instanceof ChartElement && chart.drawing !== null)
      saveSvg(chart.drawing, `${this.file} ${this.question}`);
  }

  private saveTable(): void {
    const name = `${this.file} ${this.question}`.replaceAll(/[^\p{L}\p{N} .-]/gu, '').trim();
    if (this.table !== undefined) saveFile(new Blob([csvText(this.table)], { type: 'text/csv' }), `${name}.csv`);
  }

  private renderCell(cell: string | FigureCell, column: number, isNumber: boolean) {
    const { text, href } = typeof cell === 'string' ? { text: cell, href: undefined } : cell;
    const content = href === undefined ? text : html`<a href=${href}>${text}</a>`;
    if (column === 0) return html`<th scope="row">${content}</th>`;
    return html`<td class=${isNumber ? 'number' : 'wraps'}>${content}</td>`;
  }

  private renderTable({ caption, columns, rows }: FigureTable) {
    return html`<div class="sideways" tabindex="0" role="region" aria-label="Numbers of ${this.file}: ${this.question}">
      <table>
        <caption>
          ${caption}
        </caption>
        <thead>
          <tr>
            ${columns.map(({ title, number }) => html`<th scope="col" class=${number === true ? 'number' : ''}>${title}</th>`)}
          </tr>
        </thead>
        <tbody>
          ${rows.map(
            (row) =>
              html`<tr>
                ${row.map((cell, column) => this.renderCell(cell, column, columns[column]?.number === true))}
              </tr>`,
          )}
        </tbody>
      </table>
    </div>`;
  }

  private renderActions() {
    return html`<div class="actions">
      ${
        this.charted && this.instead === undefined
          ? html`<button class="plain" type="button" @click=${this.saveDrawing}>Save as SVG</button>`
          : nothing
      }
      ${
        this.table === undefined
          ? nothing
          : html`<button class="plain" type="button" @click=${this.saveTable}>Save as CSV</button>`
      }
    </div>`;
  }

  override render() {
    const { table, folded, instead } = this;
    const charted = this.charted && instead === undefined;
    const hasNumbers = table !== undefined && table.rows.length > 0;
    return html`<section>
      <h2 id="question" tabindex="-1">${this.question}</h2>
      ${instead === undefined ? html`<p>${this.sentence}</p>` : nothing}
      <slot name="choices"></slot>
      ${instead === undefined ? nothing : html`<p>${instead}</p>`}
      <div class=${folded ? 'folded' : 'beside'}>
        ${charted ? html`<div><slot></slot>${this.renderActions()}</div>` : nothing}
        ${
          !hasNumbers
            ? nothing
            : folded
              ? html`<details @toggle=${this.unfold}>
                  <summary>The numbers as a table</summary>
                  ${this.unfolded ? this.renderTable(table) : nothing}
                </details>`
              : html`<div>${this.renderTable(table)}${charted ? nothing : this.renderActions()}</div>`
        }
      </div>
      <slot name="words"></slot>
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-figure-frame': FigureFrame;
  }
}
