import { html, nothing, svg, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { layOutBars, orderParts, type Bar, type PartCounts, type SegmentKind } from '../../charts/bars.ts';
import { shared } from '../styles/shared.styles.ts';
import { countText } from '../words.ts';
import { bottomScale, ChartElement, diamondAt, type ChartMark } from './chart-element.ts';
import { chartStyles } from './chart.styles.ts';
import { failureBarsStyles } from './failure-bars.styles.ts';
import { barLabel, barSentence, kindsIn } from './failure-text.ts';

/** One part's counts, and where its readings are. */
export interface FailureBar extends PartCounts {
  /** Repairs in which it is only suspected. */
  readonly suspected: number;
  /** Repairs in which it is told whether it had failed. */
  readonly read: number;
  readonly href?: string | undefined;
  /** The repairs in which it is proved failed. */
  readonly failedIn?: string;
}

/** Places in pixels: room for the parts' names, for the labels at the bars' ends, for a bar's row, and for the axis. */
const NAME_ROOM = 56;
const LABEL_ROOM = 216;
const ROW = 28;
const AXIS_ROOM = 26;
const BAR = 16;

const MEANINGS: Readonly<Record<SegmentKind, string>> = {
  shorted: 'shorted',
  leaky: 'leaky',
  open: 'open',
  failed: 'failed otherwise',
  inferred: 'expected where it was not read',
};

/** How often parts of a family fail, as bars with counts, beside how often they were replaced. */
@customElement('bt-failure-bars')
export class FailureBars extends ChartElement {
  static override styles = [shared, chartStyles, failureBarsStyles];

  @property({ attribute: false }) parts: readonly FailureBar[] = [];
  /** What the shares are of. */
  @property({ attribute: false }) repairs = 0;

  protected get marks(): readonly ChartMark[] {
    return orderParts(this.parts).map((part) => ({
      name: `${part.part}: ${barLabel(part, this.decimalMark)}`,
      sentence: barSentence(part, this.repairs, this.decimalMark),
      ...(part.href === undefined ? {} : { href: part.href }),
      ...(part.failedIn === undefined ? {} : { repairs: part.failedIn }),
    }));
  }

  protected get leastWidth(): number {
    return NAME_ROOM + LABEL_ROOM + 100;
  }

  private renderBar(bar: Bar<FailureBar>, at: number): TemplateResult<2> {
    const { counts, y, segments, whisker, diamond, good, label } = bar;
    const target = { x: 1 - NAME_ROOM, y: y - ROW / 2 + 1, width: this.width - 2, height: ROW - 2 };
    return this.renderMark(
      at,
      target,
      svg`<text class="name" x="-10" y=${y}>${counts.part}</text>
        ${segments.map(
          ({ kind, x, width }) =>
            svg`<rect class="segment ${kind}" x=${x} y=${y - BAR / 2} width=${width} height=${BAR} />`,
        )}
        ${
          whisker === undefined
            ? nothing
            : svg`<path class="whisker" d="M${whisker.from} ${y - 4}v8M${whisker.from} ${y}H${whisker.to}M${whisker.to} ${y - 4}v8" />`
        }
        ${good === undefined ? nothing : svg`<path class="good" d="M${good.from} ${y + 10}H${good.to}" />`}
        ${counts.replaced > 0 ? svg`<path class="diamond" d=${diamondAt(diamond, y)} />` : nothing}
        <text class="label" x=${label} y=${y}>${barLabel(counts, this.decimalMark)}</text>`,
    );
  }

  private renderLegend() {
    const sample = (mark: TemplateResult<2>, text: string) =>
      html`<li><svg viewBox="0 0 28 16" aria-hidden="true">${hatch}${mark}</svg> ${text}</li>`;
    return html`<ul class="legend">
      ${kindsIn(this.parts).map((kind) =>
        sample(svg`<rect class="segment ${kind}" x="1" y="2" width="26" height="12" />`, MEANINGS[kind]),
      )}
      ${sample(svg`<path class="whisker" d="M2 4v8M2 8H26M26 4v8" />`, '95 % interval')}
      ${sample(svg`<path class="diamond" d=${diamondAt(14, 8)} />`, 'replaced')}
      ${
        this.parts.some(({ replacedGood }) => replacedGood > 0)
          ? sample(
              svg`<path class="good" d="M2 13H26" /><path class="diamond" d=${diamondAt(22, 8)} />`,
              'of these, had measured good',
            )
          : nothing
      }
    </ul>`;
  }

  override render() {
    const { bars, ticks, height } = layOutBars(this.parts, this.repairs, {
      width: this.width - NAME_ROOM - LABEL_ROOM,
      rowHeight: ROW,
    });
    return html`${this.renderLegend()}
    ${this.renderPlot(
      height + AXIS_ROOM,
      svg`${hatch}
        <g transform="translate(${NAME_ROOM} 0)">
          ${bottomScale(ticks, height, (value) => countText(value, this.decimalMark))}
          ${bars.map((bar, at) => this.renderBar(bar, at))}
        </g>`,
    )}`;
  }
}

const hatch = svg`<defs>
  <pattern id="hatch" width="6" height="6" patternUnits="userSpaceOnUse">
    <path class="hatch" d="M-1.5 1.5l3 -3M0 6L6 0M4.5 7.5l3 -3" />
  </pattern>
</defs>`;

declare global {
  interface HTMLElementTagNameMap {
    'bt-failure-bars': FailureBars;
  }
}
