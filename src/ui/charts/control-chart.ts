import { css, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { layOutControlChart, type ControlPoint } from '../../charts/control-chart.ts';
import { dayText } from '../words.ts';
import { diamondAt, type ChartMark } from './chart-element.ts';
import { ScaledChart } from './scaled-chart.ts';

/** Shares of one sample after another between their control limits; those outside are framed diamonds. */
@customElement('bt-control-chart')
export class ControlChart extends ScaledChart {
  static override styles = [
    ...ScaledChart.styles,
    css`
      .line {
        stroke-width: 1.5;
      }

      .limit {
        fill: none;
        stroke: var(--quiet);
        stroke-dasharray: 5 3;
      }

      .centre {
        fill: none;
        stroke: var(--quiet);
      }

      .change {
        fill: none;
        stroke: var(--ink);
        stroke-dasharray: 2 3;
      }

      .outside {
        fill: var(--wrong);
        stroke: var(--paper);
      }

      @media (forced-colors: active) {
        .outside {
          stroke: Canvas;
        }
      }
    `,
  ];

  @property({ attribute: false }) samples: readonly (ControlPoint & ChartMark)[] = [];
  /** The share over all samples. */
  @property({ attribute: false }) centre = 0;
  /** Time of the first sample after a change. */
  @property({ attribute: false }) change: number | undefined;

  protected override readonly roomRight = 76;

  protected get marks(): readonly ChartMark[] {
    return this.samples;
  }

  override render() {
    const { width, height } = this.size;
    const layout = layOutControlChart(this.samples, this.centre, this.change, { width, height });
    const target = { y: 0, width: layout.step, height };
    return this.renderScaled(
      layout,
      dayText,
      svg`<path class="limit" d=${layout.upper} />
        <path class="limit" d=${layout.lower} />
        <path class="centre" d="M0 ${layout.centre}H${width}" />
        <text class="label" x=${width + 6} y=${layout.centre}>all weeks</text>
        ${layout.change === undefined ? nothing : svg`<path class="change" d="M${layout.change} 0V${height}" /><text class="label" x=${layout.change + 5} y="8">change</text>`}
        <path class="line" d=${layout.line} />
        ${layout.points.map(({ x, y, outside }, at) =>
          this.renderMark(
            at,
            { ...target, x: x - layout.step / 2 },
            outside
              ? svg`<path class="outside" d=${diamondAt(x, y, 7)} />`
              : svg`<circle class="dot" cx=${x} cy=${y} r="4" />`,
          ),
        )}`,
    );
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-control-chart': ControlChart;
  }
}
