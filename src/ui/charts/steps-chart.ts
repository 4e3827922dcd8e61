import { css, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { layOutSteps, type Step, type StepsCurve } from '../../charts/steps.ts';
import { countText } from '../words.ts';
import type { ChartMark } from './chart-element.ts';
import { ScaledChart } from './scaled-chart.ts';

/** A curve: its name, and its steps with what they tell. */
export interface StepsLine {
  readonly name: string;
  readonly steps: readonly (Step & ChartMark)[];
}

/** Names of curves whose ends are nearer than this make way for each other, in pixels. */
const NEAR = 18;

/** Shares that grow by steps over days; the first curve with its limits, the second dashed. */
@customElement('bt-steps-chart')
export class StepsChart extends ScaledChart {
  static override styles = [
    ...ScaledChart.styles,
    css`
      .line.second {
        stroke: var(--quiet);
        stroke-dasharray: 5 3;
      }

      .area {
        fill: var(--band);
        opacity: 0.6;
      }

      .dot.second {
        fill: var(--paper);
        stroke: var(--quiet);
        stroke-width: 1.5;
      }

      @media (forced-colors: active) {
        .area {
          fill: Canvas;
          stroke: GrayText;
          opacity: 1;
        }

        .dot.second {
          fill: Canvas;
        }
      }
    `,
  ];

  @property({ attribute: false }) lines: readonly StepsLine[] = [];
  /** What is counted across, with its unit. */
  @property({ attribute: false }) across = 'days';

  protected override readonly roomRight = 150;

  protected get marks(): readonly ChartMark[] {
    return this.lines.flatMap(({ steps }) => steps);
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
    const near = others
      .map((other) => other.points.at(-1))
      .find((other) => other !== undefined && other !== end && Math.abs(other.y - end.y) < NEAR);
    const isUpper = near !== undefined && (end.y < near.y || (end.y === near.y && line === 0));
    const shift = near === undefined ? 0 : isUpper ? -NEAR / 2 : NEAR / 2;
    return svg`<text class="label" x=${Math.min(end.x, this.size.width) + 10} y=${end.y + shift}>${this.lines[line]?.name}</text>`;
  }

  override render() {
    const layout = layOutSteps(
      this.lines.map(({ steps }) => steps),
      this.size,
    );
    const area = layout.curves[0]?.area ?? '';
    return this.renderScaled(
      layout,
      (days) => countText(days, this.decimalMark),
      svg`${area === '' ? nothing : svg`<path class="area" d=${area} />`}
        ${layout.curves.map(({ line }, at) => svg`<path class=${at === 0 ? 'line' : 'line second'} d=${line} />`)}
        ${layout.curves.map((curve, at) => this.renderName(curve, at, layout.curves))}
        ${layout.curves.map((curve, at) => this.renderCurve(curve, at))}`,
      this.across,
    );
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-steps-chart': StepsChart;
  }
}
