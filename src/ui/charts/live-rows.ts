import { css, html, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { layOutLiveRow, type LiveReadings } from '../../charts/live-row.ts';
import type { Tick } from '../../charts/places.ts';
import { shared } from '../styles/shared.styles.ts';
import { ChartElement, type ChartMark } from './chart-element.ts';
import { chartStyles } from './chart.styles.ts';

/** One point with its readings. */
export interface LiveLine extends Omit<ChartMark, 'name'>, LiveReadings {
  readonly title: string;
  readonly label: string;
  readonly tickText: (value: number) => string;
}

const STROKE = 9;
const PLOT = 2 * STROKE + 2;
const ROW = 50;
const NAME = 150;
const LABEL = 190;

/** Live readings of one point after another, each on its own scale, over the band. */
@customElement('bt-live-rows')
export class LiveRows extends ChartElement {
  static override styles = [
    shared,
    chartStyles,
    css`
      /* The whole row leads on, its scale too. */
      .scale {
        pointer-events: none;
      }

      .band {
        fill: var(--band);
      }

      .received {
        fill: none;
        stroke: var(--quiet);
        stroke-width: 1.25;
      }

      .returned {
        fill: none;
        stroke: var(--blue);
        stroke-width: 1.25;
      }

      @media (forced-colors: active) {
        .band {
          fill: Canvas;
          stroke: GrayText;
        }
      }
    `,
  ];

  @property({ attribute: false }) lines: readonly LiveLine[] = [];

  protected get marks(): readonly ChartMark[] {
    return this.lines.map((line) => ({ ...line, name: `${line.title}: ${line.label}` }));
  }

  protected get leastWidth(): number {
    return NAME + LABEL + 140;
  }

  private renderLine(line: LiveLine, at: number, width: number) {
    const row = layOutLiveRow(line, { width, stroke: STROKE });
    const target = { x: 1 - NAME, y: -6, width: this.width - 2, height: ROW - 4 };
    const drawn = svg`<text class="name" x="-12" y=${PLOT / 2}>${line.title}</text>
      ${row?.band === undefined ? nothing : svg`<rect class="band" x=${row.band.from} y="-2" width=${row.band.to - row.band.from} height=${PLOT + 4} />`}
      ${row === undefined ? nothing : svg`<path class="received" d=${row.received} /><path class="returned" d=${row.returned} />`}
      <text class="label" x=${width + 12} y=${PLOT / 2}>${line.label}</text>`;
    return svg`<g transform="translate(${NAME} ${8 + at * ROW})">
      ${this.renderMark(at, target, drawn)}
      ${row === undefined ? nothing : this.renderScale(row.ticks, line, width)}
    </g>`;
  }

  private renderScale(ticks: readonly Tick[], { tickText }: LiveLine, width: number) {
    return svg`<g class="scale" aria-hidden="true" transform="translate(0 ${PLOT + 2})">
      <path class="axis" d="M0 0H${width}" />
      ${ticks.map(
        ({ value, place }) => svg`<path class="axis" d="M${place} 0v4" />
          <text class="tick" x=${place} y="12">${tickText(value)}</text>`,
      )}
    </g>`;
  }

  override render() {
    const width = this.width - NAME - LABEL;
    return html`<ul class="legend">
        <li>
          <svg viewBox="0 0 28 16" aria-hidden="true">${svg`<path class="received" d="M8 0v8M14 0v8M20 0v8" />`}</svg>
          above: as received
        </li>
        <li>
          <svg viewBox="0 0 28 16" aria-hidden="true">${svg`<path class="returned" d="M8 7v8M14 7v8M20 7v8" />`}</svg>
          below: as it went back
        </li>
        <li>
          <svg viewBox="0 0 28 16" aria-hidden="true">
            ${svg`<rect class="band" x="2" y="2" width="24" height="12" />`}
          </svg>
          band
        </li>
      </ul>
      ${this.renderPlot(
        8 + this.lines.length * ROW,
        this.lines.map((line, at) => this.renderLine(line, at, width)),
      )}`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-live-rows': LiveRows;
  }
}
