import { css, html, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { layOutIntervals, type Interval, type IntervalMark, type IntervalRow } from '../../charts/intervals.ts';
import { shared } from '../styles/shared.styles.ts';
import { bottomScale, ChartElement, diamondAt, type ChartMark } from './chart-element.ts';
import { chartStyles } from './chart.styles.ts';

/** A row: its name, its estimate in each series, and what is written at its end. */
export interface IntervalLine extends Omit<ChartMark, 'name'> {
  readonly title: string;
  readonly label: string;
  readonly series: readonly (Interval | undefined)[];
}

const ROW = 28;
const AXIS_ROOM = 26;

/** Estimates with their intervals on one scale, a row for each; the second series is a diamond on a dashed line. */
@customElement('bt-interval-rows')
export class IntervalRows extends ChartElement {
  static override styles = [
    shared,
    chartStyles,
    css`
      .dot {
        fill: var(--blue);
        stroke: var(--blue);
      }

      .whisker.second {
        stroke: var(--quiet);
        stroke-dasharray: 3 2;
      }
    `,
  ];

  @property({ attribute: false }) lines: readonly IntervalLine[] = [];
  /** Names of the series, where there are two. */
  @property({ attribute: false }) names: readonly string[] = [];
  /** The scale's ends; what lies beyond widens it. */
  @property({ attribute: false }) domain: readonly [number, number] = [0, 1];
  @property({ attribute: false }) tickText: (value: number) => string = String;
  /** Room for the rows' names and for the labels at their ends, in pixels. */
  @property({ attribute: false }) nameRoom = 64;
  @property({ attribute: false }) labelRoom = 150;

  protected get marks(): readonly ChartMark[] {
    return this.lines.map((line) => ({ ...line, name: `${line.title}: ${line.label}` }));
  }

  private renderSeries(mark: IntervalMark | undefined, series: number) {
    if (mark === undefined) return nothing;
    const { from, to, middle, y } = mark;
    return svg`<path class=${series === 0 ? 'whisker' : 'whisker second'} d="M${from} ${y - 4}v8M${from} ${y}H${to}M${to} ${y - 4}v8" />
      ${series === 0 ? svg`<circle class="dot" cx=${middle} cy=${y} r="4" />` : svg`<path class="diamond" d=${diamondAt(middle, y, 4.5)} />`}`;
  }

  private renderRow({ y, marks }: IntervalRow, at: number) {
    const line = this.lines[at];
    if (line === undefined) return nothing;
    const end = this.scale + 12;
    const target = { x: 1 - this.nameRoom, y: y - ROW / 2 + 1, width: this.width - 2, height: ROW - 2 };
    return this.renderMark(
      at,
      target,
      svg`<text class="name" x="-10" y=${y}>${line.title}</text>
        ${marks.map((mark, series) => this.renderSeries(mark, series))}
        <text class="label" x=${end} y=${y}>${line.label}</text>`,
    );
  }

  protected get leastWidth(): number {
    return this.nameRoom + this.labelRoom + 100;
  }

  private get scale(): number {
    return this.width - this.nameRoom - this.labelRoom;
  }

  override render() {
    const { rows, ticks, height, zero } = layOutIntervals(
      this.lines.map(({ series }) => series),
      { width: this.scale, rowHeight: ROW, domain: this.domain },
    );
    const [first, second] = this.names;
    const legend =
      second === undefined
        ? nothing
        : html`<ul class="legend">
            <li>
              <svg viewBox="0 0 28 16" aria-hidden="true">
                ${this.renderSeries({ from: 2, to: 26, middle: 14, y: 8 }, 0)}
              </svg>
              ${first}
            </li>
            <li>
              <svg viewBox="0 0 28 16" aria-hidden="true">
                ${this.renderSeries({ from: 2, to: 26, middle: 14, y: 8 }, 1)}
              </svg>
              ${second}
            </li>
          </ul>`;
    return html`${legend}
    ${this.renderPlot(
      height + AXIS_ROOM,
      svg`<g transform="translate(${this.nameRoom} 0)">
        ${bottomScale(ticks, height, this.tickText)}
        ${zero === undefined ? nothing : svg`<path class="base" d="M${zero} 0V${height + 4}" />`}
        ${rows.map((row, at) => this.renderRow(row, at))}
      </g>`,
    )}`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-interval-rows': IntervalRows;
  }
}
