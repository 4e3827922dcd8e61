import { css, html, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { layOutSteps, type Step, type StepsCurve } from '../../charts/steps.ts';
import { shared } from '../styles/shared.styles.ts';
import { countText } from '../words.ts';
import { bottomScale, ChartElement, leftScale, type ChartMark } from './chart-element.ts';
import { chartStyles } from './chart.styles.ts';
import { percentText } from './share-text.ts';

/** A curve: its name, and its steps with what they tell. */
export interface StepsLine {
  readonly name: string;
  readonly steps: readonly (Step & ChartMark)[];
}

const LEFT = 52;
const RIGHT = 150;
const HEIGHT = 190;
const BELOW = 42;
const TOP = 10;

/** Shares that grow by steps over days; the first curve with its limits, the second dashed. */
@customElement('bt-steps-chart')
export class StepsChart extends ChartElement {
  static override styles = [
    shared,
    chartStyles,
    css`
      .line {
        fill: none;
        stroke: var(--blue);
        stroke-width: 2;
      }

      .line.second {
        stroke: var(--quiet);
        stroke-dasharray: 5 3;
      }

      .area {
        fill: var(--band);
        opacity: 0.6;
      }

      .dot {
        fill: var(--blue);
      }

      .dot.second {
        fill: var(--paper);
        stroke: var(--quiet);
        stroke-width: 1.5;
      }
    `,
  ];

  @property({ attribute: false }) lines: readonly StepsLine[] = [];
  /** What is counted across, with its unit. */
  @property({ attribute: false }) across = 'days';

  protected get marks(): readonly ChartMark[] {
    return this.lines.flatMap(({ steps }) => steps);
  }

  protected get leastWidth(): number {
    return LEFT + RIGHT + 120;
  }

  private get plotWidth(): number {
    return this.width - LEFT - RIGHT;
  }

  private renderCurve({ points }: StepsCurve, line: number) {
    const before = this.lines.slice(0, line).reduce((sum, { steps }) => sum + steps.length, 0);
    return points.map(({ x, y }, at) =>
      this.renderMark(
        before + at,
        { x: x - 12, y: y - 12, width: 24, height: 24 },
        svg`<circle class=${line === 0 ? 'dot' : 'dot second'} cx=${x} cy=${y} r="4" />`,
      ),
    );
  }

  private renderName({ points }: StepsCurve, line: number, others: readonly StepsCurve[]) {
    const end = points.at(-1);
    if (end === undefined) return nothing;
    // Names that would stand on each other make way, the higher one upwards.
    const near = others.some(
      (other) => other.points.at(-1) !== end && Math.abs((other.points.at(-1)?.y ?? Infinity) - end.y) < 18,
    );
    const shift = near ? (line === 0 ? -9 : 9) : 0;
    return svg`<text class="label" x=${Math.min(end.x, this.plotWidth) + 10} y=${end.y + shift}>${this.lines[line]?.name}</text>`;
  }

  override render() {
    const size = { width: this.plotWidth, height: HEIGHT };
    const layout = layOutSteps(
      this.lines.map(({ steps }) => steps),
      size,
    );
    return html`${this.renderPlot(
      TOP + HEIGHT + BELOW,
      svg`<g transform="translate(${LEFT} ${TOP})">
        ${leftScale(layout.up, size.width, (share) => percentText(share, this.decimalMark))}
        ${bottomScale(layout.across, HEIGHT, (days) => countText(days, this.decimalMark))}
        <text class="title end" x=${size.width} y=${HEIGHT + 33} aria-hidden="true">${this.across}</text>
        ${layout.curves[0]?.area === '' || layout.curves[0] === undefined ? nothing : svg`<path class="area" d=${layout.curves[0].area} />`}
        ${layout.curves.map(({ line }, at) => svg`<path class=${at === 0 ? 'line' : 'line second'} d=${line} />`)}
        ${layout.curves.map((curve, at) => this.renderName(curve, at, layout.curves))}
        ${layout.curves.map((curve, at) => this.renderCurve(curve, at))}
      </g>`,
    )}`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-steps-chart': StepsChart;
  }
}
