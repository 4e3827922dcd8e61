import { css, html, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { layOutMatrix, type MatrixCell } from '../../charts/matrix.ts';
import { shared } from '../styles/shared.styles.ts';
import { countText } from '../words.ts';
import { ChartElement, type ChartMark } from './chart-element.ts';
import { chartStyles } from './chart.styles.ts';

/** What one cell of a matrix says. */
export interface MatrixEntry extends ChartMark {
  readonly count: number;
  /** Whether it stands out, and so has a frame. */
  readonly framed?: boolean;
}

const HEAD = 24;

/** What a row's name needs between it and the cells, and for a letter, in pixels: a saved drawing may be shown in a wider typeface than ours. */
const NAME_GAP = 10;
const LETTER = 8.5;

/** Counts in rows and columns, the darker the more, each with its number. */
@customElement('bt-matrix-chart')
export class MatrixChart extends ChartElement {
  static override styles = [
    shared,
    chartStyles,
    css`
      .cell {
        fill: var(--blue);
      }

      text.count {
        text-anchor: middle;
        font-variant-numeric: tabular-nums;
      }

      text.none {
        fill: var(--quiet);
      }

      text.head {
        font-weight: 600;
        text-anchor: middle;
      }

      .frame {
        fill: none;
        stroke: var(--ink);
        stroke-width: 2;
      }

      @media (forced-colors: active) {
        .cell {
          fill: Canvas;
        }

        .frame {
          stroke: CanvasText;
        }
      }
    `,
  ];

  @property({ attribute: false }) rows: readonly string[] = [];
  @property({ attribute: false }) columns: readonly string[] = [];
  /** Row by row; undefined where there is no cell. */
  @property({ attribute: false }) entries: readonly (readonly (MatrixEntry | undefined)[])[] = [];
  /** Room for the rows' names, in pixels. */
  @property({ attribute: false }) nameRoom = 64;

  protected get marks(): readonly ChartMark[] {
    return this.entries.flat().filter((entry) => entry !== undefined);
  }

  protected get leastWidth(): number {
    return this.nameRoom + layOutMatrix(this.counts, 0).width;
  }

  private get counts() {
    return this.entries.map((row) => row.map((entry) => entry?.count));
  }

  protected override strideOf(): number {
    return this.columns.length;
  }

  /** A name as its room has place for: its beginning tells more than its end. */
  private shownName(name: string): string {
    const most = Math.floor((this.nameRoom - NAME_GAP) / LETTER);
    return name.length <= most ? name : `${name.slice(0, most - 1).trimEnd()}…`;
  }

  private renderCell({ row, column, count, x, y, strength }: MatrixCell, at: number, width: number, height: number) {
    const entry = this.entries[row]?.[column];
    return this.renderMark(
      at,
      { x: x + 1, y: y + 1, width: width - 2, height: height - 2 },
      svg`${
        count === 0
          ? nothing
          : svg`<rect class="cell" x=${x + 1} y=${y + 1} width=${width - 2} height=${height - 2} fill-opacity=${0.06 + 0.4 * strength} />`
      }
      ${entry?.framed === true ? svg`<rect class="frame" x=${x + 2} y=${y + 2} width=${width - 4} height=${height - 4} />` : nothing}
      <text class=${count === 0 ? 'count none' : 'count'} x=${x + width / 2} y=${y + height / 2}>${count === 0 ? '·' : countText(count, this.decimalMark)}</text>`,
    );
  }

  override render() {
    const { cells, cellWidth, cellHeight, width, height } = layOutMatrix(this.counts, this.width - this.nameRoom);
    return html`${this.renderPlot(
      HEAD + height + 2,
      svg`<g transform="translate(${this.nameRoom} ${HEAD})">
        <g aria-hidden="true">
          ${this.columns.map((name, at) => svg`<text class="head" x=${(at + 0.5) * cellWidth} y=${-HEAD / 2}>${name}</text>`)}
          ${this.rows.map(
            (
              name,
              at,
            ) => svg`<text class="name" x=${-NAME_GAP} y=${(at + 0.5) * cellHeight}><title>${name}</title>${this.shownName(name)}</text>
            <path class="axis" d="M0 ${at * cellHeight}H${width}" />`,
          )}
        </g>
        ${cells.map((cell, at) => this.renderCell(cell, at, cellWidth, cellHeight))}
      </g>`,
    )}`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-matrix-chart': MatrixChart;
  }
}
