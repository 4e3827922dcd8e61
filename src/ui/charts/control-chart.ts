import { css, html, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { layOutControlChart, type ControlPoint } from '../../charts/control-chart.ts';
import { shared } from '../styles/shared.styles.ts';
import { dayText } from '../words.ts';
import { bottomScale, ChartElement, diamondAt, leftScale, type ChartMark } from './chart-element.ts';
import { chartStyles } from './chart.styles.ts';
import { percentText } from './share-text.ts';

const LEFT = 52;
const RIGHT = 76;
const HEIGHT = 180;
const BELOW = 26;
const TOP = 10;

/** Shares of one sample after another between their control limits; those outside are framed diamonds. */
@customElement('bt-control-chart')
export class ControlChart extends ChartElement {
  static override styles = [
    shared,
    chartStyles,
    css`
      .line {
        fill: none;
        stroke: var(--blue);
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

      .dot {
        fill: var(--blue);
      }

      .outside {
        fill: var(--wrong);
        stroke: var(--paper);
      }
    `,
  ];

  @property({ attribute: false }) samples: readonly (ControlPoint & ChartMark)[] = [];
  /** The share over all samples. */
  @property({ attribute: false }) centre = 0;
  /** Time of the first sample after a change. */
  @property({ attribute: false }) change: number | undefined;

  protected get marks(): readonly ChartMark[] {
    return this.samples;
  }

  protected get leastWidth(): number {
    return LEFT + RIGHT + 150;
  }

  override render() {
    const width = this.width - LEFT - RIGHT;
    const layout = layOutControlChart(this.samples, this.centre, this.change, { width, height: HEIGHT });
    const target = { y: 0, width: layout.step, height: HEIGHT };
    return html`${this.renderPlot(
      TOP + HEIGHT + BELOW,
      svg`<g transform="translate(${LEFT} ${TOP})">
        ${leftScale(layout.up, width, (share) => percentText(share, this.decimalMark))}
        ${bottomScale(layout.across, HEIGHT, dayText)}
        <path class="limit" d=${layout.upper} />
        <path class="limit" d=${layout.lower} />
        <path class="centre" d="M0 ${layout.centre}H${width}" />
        <text class="label" x=${width + 6} y=${layout.centre}>all weeks</text>
        ${layout.change === undefined ? nothing : svg`<path class="change" d="M${layout.change} 0V${HEIGHT}" /><text class="label" x=${layout.change + 5} y="8">change</text>`}
        <path class="line" d=${layout.line} />
        ${layout.points.map(({ x, y, outside }, at) =>
          this.renderMark(
            at,
            { ...target, x: x - layout.step / 2 },
            outside
              ? svg`<path class="outside" d=${diamondAt(x, y, 7)} />`
              : svg`<circle class="dot" cx=${x} cy=${y} r="4" />`,
          ),
        )}
      </g>`,
    )}`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-control-chart': ControlChart;
  }
}
