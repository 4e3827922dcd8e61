import { LitElement, css, html, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { panWindow, zoomWindow, type TraceWindow } from '../../charts/trace.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import { MODE_UNITS } from '../../domain/reading.ts';
import type { BenchCalls } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { limitText } from '../band-text.ts';
import { AnswerController } from '../controllers/answer-controller.ts';
import { followWidth } from '../controllers/resize-controller.ts';
import { followSession } from '../controllers/session-controller.ts';
import { shared } from '../styles/shared.styles.ts';
import { elapsedText, traceSentence } from './trace-text.ts';
import { LEFT, paintTrace } from './trace-paint.ts';

const HEIGHT = 220;
/** One press or notch zooms and moves by so much. */
const ZOOM = 0.5;
const MOVE = 0.25;
/** No window is shorter than this, in milliseconds. */
const SHORTEST = 1000;

/** A logged rail over time with its band: zoomed with + and −, moved with the arrows, whole again with 0; also by wheel and by dragging. */
@customElement('bt-trace-figure')
export class TraceFigure extends LitElement {
  static override styles = [
    shared,
    css`
      figure {
        margin: 0.5rem 0;
      }

      canvas {
        display: block;
        width: 100%;
        height: 220px;
        touch-action: pan-y;
        cursor: grab;
      }

      .controls {
        display: flex;
        flex-wrap: wrap;
        align-items: baseline;
        gap: 0.25rem 0.75rem;
      }
    `,
  ];

  private readonly trace = new AnswerController<ReturnType<BenchCalls['runInTrace']>>(this, () =>
    this.width <= LEFT ? undefined : this.question(),
  );

  private drag: { readonly x: number; readonly window: TraceWindow } | undefined;

  @query('canvas') private readonly canvas!: HTMLCanvasElement | null;

  /** Width of the drawing in CSS pixels; 0 until it has been measured. */
  @state() private width = 0;
  /** What is shown; undefined for all of it. */
  @state() private window: TraceWindow | undefined;

  @property({ attribute: false }) session!: Session;
  @property({ attribute: false }) repair = '';
  @property({ attribute: false }) line!: ReturnType<BenchCalls['runIns']>[number];

  constructor() {
    super();
    followSession(this, () => this.session);
    followWidth(this, 'figure', (width) => {
      this.width = width;
    });
  }

  protected override updated(): void {
    const { canvas, drawing, width } = this;
    const context = canvas?.getContext('2d');
    if (canvas === null || !context || drawing === undefined) return;
    const ratio = window.devicePixelRatio;
    canvas.width = Math.round(width * ratio);
    canvas.height = Math.round(HEIGHT * ratio);
    const style = getComputedStyle(this);
    const token = (name: string): string => style.getPropertyValue(`--${name}`).trim();
    const ink = { paper: token('paper'), ink: token('ink'), quiet: token('quiet'), rule: token('rule'), band: token('band'), blue: token('blue'), font: `13px ${token('font-number')}` }; // prettier-ignore
    const unit = MODE_UNITS[this.line.mode];
    paintTrace(context, { width, height: HEIGHT, ratio }, drawing, drawing.whole.from, this.line.limits, ink, {
      value: (value) => limitText(value, unit, this.mark),
      time: elapsedText,
    });
  }

  private get mark(): DecimalMark {
    return this.session.state.decimalMark;
  }

  private get drawing() {
    const { answer } = this.trace;
    return answer.status === 'failed' ? undefined : answer.value;
  }

  private question() {
    const { repair, line, window: part } = this;
    const columns = this.width - LEFT;
    return {
      key: JSON.stringify([this.session.state.revision, repair, line.point, line.mode, columns, part ?? null]),
      ask: (signal: AbortSignal) =>
        this.session.ask(
          'runInTrace',
          part === undefined
            ? [repair, line.point, line.mode, columns]
            : [repair, line.point, line.mode, columns, part],
          signal,
        ),
      keepsLast: true,
    };
  }

  private zoom(factor: number, at?: number): void {
    const { drawing } = this;
    if (drawing === undefined) return;
    const now = this.window ?? drawing.whole;
    this.window = zoomWindow(now, drawing.whole, factor, at ?? (now.from + now.to) / 2, SHORTEST);
  }

  private move(share: number): void {
    const { drawing } = this;
    if (drawing !== undefined) this.window = panWindow(this.window ?? drawing.whole, drawing.whole, share);
  }

  private readonly showAll = (): void => {
    this.window = undefined;
  };

  private readonly onKey = (event: KeyboardEvent): void => {
    const acts: Readonly<Record<string, () => void>> = {
      '+': this.closer,
      '=': this.closer,
      '-': this.wider,
      ArrowLeft: this.earlier,
      ArrowRight: this.later,
      '0': this.showAll,
    };
    const act = acts[event.key];
    if (act === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    act();
  };

  private readonly closer = (): void => {
    this.zoom(ZOOM);
  };

  private readonly wider = (): void => {
    this.zoom(1 / ZOOM);
  };

  private readonly earlier = (): void => {
    this.move(-MOVE);
  };

  private readonly later = (): void => {
    this.move(MOVE);
  };

  /** The page scrolls as ever; with the control key held, the wheel zooms about the pointer. */
  private readonly onWheel = (event: WheelEvent): void => {
    const { drawing } = this;
    if (!event.ctrlKey || drawing === undefined) return;
    event.preventDefault();
    const now = this.window ?? drawing.whole;
    const share = (event.offsetX - LEFT) / Math.max(1, this.width - LEFT);
    this.zoom(event.deltaY > 0 ? 1 / ZOOM : ZOOM, now.from + share * (now.to - now.from));
  };

  private readonly grab = (event: PointerEvent): void => {
    const { drawing } = this;
    if (drawing === undefined) return;
    this.drag = { x: event.clientX, window: this.window ?? drawing.whole };
    (event.target as Element).setPointerCapture(event.pointerId);
  };

  private readonly pull = (event: PointerEvent): void => {
    const { drag, drawing } = this;
    if (drag === undefined || drawing === undefined) return;
    this.window = panWindow(drag.window, drawing.whole, (drag.x - event.clientX) / Math.max(1, this.width - LEFT));
  };

  private readonly letGo = (): void => {
    this.drag = undefined;
  };

  override render() {
    const { drawing, line } = this;
    const sentence = traceSentence(line, this.mark);
    return html`<figure>
        <canvas
          tabindex="0"
          role="img"
          aria-label="${sentence} Plus and minus zoom, the arrows move, 0 shows all."
          @keydown=${this.onKey}
          @wheel=${this.onWheel}
          @pointerdown=${this.grab}
          @pointermove=${this.pull}
          @pointerup=${this.letGo}
          @pointercancel=${this.letGo}
        ></canvas>
      </figure>
      <div class="controls">
        <button type="button" @click=${this.closer}>Closer</button>
        <button type="button" @click=${this.wider}>Wider</button>
        <button type="button" @click=${this.earlier}>Earlier</button>
        <button type="button" @click=${this.later}>Later</button>
        <button type="button" ?disabled=${this.window === undefined} @click=${this.showAll}>All of it</button>
        <span class="quiet" role="status">
          ${
            drawing === undefined
              ? nothing
              : `Shown: ${elapsedText(drawing.from - drawing.whole.from)} to ${elapsedText(drawing.to - drawing.whole.from)} of ${elapsedText(drawing.whole.to - drawing.whole.from)}.`
          }
        </span>
      </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-trace-figure': TraceFigure;
  }
}
