import { html, LitElement, nothing, svg, type TemplateResult } from 'lit';
import { property, query, state } from 'lit/decorators.js';
import type { Tick } from '../../charts/places.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import { followWidth } from '../controllers/resize-controller.ts';

/** What a mark of a chart tells and where it leads. */
export interface ChartMark {
  /** Short name, for whoever cannot see it. */
  readonly name: string;
  /** Its values as a sentence. */
  readonly sentence: string;
  /** Its readings. */
  readonly href?: string | undefined;
  /** The repairs that it counts. */
  readonly repairs?: string;
}

/** Where a mark can be touched, in pixels. */
export interface MarkTarget {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Width of a sheet between its margins, A4 upright, in pixels of a style sheet (ISO 216: 210 mm). */
const PAPER_WIDTH = 680;

/**
 * What every chart shares: the width of its plot, the one mark that Tab reaches with arrows to go on from there, and
 * the line below that reads the mark out.
 */
export abstract class ChartElement extends LitElement {
  @query('.plot > svg') readonly drawing!: SVGSVGElement | null;

  /** Width of the plot, in pixels; 0 until it has been measured. */
  @state() private measured = 0;
  /** The mark that is read out; undefined before any is. */
  @state() private current: number | undefined;

  /** What is drawn, for whoever cannot see it. */
  @property({ attribute: false }) about = '';
  @property({ attribute: false }) decimalMark: DecimalMark = '.';

  constructor() {
    super();
    followWidth(this, '.plot', (width) => {
      this.measured = width;
    });
  }

  override connectedCallback(): void {
    super.connectedCallback();
    window.addEventListener('beforeprint', this.fitPaper);
    window.addEventListener('afterprint', this.fitScreen);
  }

  override disconnectedCallback(): void {
    window.removeEventListener('beforeprint', this.fitPaper);
    window.removeEventListener('afterprint', this.fitScreen);
    super.disconnectedCallback();
  }

  protected override updated(): void {
    // A drawing that needs more room than there is scrolls inside its plot.
    this.style.setProperty('--least-width', `${this.leastWidth}px`);
    this.style.setProperty('--drawn-width', `${this.width}px`);
  }

  /** Draws anew at once: the browser prints what stands in the page when the event is over. */
  private readonly fitPaper = (): void => {
    this.measured = Math.min(this.measured, PAPER_WIDTH);
    this.performUpdate();
  };

  private readonly fitScreen = (): void => {
    this.measured = this.renderRoot.querySelector('.plot')?.clientWidth ?? 0;
  };

  /** The narrowest that the drawing can be, in pixels. */
  protected abstract get leastWidth(): number;

  /** Width of the drawing, in pixels. */
  protected get width(): number {
    return Math.max(this.measured, this.leastWidth);
  }

  /** In the order in which arrows go through them. */
  protected abstract get marks(): readonly ChartMark[];

  /** How many marks an arrow up or down goes over. */
  protected strideOf(): number {
    return 1;
  }

  private get reachable(): number {
    return Math.max(0, Math.min(this.current ?? 0, this.marks.length - 1));
  }

  private onKey(event: KeyboardEvent): void {
    const last = this.marks.length - 1;
    const at = this.reachable;
    const moves: Readonly<Record<string, number>> = {
      ArrowRight: at + 1,
      ArrowLeft: at - 1,
      ArrowDown: at + this.strideOf(),
      ArrowUp: at - this.strideOf(),
      Home: 0,
      End: last,
    };
    const next = moves[event.key];
    if (next === undefined) return;
    event.preventDefault();
    if (next < 0 || next > last) return;
    this.current = next;
    void this.updateComplete.then(() => this.renderRoot.querySelector<SVGElement>('.mark[tabindex="0"]')?.focus());
  }

  private onReach(event: Event): void {
    const mark = event.target instanceof Element ? event.target.closest('.mark') : null;
    const at = Number(mark?.getAttribute('data-at') ?? NaN);
    if (!Number.isNaN(at)) this.current = at;
  }

  /** One mark with what is drawn of it: a link where it leads somewhere. */
  protected renderMark(at: number, target: MarkTarget, drawn: unknown): TemplateResult<2> {
    const mark = this.marks[at];
    if (mark === undefined) return svg``;
    const tabIndex = at === this.reachable ? 0 : -1;
    const { x, y, width, height } = target;
    const content = svg`<rect class="target" x=${x} y=${y} width=${Math.max(0, width)} height=${height} />${drawn}`;
    const href = mark.href ?? mark.repairs;
    return href === undefined
      ? svg`<g class="mark" role="img" tabindex=${tabIndex} data-at=${at} aria-label=${mark.name}>${content}</g>`
      : svg`<a class="mark" href=${href} tabindex=${tabIndex} data-at=${at} aria-label=${mark.name}>${content}</a>`;
  }

  /** A mark read out: its values, and where it leads. */
  private renderMarkWords({ sentence, href, repairs }: ChartMark) {
    return html`${sentence} ${href === undefined ? nothing : html`<a href=${href}>Readings</a>`}
    ${repairs === undefined ? nothing : html`<a href=${repairs}>Repairs</a>`}`;
  }

  /** The drawing in its plot, and the line that reads a mark out. */
  protected renderPlot(height: number, content: unknown): TemplateResult {
    const mark = this.current === undefined ? undefined : this.marks[this.reachable];
    const leads = this.marks.some(({ href, repairs }) => href !== undefined || repairs !== undefined);
    // A listener for focus on the drawing itself would make it a stop of the Tab key.
    return html`<div class="plot" @keydown=${this.onKey} @focusin=${this.onReach} @pointermove=${this.onReach}>
        <svg
          viewBox="0 0 ${this.width} ${height}"
          preserveAspectRatio="xMinYMin meet"
          height=${height}
          role="group"
          aria-label=${this.about}
        >
          ${content}
        </svg>
      </div>
      <p class="readout" role="status">
        ${
          mark !== undefined
            ? this.renderMarkWords(mark)
            : this.marks.length === 0
              ? nothing
              : html`<span class="quiet"
                  >Arrow keys go from mark to mark${leads ? '; Enter shows what is behind one' : ''}.</span
                >`
        }
      </p>`;
  }
}

/** A scale below a plot: lines up to the top at its ticks, and their texts. */
export function bottomScale(ticks: readonly Tick[], height: number, text: (value: number) => string) {
  return svg`<g aria-hidden="true">${ticks.map(
    ({ value, place }) => svg`<path class="axis" d="M${place} 0V${height + 4}" />
      <text class="tick" x=${place} y=${height + 15}>${text(value)}</text>`,
  )}</g>`;
}

/** A scale left of a plot: lines across it at its ticks, and their texts. */
export function leftScale(ticks: readonly Tick[], width: number, text: (value: number) => string) {
  return svg`<g aria-hidden="true">${ticks.map(
    ({ value, place }) => svg`<path class="axis" d="M-4 ${place}H${width}" />
      <text class="side" x="-9" y=${place}>${text(value)}</text>`,
  )}</g>`;
}

/** Path data of a diamond. */
export function diamondAt(x: number, y: number, reach = 5.5): string {
  return `M${x} ${y - reach}L${x + reach} ${y}L${x} ${y + reach}L${x - reach} ${y}Z`;
}
