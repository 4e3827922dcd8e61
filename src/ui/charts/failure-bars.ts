import { html, LitElement, nothing, svg, type TemplateResult } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { layOutBars, type Bar, type BarsLayout, type SegmentKind } from '../../charts/bars.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import type { FamilyPatterns, PartFailures } from '../../session/answers.ts';
import { ResizeController } from '../controllers/resize-controller.ts';
import { shared } from '../styles/shared.styles.ts';
import { countOf, countText } from '../words.ts';
import { failureBarsStyles } from './failure-bars.styles.ts';
import { barLabel, barSentence, kindsIn, shareText } from './failure-text.ts';
import { saveSvg } from './save-svg.ts';

/** Fewer repairs than this say nothing of how a family fails (common practice, no source). */
export const REPAIRS_NEEDED = 10;

/** Places in pixels: room for the parts' names, for the labels at the bars' ends, for a bar's row, and for the axis. */
const NAME_ROOM = 56;
const LABEL_ROOM = 208;
const ROW = 30;
const AXIS_ROOM = 30;
const BAR = 18;

const MEANINGS: Readonly<Record<SegmentKind, string>> = {
  shorted: 'shorted',
  leaky: 'leaky',
  open: 'open',
  failed: 'failed otherwise',
  suspected: 'suspected: reads bad, masked in circuit',
};

/** Which parts of a family fail, as bars with counts, beside the parts replaced; the numbers as a table beside it. */
@customElement('bt-failure-bars')
export class FailureBars extends LitElement {
  static override styles = [shared, failureBarsStyles];

  @query('figure > svg') private readonly drawing!: SVGSVGElement | null;

  /** Width of the drawing, in pixels; 0 until it has been measured. */
  @state() private width = 0;
  /** The bar that can be reached by Tab. */
  @state() private current = 0;

  @property({ attribute: false }) patterns!: FamilyPatterns;
  @property({ attribute: false }) decimalMark: DecimalMark = '.';

  constructor() {
    super();
    new ResizeController(
      this,
      () => [...this.renderRoot.querySelectorAll('figure')],
      () => {
        this.width = this.renderRoot.querySelector('figure')?.clientWidth ?? 0;
      },
    );
  }

  private get layout(): BarsLayout {
    const width = Math.max(120, this.width - NAME_ROOM - LABEL_ROOM);
    return layOutBars(this.patterns.parts, this.patterns.repairs, { width, rowHeight: ROW });
  }

  private onKey(event: KeyboardEvent): void {
    const last = this.patterns.parts.length - 1;
    const moves: Readonly<Record<string, number>> = {
      ArrowDown: Math.min(last, this.current + 1),
      ArrowUp: Math.max(0, this.current - 1),
      Home: 0,
      End: last,
    };
    const next = moves[event.key];
    if (next === undefined) return;
    event.preventDefault();
    this.current = next;
    void this.updateComplete.then(() => this.renderRoot.querySelectorAll<SVGElement>('.bar')[next]?.focus());
  }

  private save(): void {
    if (this.drawing !== null) saveSvg(this.drawing, `Which parts fail in ${this.patterns.family}`);
  }

  private renderBar(bar: Bar, index: number): TemplateResult<2> {
    const { counts, y, segments, whisker, diamond, label } = bar;
    const part = this.patterns.parts.find((candidate) => candidate.part === counts.part);
    if (part === undefined) return svg``;
    const top = y - BAR / 2;
    return svg`<g
      class="bar"
      role="img"
      tabindex=${index === this.current ? 0 : -1}
      aria-label=${barSentence(part, this.patterns.repairs, this.decimalMark)}
      @focus=${() => (this.current = index)}
      @pointerenter=${() => (this.current = index)}
    >
      <rect class="target" x=${1 - NAME_ROOM} y=${y - ROW / 2 + 1} width=${Math.max(0, this.width - 2)} height=${ROW - 2} />
      <text class="part" x="-10" y=${y}>${counts.part}</text>
      ${segments.map(
        ({ kind, x, width }) => svg`<rect class="segment ${kind}" x=${x} y=${top} width=${width} height=${BAR} />`,
      )}
      ${
        counts.failed > 0
          ? svg`<path class="whisker" d="M${whisker.from} ${y - 4}v8M${whisker.from} ${y}H${whisker.to}M${whisker.to} ${y - 4}v8" />`
          : nothing
      }
      ${counts.replaced > 0 ? svg`<path class="diamond" d=${diamondAt(diamond, y)} />` : nothing}
      <text class="label" x=${label} y=${y}>${barLabel(part, this.decimalMark)}</text>
    </g>`;
  }

