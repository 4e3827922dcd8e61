import { html, LitElement, nothing, svg, type PropertyValues, type TemplateResult } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import {
  closerDomain,
  layOutStrip,
  snapped,
  stepDigit,
  stripDomain,
  stripMark,
  stripPlace,
  stripValue,
  type Strip,
  type StripDomain,
  type StripMarks,
  type StripRow,
} from '../../charts/strip.ts';
import type { Limits } from '../../domain/band.ts';
import { engineeringPrefix, prefixSymbol } from '../../domain/prefix.ts';
import { formatShown, type DecimalMark, type Unit } from '../../domain/quantity.ts';
import { limitText } from '../band-text.ts';
import { followWidth } from '../controllers/resize-controller.ts';
import type { PastPoints } from '../../session/answers.ts';
import type { LimitSide } from '../panels/band-draft.ts';
import { shared } from '../styles/shared.styles.ts';
import { countText } from '../words.ts';
import { readingStripStyles } from './reading-strip.styles.ts';
import { saveSvg } from './save-svg.ts';
import { GOOD_ROW, STRIP_ROWS, stripMarks } from './strip-marks.ts';

/** What a limit was moved to; `final` once the pointer has let it go, and for each key. */
export interface LimitMove {
  readonly side: LimitSide;
  readonly value: number;
  readonly final: boolean;
}

/** Above this many marks they are drawn on a canvas: as vector paths they would slow every frame. */
const MOST_PATHS = 2000;
/** Places in pixels: room for the rows' names, for what lies beyond either end, for the limits' labels, and for the axis. */
const NAME_ROOM = 112;
const LOWER_ROOM = 64;
const HIGHER_ROOM = 128;
const TOP_ROOM = 34;
const AXIS_ROOM = 34;
const KEY_STEPS: Readonly<Record<string, number>> = {
  ArrowRight: 1,
  ArrowUp: 1,
  ArrowLeft: -1,
  ArrowDown: -1,
  PageUp: 10,
  PageDown: -10,
};

/**
 * All past readings of a check as marks on the true scale, in rows by what their boards proved to be, with the present
 * band behind them and the limits of a draft to move by pointer or keys.
 * @fires limit-moved - detail: LimitMove
 */
@customElement('bt-reading-strip')
export class ReadingStrip extends LitElement {
  static override styles = [shared, readingStripStyles];

  private marks: StripMarks | undefined;
  private domain: StripDomain | undefined;
  private closer: StripDomain | undefined;
  private strip: Strip | undefined;
  private drawnFor = '';

  /** Where the pointer has dragged a limit to. */
  private draggedTo: number | undefined;

  @query('.plot > svg') private readonly drawing!: SVGSVGElement | null;
  @query('canvas') private readonly canvas!: HTMLCanvasElement | null;

  /** Width of the plot, in pixels; 0 until it has been measured. */
  @state() private width = 0;
  @state() private isClose = false;
  @state() private dragged: LimitSide | undefined;
  /** Whether the marks are vector paths for once, to be saved. */
  @state() private saving = false;

  @property({ attribute: false }) points!: PastPoints;
  @property({ attribute: false }) unit: Unit = 'V';
  @property({ attribute: false }) present: Limits | undefined;
  @property({ attribute: false }) draft: Limits | undefined;
  /** The limits of the draft that have a handle. */
  @property({ attribute: false }) movable: readonly LimitSide[] = [];
  @property({ attribute: false }) decimalMark: DecimalMark = '.';
  /** What is drawn, for its name and its file. */
  @property({ attribute: false }) about = '';

  private readonly dark = matchMedia('(prefers-color-scheme: dark)');

  constructor() {
    super();
    followWidth(this, '.plot', (width) => {
      this.width = width;
    });
  }

