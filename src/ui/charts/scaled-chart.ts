import { css, nothing, svg, type TemplateResult } from 'lit';
import type { Tick } from '../../charts/places.ts';
import { shared } from '../styles/shared.styles.ts';
import { bottomScale, ChartElement, leftScale } from './chart-element.ts';
import { chartStyles } from './chart.styles.ts';
import { percentText } from './share-text.ts';

/** Room left of a plot for its scale, above it, below it, and below it with a title, in pixels. */
const LEFT = 52;
const TOP = 14;
const BELOW = 26;
const BELOW_TITLED = 42;
const HEIGHT = 180;
/** The narrowest plot. */
const NARROWEST = 130;

/** What charts of shares share: a scale of shares on the left, one of something else below, and a line. */
export abstract class ScaledChart extends ChartElement {
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
    `,
  ];

  /** Room right of the plot, for what is written there, in pixels. */
  protected abstract readonly roomRight: number;

  protected get leastWidth(): number {
    return LEFT + this.roomRight + NARROWEST;
  }

  /** Size of the plot between its scales, in pixels. */
  protected get size(): { readonly width: number; readonly height: number } {
    return { width: this.width - LEFT - this.roomRight, height: HEIGHT };
  }

  /**
   * What is drawn, between its scales.
   * @param title - what is counted across, with its unit
   */
  protected renderScaled(
    { up, across }: { readonly up: readonly Tick[]; readonly across: readonly Tick[] },
    acrossText: (value: number) => string,
    drawn: unknown,
    title?: string,
  ): TemplateResult {
    const { width, height } = this.size;
    return this.renderPlot(
      TOP + height + (title === undefined ? BELOW : BELOW_TITLED),
      svg`<g transform="translate(${LEFT} ${TOP})">
        ${leftScale(up, width, (share) => percentText(share, this.decimalMark))}
        ${bottomScale(across, height, acrossText)}
        ${title === undefined ? nothing : svg`<text class="title end" x=${width} y=${height + 33} aria-hidden="true">${title}</text>`}
        ${drawn}
      </g>`,
    );
  }
}