  private renderDrawing() {
    const { bars, ticks, height } = this.layout;
    return html`<svg
      height=${height + AXIS_ROOM}
      role="group"
      aria-label="Parts by repairs, most first"
      @keydown=${this.onKey}
    >
      ${hatch}
      <g transform="translate(${NAME_ROOM} 0)">
        ${ticks.map(
          ({ value, x }) => svg`<path class="axis" d="M${x} 0V${height + 4}" />
            <text class="tick" x=${x} y=${height + 16} aria-hidden="true">${countText(value, this.decimalMark)}</text>`,
        )}
        ${bars.map((bar, index) => this.renderBar(bar, index))}
      </g>
    </svg>`;
  }

  private renderLegend() {
    const sample = (mark: TemplateResult<2>, text: string) =>
      html`<li><svg viewBox="0 0 28 16" aria-hidden="true">${hatch}${mark}</svg> ${text}</li>`;
    return html`<ul class="legend">
      ${kindsIn(this.patterns.parts).map((kind) =>
        sample(svg`<rect class="segment ${kind}" x="1" y="2" width="26" height="12" />`, MEANINGS[kind]),
      )}
      ${sample(svg`<path class="whisker" d="M2 4v8M2 8H26M26 4v8" />`, 'failed share, 95 % interval')}
      ${sample(svg`<path class="diamond" d=${diamondAt(14, 8)} />`, 'replaced')}
    </ul>`;
  }

  private renderTable() {
    const { family, repairs } = this.patterns;
    const count = (value: number) => html`<td class="number">${countText(value, this.decimalMark)}</td>`;
    return html`<div class="sideways" tabindex="0" role="region" aria-label="The numbers as a table">
      <table>
        <caption>
          Repairs of ${family} out of ${countText(repairs, this.decimalMark)}, by part
        </caption>
        <thead>
          <tr>
            <th scope="col">part</th>
            ${['failed', 'shorted', 'leaky', 'open', 'suspected', 'replaced', 'replaced good', 'failed share'].map(
              (title) => html`<th scope="col" class="number">${title}</th>`,
            )}
          </tr>
        </thead>
        <tbody>
          ${this.layout.bars.map(({ counts: { part } }) => {
            const row = this.patterns.parts.find((candidate) => candidate.part === part);
            return row === undefined ? nothing : this.renderTableRow(row, count);
          })}
        </tbody>
      </table>
    </div>`;
  }

  private renderTableRow(row: PartFailures, count: (value: number) => TemplateResult) {
    return html`<tr>
      <th scope="row">${row.part}</th>
      ${[row.failed, row.shorted, row.leaky, row.open, row.suspected, row.replaced, row.replacedGood].map(count)}
      <td class="number">${shareText(row.share, this.decimalMark)}</td>
    </tr>`;
  }

  override render() {
    const { family, repairs, parts } = this.patterns;
    const mark = this.decimalMark;
    const title = html`<h2 id="title">Which parts fail in ${family}?</h2>`;
    if (repairs < REPAIRS_NEEDED) {
      return html`${title}
        <p>${countOf(repairs, 'repair', mark)} are too few to say: it takes ${REPAIRS_NEEDED} or more.</p>
        ${parts.length === 0 ? nothing : this.renderTable()}`;
    }
    if (parts.length === 0)
      return html`${title}
        <p>No part of ${countOf(repairs, 'repair', mark)} was measured bad or replaced.</p>`;
    const current = this.layout.bars[this.current]?.counts.part;
    const spoken = parts.find(({ part }) => part === current);
    return html`${title}
      <p>
        ${countOf(repairs, 'repair', mark)}. A bar counts those in which the part measured bad out of circuit; a part
        that was replaced need not have failed.
      </p>
      <div class="beside">
        <figure aria-labelledby="title">
          ${this.renderLegend()} ${this.renderDrawing()}
          <p class="readout">${spoken === undefined ? nothing : barSentence(spoken, repairs, mark)}</p>
          <button class="plain" type="button" @click=${this.save}>Save the chart as SVG</button>
        </figure>
        ${this.renderTable()}
      </div>`;
  }
}

const hatch = svg`<defs>
  <pattern id="hatch" width="6" height="6" patternUnits="userSpaceOnUse">
    <path class="hatch" d="M-1.5 1.5l3 -3M0 6L6 0M4.5 7.5l3 -3" />
  </pattern>
</defs>`;

function diamondAt(x: number, y: number): string {
  return `M${x} ${y - 5.5}L${x + 5.5} ${y}L${x} ${y + 5.5}L${x - 5.5} ${y}Z`;
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-failure-bars': FailureBars;
  }
}