  override connectedCallback(): void {
    super.connectedCallback();
    this.dark.addEventListener('change', this.repaint);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.dark.removeEventListener('change', this.repaint);
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('points')) this.marks = stripMarks(this.points);
    const { marks } = this;
    if (marks === undefined) return;
    // While a limit is dragged the scale stands still under it.
    if (this.dragged === undefined) {
      const limits = [this.present, this.draft].flatMap((one) => (one === undefined ? [] : [one.low, one.high]));
      const whole = stripDomain(marks, limits, this.unit === 'Ω');
      this.closer = whole && closerDomain(marks, GOOD_ROW, limits, whole);
      this.domain = (this.isClose ? this.closer : undefined) ?? whole;
    }
    const key = JSON.stringify([this.domain, this.scaleWidth]);
    if (changed.has('points') || key !== this.drawnFor) {
      this.drawnFor = key;
      this.strip =
        this.domain && layOutStrip({ marks, rows: STRIP_ROWS.length, domain: this.domain, width: this.scaleWidth });
    }
  }

  protected override updated(): void {
    this.paint();
  }

  private get scaleWidth(): number {
    return Math.max(120, this.width - NAME_ROOM - LOWER_ROOM - HIGHER_ROOM);
  }

  private get onCanvas(): boolean {
    return this.points.value.length > MOST_PATHS && !this.saving;
  }

  private readonly repaint = (): void => {
    this.paint();
  };

  /** Draws the marks on the canvas, where there is one. */
  private paint(): void {
    const { canvas, strip } = this;
    const context = canvas?.getContext('2d');
    if (canvas === null || strip === undefined || !context) return;
    const sharpness = window.devicePixelRatio;
    canvas.style.setProperty('--canvas-left', `${NAME_ROOM + LOWER_ROOM}px`);
    canvas.style.setProperty('--canvas-top', `${TOP_ROOM}px`);
    canvas.style.setProperty('--canvas-width', `${this.scaleWidth}px`);
    canvas.style.setProperty('--canvas-height', `${strip.height}px`);
    canvas.width = this.scaleWidth * sharpness;
    canvas.height = strip.height * sharpness;
    context.scale(sharpness, sharpness);
    context.lineWidth = 1.25;
    const style = getComputedStyle(this);
    const colours = { good: '--blue', bad: '--wrong', unknown: '--quiet' } as const;
    strip.rows.forEach(({ paths }, row) => {
      const tone = STRIP_ROWS[row]?.tone ?? 'unknown';
      context.strokeStyle = style.getPropertyValue(colours[tone]);
      for (const path of paths) context.stroke(new Path2D(path));
    });
  }

  private x(value: number): number {
    return this.domain === undefined ? 0 : stripPlace(this.domain, this.scaleWidth, value);
  }

  private clamped(value: number): number {
    return Math.max(0, Math.min(this.scaleWidth, this.x(value)));
  }

  private move(side: LimitSide, value: number, final: boolean): void {
    const detail: LimitMove = { side, value, final };
    this.dispatchEvent(new CustomEvent('limit-moved', { detail }));
  }

  private onKey(side: LimitSide, event: KeyboardEvent): void {
    const steps = KEY_STEPS[event.key];
    const value = this.draft?.[side];
    if (steps === undefined || value === undefined) return;
    event.preventDefault();
    const digit = stepDigit(value, this.points.lastDigit, this.domain?.log ?? false);
    const count = event.shiftKey ? 10 * Math.sign(steps) : steps;
    this.move(side, snapped(value + count * 10 ** digit, digit), true);
  }

  private onDown(side: LimitSide, event: PointerEvent): void {
    if (event.button !== 0) return;
    const handle = event.currentTarget as SVGElement;
    handle.setPointerCapture(event.pointerId);
    handle.focus();
    this.dragged = side;
  }

  private onMove(side: LimitSide, event: PointerEvent): void {
    const { domain, drawing } = this;
    if (this.dragged !== side || domain === undefined || drawing === null) return;
    const x = event.clientX - drawing.getBoundingClientRect().left - NAME_ROOM - LOWER_ROOM;
    const value = stripValue(domain, this.scaleWidth, Math.max(0, Math.min(this.scaleWidth, x)));
    this.draggedTo = snapped(value, stepDigit(value, this.points.lastDigit, domain.log));
    this.move(side, this.draggedTo, false);
  }

  private onUp(side: LimitSide): void {
    if (this.dragged !== side) return;
    this.dragged = undefined;
    if (this.draggedTo !== undefined) this.move(side, this.draggedTo, true);
    this.draggedTo = undefined;
  }

  private lookCloser(): void {
    this.isClose = !this.isClose;
  }

  private async save(): Promise<void> {
    this.saving = true;
    await this.updateComplete;
    if (this.drawing !== null) saveSvg(this.drawing, this.about);
    this.saving = false;
  }

  private renderRow({ top, height, paths, aside }: StripRow, row: number): TemplateResult<2> {
    const { name, tone, code } = STRIP_ROWS[row] ?? STRIP_ROWS[0];
    const count = this.points.standing.reduce((sum, own) => sum + (own === code ? 1 : 0), 0);
    const middle = top + height / 2;
    const text = (value: number): string => countText(value, this.decimalMark);
    const lower = [
      ...(aside.lower > 0 ? [`◀ ${text(aside.lower)}`] : []),
      ...(aside.below > 0 ? [`${text(aside.below)} below range`] : []),
    ];
    const higher = [
      ...(aside.higher > 0 ? [`▶ ${text(aside.higher)} higher`] : []),
      ...(aside.above > 0 ? [`◯ ${text(aside.above)} over range`] : []),
    ];
    const lines = (texts: readonly string[], x: number, side: string) =>
      texts.map((line, at) => {
        const y = middle + (at - (texts.length - 1) / 2) * 16;
        return svg`<text class="quiet ${side}" x=${x} y=${y}>${line}</text>`;
      });
    return svg`<g>
      <text class="name" x=${-NAME_ROOM - LOWER_ROOM} y=${height < 36 ? middle : middle - 9}>${name}</text>
      <text class="quiet" x=${height < 36 ? -LOWER_ROOM - 24 : -NAME_ROOM - LOWER_ROOM} y=${height < 36 ? middle : middle + 9}>${text(count)}</text>
      ${lines(lower, -10, 'end')} ${lines(higher, this.scaleWidth + 12, '')}
      ${this.onCanvas ? nothing : svg`<path class="marks ${tone}" d=${paths.join('')} />`}
      <path class="rule" d="M0 ${top + height}H${this.scaleWidth}" />
    </g>`;
  }

  private renderSpan({ low, high }: Limits, height: number, name: string): TemplateResult<2> {
    const from = this.clamped(low);
    const width = Math.max(0, this.clamped(high) - from);
    return svg`<rect class=${name} x=${from} y="0" width=${width} height=${height} />`;
  }

  private renderHandle(side: LimitSide, value: number, height: number): TemplateResult<2> {
    const x = this.clamped(value);
    const text = limitText(value, this.unit, this.decimalMark);
    const { low, high } = this.domain ?? { low: 0, high: 0 };
    const out = x === this.x(value) ? '' : value > low ? ' ▶' : '◀ ';
    // The label keeps to the outer side of its limit, unless the edge is near.
    const outward = side === 'low' ? x > 100 : x > this.scaleWidth - 20;
    return svg`<g
      class="handle"
      role="slider"
      tabindex="0"
      transform="translate(${x} 0)"
      aria-label=${side === 'low' ? 'Low limit' : 'High limit'}
      aria-orientation="horizontal"
      aria-valuemin=${Math.min(low, value)}
      aria-valuemax=${Math.max(high, value)}
      aria-valuenow=${value}
      aria-valuetext=${text}
      @keydown=${(event: KeyboardEvent) => {
        this.onKey(side, event);
      }}
      @pointerdown=${(event: PointerEvent) => {
        this.onDown(side, event);
      }}
      @pointermove=${(event: PointerEvent) => {
        this.onMove(side, event);
      }}
      @pointerup=${() => {
        this.onUp(side);
      }}
      @pointercancel=${() => {
        this.onUp(side);
      }}
    >
      <rect class="target" x="-12" y="-28" width="24" height=${height + 30} rx="2" />
      <path class="line" d="M0 -4V${height}" />
      <path class="grip" d="M-6 -14h12v7l-6 6l-6 -6Z" />
      <text class=${outward ? 'end' : ''} x=${outward ? -12 : 12} y="-14">${out.startsWith('◀') ? out : ''}${text}${out.startsWith(' ') ? out : ''}</text>
    </g>`;
  }

  private renderAxis({ ticks, height }: Strip): TemplateResult<2> {
    const log = this.domain?.log === true;
    const prefix = engineeringPrefix(Math.max(...ticks.map(({ value }) => Math.abs(value))));
    const step = (ticks[1]?.value ?? 1) - (ticks[0]?.value ?? 0);
    const decimals = Math.max(0, prefix - Math.floor(Math.log10(Math.abs(step) || 1) + 1e-9));
    const label = (value: number): string =>
      log
        ? limitText(value, this.unit, this.decimalMark)
        : formatShown(value, this.unit, { prefix, decimals }, this.decimalMark).number;
    return svg`<g aria-hidden="true">
      <path class="axis" d="M0 ${height}H${this.scaleWidth}" />
      ${ticks.map(
        ({ value, x }) => svg`<path class="axis" d="M${x} ${height}v5" />
          <text class="tick" x=${x} y=${height + 16}>${label(value)}</text>`,
      )}
      ${log ? nothing : svg`<text class="quiet" x=${this.scaleWidth + 12} y=${height + 16}>${prefixSymbol(prefix)}${this.unit}</text>`}
    </g>`;
  }

  private renderDrawing(strip: Strip) {
    const { present, draft } = this;
    const handles = this.movable.flatMap((side) => {
      const value = draft?.[side];
      return value === undefined || !Number.isFinite(value) ? [] : [{ side, value }];
    });
    return html`<svg height=${TOP_ROOM + strip.height + AXIS_ROOM} role="group" aria-label=${this.about}>
      <g transform="translate(${NAME_ROOM + LOWER_ROOM} ${TOP_ROOM})">
        ${present === undefined ? nothing : this.renderSpan(present, strip.height, 'present')}
        ${strip.rows.map((row, at) => this.renderRow(row, at))} ${this.renderAxis(strip)}
        ${draft === undefined ? nothing : this.renderSpan(draft, strip.height, 'draft')}
        ${handles.map(({ side, value }) => this.renderHandle(side, value, strip.height))}
      </g>
    </svg>`;
  }

  private renderLegend() {
    const sample = (shape: 0 | 1) =>
      html`<svg viewBox="0 0 16 14" aria-hidden="true">
        ${svg`<path class="sample" d=${stripMark(shape, 8, 7)} />`}
      </svg>`;
    return html`<ul class="below">
      <li>${sample(0)} as received, or a part on the bench</li>
      <li>${sample(1)} as it went back</li>
      ${this.domain?.log === true ? html`<li class="quiet">Each decade is equally wide.</li>` : nothing}
      ${
        this.closer === undefined
          ? nothing
          : html`<li>
              <button class="plain" type="button" @click=${this.lookCloser}>
                ${this.isClose ? 'Show all readings' : 'Look closer at the good ones'}
              </button>
            </li>`
      }
      <li><button class="plain" type="button" @click=${this.save}>Save the chart as SVG</button></li>
    </ul>`;
  }

  override render() {
    const { strip } = this;
    // Without a handle in it, what scrolls on a narrow screen must be reached by itself.
    const tab = this.movable.length === 0 ? 0 : -1;
    return html`<div class="plot" tabindex=${tab} role="region" aria-label="The strip of readings">
        ${strip === undefined ? nothing : this.renderDrawing(strip)}
        ${strip !== undefined && this.onCanvas ? html`<canvas aria-hidden="true"></canvas>` : nothing}
      </div>
      ${
        strip === undefined
          ? html`<p class="quiet">No number was read here yet, and no limit is set: there is nothing to draw.</p>`
          : this.renderLegend()
      }`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-reading-strip': ReadingStrip;
  }
}
