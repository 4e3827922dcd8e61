import { css, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { layOutCurve, type CurvePoint } from '../../charts/curve.ts';
import { diamondAt, type ChartMark } from './chart-element.ts';
import { ScaledChart } from './scaled-chart.ts';

/** A point of a curve, and whether it is the one that was asked for. */
export interface CurveLine extends CurvePoint, ChartMark {
  readonly label?: string;
  readonly chosen?: boolean;
}

/** A share that grows with cost, from zero up to all. */
@customElement('bt-curve-chart')
export class CurveChart extends ScaledChart {
  static override styles = [
    ...ScaledChart.styles,
    css`
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

  protected override readonly roomRight = 24;

  protected get marks(): readonly ChartMark[] {
    return this.points;
  }

  override render() {
    const layout = layOutCurve(this.points, this.size, this.from);
    return this.renderScaled(
      layout,
      this.tickText,
      svg`<path class="line" d=${layout.line} />
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
        })}`,
      this.across,
    );
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-curve-chart': CurveChart;
  }
}
