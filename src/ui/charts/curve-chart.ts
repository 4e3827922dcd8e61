import { css, html, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { layOutCurve, type CurvePoint } from '../../charts/curve.ts';
import { shared } from '../styles/shared.styles.ts';
import { bottomScale, ChartElement, diamondAt, leftScale, type ChartMark } from './chart-element.ts';
import { chartStyles } from './chart.styles.ts';
import { percentText } from './share-text.ts';

/** A point of a curve, and whether it is the one that was asked for. */
export interface CurveLine extends CurvePoint, ChartMark {
  readonly label?: string;
  readonly chosen?: boolean;
}

const LEFT = 52;
const RIGHT = 24;
const HEIGHT = 170;
const BELOW = 42;
const TOP = 14;

/** A share that grows with cost, from zero up to all. */
@customElement('bt-curve-chart')
export class CurveChart extends ChartElement {
  static override styles = [
    shared,
    chartStyles,
    css`
      .line {
        fill: none;
        stroke: var(--blue);
        stroke-width: 2;
      }

      .dot {
        fill: var(--blue);
      }

      .chosen {
        fill: var(--paper);
        stroke: var(--ink);
        stroke-width: 2;
      }
    `,
  ];

  @property({ attribute: false }) points: readonly CurveLine[] = [];
  /** Where the curve begins: at nothing for no cost, or at its first point. */
  @property({ attribute: false }) from: 'zero' | 'first' = 'zero';
  /** What the cost is, with its unit. */
  @property({ attribute: false }) across = '';
  @property({ attribute: false }) tickText: (value: number) => string = String;

  protected get marks(): readonly ChartMark[] {
    return this.points;
  }

  protected get leastWidth(): number {
    return LEFT + RIGHT + 150;
  }

  override render() {
    const width = this.width - LEFT - RIGHT;
    const layout = layOutCurve(this.points, { width, height: HEIGHT }, this.from);
    return html`${this.renderPlot(
      TOP + HEIGHT + BELOW,
      svg`<g transform="translate(${LEFT} ${TOP})">
        ${leftScale(layout.up, width, (share) => percentText(share, this.decimalMark))}
        ${bottomScale(layout.across, HEIGHT, this.tickText)}
        <text class="title end" x=${width} y=${HEIGHT + 33} aria-hidden="true">${this.across}</text>
        <path class="line" d=${layout.line} />
        ${layout.points.map(({ x, y }, at) => {
          const point = this.points[at];
          const roomLeft = x - (layout.points[at - 1]?.x ?? -Infinity);
          return this.renderMark(
            at,
            { x: x - 12, y: y - 12, width: 24, height: 24 },
            svg`${
              point?.chosen === true
                ? svg`<path class="chosen" d=${diamondAt(x, y, 7)} />`
                : svg`<circle class="dot" cx=${x} cy=${y} r="4" />`
            }${
              point?.label !== undefined && roomLeft > 26
                ? svg`<text class="label end" x=${x - 8} y=${y - 9}>${point.label}</text>`
                : svg``
            }`,
          );
        })}
      </g>`,
    )}`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-curve-chart': CurveChart;
  }
}
