import { html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { ReadingRow, ReadingsQuery, SelectionSummary } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { tapeStyles } from '../charts/tolerance-tape.styles.ts';
import { GridRowsController, type Opened } from '../controllers/grid-rows-controller.ts';
import { AnswerController } from '../controllers/answer-controller.ts';
import { GridVoiceController } from '../controllers/grid-voice-controller.ts';
import { ResizeController } from '../controllers/resize-controller.ts';
import { followSession } from '../controllers/session-controller.ts';
import { shared } from '../styles/shared.styles.ts';
import { countText } from '../words.ts';
import { copyText } from './copy-text.ts';
import { columnTracks, GRID_COLUMNS, spokenRow, type GridColumn } from './grid-columns.ts';
import { clampCursor, cursorAt, extendTo, HEADER_ROW, moveByKey, rangeOf } from './grid-cursor.ts';
import type { GridCursor, GridExtent, GridRange } from './grid-cursor.ts';
import { GridScroll } from './grid-scroll.ts';
import { cellElement, cellOf, headerTemplate, rowsTemplate, type GridView } from './grid-view.ts';
import { isScaled, rowsPerView, scrollHeight } from './grid-window.ts';
import { gridStyles } from './readings-grid.styles.ts';
import { selectionLine } from './selection-line.ts';
import { nextSort, type SortKeys } from './sort-keys.ts';

/** More rows than this are not copied at once. */
const COPY_LIMIT = 100_000;

const HINT = html`<span>Enter: about this reading</span>
  <span>Shift and arrows: select</span>
  <span>Ctrl and C: copy</span>
  <span>Enter on a heading: sort</span>`;

const NO_QUERY: ReadingsQuery = { filters: [], sort: [] };

/**
 * Readings as a grid of any length: sorted and filtered in the worker, drawn as far as they are seen.
 *
 * @fires readings-counted - `ReadingsCount` of the query, once its first rows are here
 * @fires sort-chosen - `SortKeys` that a person chose by a header
 * @fires row-reached - `ReadingRow` under the cursor, or undefined where it is on none
 * @fires row-opened - `ReadingRow` of which a person wants to know more
 */
@customElement('bt-readings-grid')
export class ReadingsGrid extends LitElement {
  static override styles = [shared, tapeStyles, gridStyles];

  private readonly columns: readonly GridColumn[] = GRID_COLUMNS;
  private readonly place = new GridScroll();
  private readonly rows = new GridRowsController(this, {
    visible: () => this.lookedAt(),
    keep: () => (this.touched ? this.reached?.row : undefined),
    opened: (opened) => {
      this.follow(opened);
    },
  });
  private readonly voice = new GridVoiceController(this);
  private readonly summary = new AnswerController<SelectionSummary>(this, () => this.summaryQuestion());
  /** The row that was under the cursor last. */
  private reached: ReadingRow | undefined;
  /** What is to be said of a reading that left, before the one that took its place. */
  private farewell = '';
  /** Whether the cursor was moved, so that the focus has to follow it. */
  private focusMoves = false;
  /** Whether a person has put the cursor where it is. */
  private touched = false;
  private dragging = false;
  private headerHeight = 0;

  @query('.scroller') private readonly scroller!: HTMLElement;
  @query('.header') private readonly header!: HTMLElement;
  @query('.probe') private readonly probe!: HTMLElement;

  @state() private cursor: GridCursor = cursorAt(0, 0);

  @property({ attribute: false }) session?: Session;
  /** What to show; `session` and this are set by whoever holds the grid. */
  @property({ attribute: false }) query: ReadingsQuery = NO_QUERY;

  constructor() {
    super();
    followSession(this, () => this.session);
    new ResizeController(
      this,
      () => [this.scroller, this.probe, this.header],
      () => {
        this.measure();
      },
    );
  }

  override connectedCallback(): void {
    super.connectedCallback();
    document.addEventListener('pointerup', this.endDrag);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    document.removeEventListener('pointerup', this.endDrag);
  }

  /** Moves the focus to the current cell. */
  override focus(): void {
    this.focusMoves = true;
    this.requestUpdate();
  }

  protected override willUpdate(): void {
    if (this.session !== undefined) this.rows.open(this.session, this.query);
    const { first, last } = this.lookedAt();
    this.rows.want(first, last);
  }

  protected override updated(changed: PropertyValues): void {
    const { shape, visible, bar } = this.place;
    const { tracks, gap, leastWidth } = columnTracks(this.columns);
    setLengths(this.scroller, {
      '--tracks': tracks,
      '--gap': gap,
      '--least-width': leastWidth,
      '--scroll-height': `${scrollHeight(shape) + this.headerHeight}px`,
      '--view-height': `${shape.viewHeight + this.headerHeight}px`,
      '--row-height': shape.rowHeight > 0 ? `${shape.rowHeight}px` : '1.875em',
      '--shift': `${visible.shift}px`,
    });
    if (Math.abs(this.scroller.scrollTop - bar) >= 1) this.scroller.scrollTop = bar;
    if (this.focusMoves || this.focusWasLost(changed)) this.focusCell();
    this.reach();
  }

  private get extent(): GridExtent {
    return { rows: this.rowCount, columns: this.columns.length, page: Math.max(1, rowsPerView(this.place.shape) - 1) };
  }

  private get rowCount(): number {
    return this.rows.count?.readings ?? 0;
  }

  private get range(): GridRange | undefined {
    return rangeOf(this.cursor, this.extent);
  }

  /** The rows seen, of a view as high as it is now. */
  private lookedAt(): { readonly first: number; readonly last: number } {
    const { first, count } = this.place.visible;
    return { first, last: first + Math.max(count, rowsPerView(this.place.shape)) };
  }

  private measure(): void {
    const rowHeight = Math.round(this.probe.getBoundingClientRect().height);
    this.headerHeight = this.header.offsetHeight;
    const viewHeight = Math.max(0, this.scroller.clientHeight - this.headerHeight);
    const { shape } = this.place;
    if (rowHeight === shape.rowHeight && viewHeight === shape.viewHeight) return;
    this.place.reshape({ rows: this.rowCount, rowHeight, viewHeight });
    this.requestUpdate();
  }

  /** Takes a new query's rows: the cursor stays on its reading, or says that it left. */
  private follow({ count, kept }: Opened): void {
    const { reached, cursor } = this;
    const focused = this.matches(':focus-within');
    this.place.reshape({ ...this.place.shape, rows: count.readings });
    if (kept !== undefined && kept >= 0) this.cursor = cursorAt(kept, cursor.column);
    else if (this.touched && cursor.row !== HEADER_ROW)
      this.cursor = clampCursor(cursorAt(cursor.row, cursor.column), this.extent);
    else if (cursor.row !== HEADER_ROW || !focused) this.cursor = clampCursor(cursorAt(0, 0), this.extent);
    this.place.show(Math.max(0, this.cursor.row));
    this.focusMoves ||= focused;
    if (kept === -1 && reached !== undefined && focused)
      this.farewell = `The reading of ${reached.point} is not among these. `;
    this.reached = undefined;
    this.dispatchEvent(new CustomEvent('readings-counted', { detail: count }));
  }

  private get mark() {
    return this.session?.state.decimalMark ?? '.';
  }

  private summaryQuestion() {
    const { session, range } = this;
    const shown = this.rows.query;
    if (session === undefined || shown === undefined || range === undefined) return undefined;
    const { firstRow, lastRow } = range;
    if (firstRow === lastRow) return undefined;
    return {
      key: JSON.stringify([session.state.revision, shown, firstRow, lastRow]),
      ask: (signal: AbortSignal) => session.ask('summarise', [shown, firstRow, lastRow], signal),
      keepsLast: true,
    };
  }

  private moveTo(cursor: GridCursor): void {
    this.cursor = cursor;
    this.touched = true;
    this.focusMoves = true;
    if (cursor.row >= 0) this.place.show(cursor.row);
  }

  /** A row that is drawn elsewhere in the list than before loses the focus with its old nodes. */
  private focusWasLost(changed: PropertyValues): boolean {
    return changed.has('cursor') && this.matches(':focus-within') && this.shadowRoot?.activeElement === null;
  }

  private focusCell(): void {
    const cell = cellElement(this.renderRoot, this.cursor);
    if (cell === null) return;
    this.focusMoves = false;
    cell.focus({ preventScroll: true });
    this.showColumn(cell);
  }

  private showColumn(cell: HTMLElement): void {
    const { left, right } = cell.getBoundingClientRect();
    const view = this.scroller.getBoundingClientRect();
    if (left < view.left) this.scroller.scrollLeft -= view.left - left;
    else if (right > view.left + this.scroller.clientWidth) {
      this.scroller.scrollLeft += Math.min(left - view.left, right - view.left - this.scroller.clientWidth);
    }
  }

  /** Tells who listens which reading is current, once it is here. */
  private reach(): void {
    const row = this.rows.row(this.cursor.row);
    if (row === this.reached || (row === undefined && this.cursor.row >= 0)) return;
    this.reached = row;
    this.dispatchEvent(new CustomEvent('row-reached', { detail: row }));
    if (row === undefined || !this.matches(':focus-within')) return;
    const place = `Row ${countText(this.cursor.row + 1, this.mark)} of ${countText(this.rowCount, this.mark)}`;
    this.voice.say(`${this.farewell}${place}, ${spokenRow(row, this.mark)}`);
    this.farewell = '';
  }

  private onScroll(): void {
    if (this.place.followBar(this.scroller.scrollTop)) this.requestUpdate();
  }

  /** A scaled scroll bar would jump over rows at each notch of the wheel. */
  private onWheel(event: WheelEvent): void {
    if (event.ctrlKey || event.shiftKey || Math.abs(event.deltaX) > Math.abs(event.deltaY)) return;
    event.preventDefault();
    const { rowHeight, viewHeight } = this.place.shape;
    const units = { 0: 1, 1: rowHeight, 2: viewHeight }[event.deltaMode] ?? 1;
    this.place.moveBy(event.deltaY * units);
    this.requestUpdate();
  }

  private onKey(event: KeyboardEvent): void {
    const command = event.ctrlKey || event.metaKey;
    if (command && event.key.toLowerCase() === 'c') void this.copy();
    else if (event.key === 'Enter' && this.cursor.row === HEADER_ROW)
      this.chooseSort(this.cursor.column, event.shiftKey);
    else if (event.key === 'Enter') this.openRow();
    else {
      const next = moveByKey(this.cursor, event, this.extent);
      if (next === undefined) return;
      this.moveTo(next);
    }
    event.preventDefault();
  }

  private onPointerDown(event: PointerEvent): void {
    const cell = cellOf(event);
    if (cell === undefined || event.button !== 0) return;
    event.preventDefault();
    if (cell.row === HEADER_ROW) {
      this.moveTo(cursorAt(HEADER_ROW, cell.column));
      this.chooseSort(cell.column, event.shiftKey);
      return;
    }
    this.dragging = true;
    this.moveTo(event.shiftKey ? extendTo(this.cursor, cell.row, cell.column) : cursorAt(cell.row, cell.column));
  }

  private onPointerOver(event: PointerEvent): void {
    const cell = this.dragging ? cellOf(event) : undefined;
    if (cell !== undefined && cell.row >= 0) this.moveTo(extendTo(this.cursor, cell.row, cell.column));
  }

  private readonly endDrag = (): void => {
    this.dragging = false;
  };

  private chooseSort(column: number, add: boolean): void {
    const field = this.columns[column]?.sort;
    if (field === undefined) return;
    const detail: SortKeys = nextSort(this.query.sort, field, add);
    this.dispatchEvent(new CustomEvent('sort-chosen', { detail }));
  }

  private openRow(): void {
    const row = this.rows.row(this.cursor.row);
    if (row !== undefined) this.dispatchEvent(new CustomEvent('row-opened', { detail: row }));
  }

  private async copy(): Promise<void> {
    const { session, range } = this;
    const shown = this.rows.query;
    if (session === undefined || shown === undefined || range === undefined) return;
    const count = range.lastRow - range.firstRow + 1;
    if (count > COPY_LIMIT) {
      this.voice.say(`No more than ${countText(COPY_LIMIT, this.mark)} rows can be copied at once: select fewer.`);
      return;
    }
    const rows = await session.ask('window', [shown, range.firstRow, count]);
    const columns = this.columns.slice(range.firstColumn, range.lastColumn + 1);
    await navigator.clipboard.writeText(copyText(rows, columns, this.mark));
    this.voice.say(`${countText(count, this.mark)} rows copied.`);
  }

  private renderAbout() {
    if (this.rows.fault !== undefined) return html`<span role="alert">${this.rows.fault}</span>`;
    if (this.rowCount === 0) return nothing;
    if (this.range === undefined || this.range.firstRow === this.range.lastRow) return HINT;
    const { answer } = this.summary;
    if (answer.status === 'failed') return html`<span>${answer.reason}</span>`;
    return answer.value === undefined ? nothing : selectionLine(answer.value, this.mark);
  }

  private get view(): GridView {
    return {
      columns: this.columns,
      sort: this.query.sort,
      cursor: this.cursor,
      range: this.range,
      rowCount: this.rowCount,
      visible: this.place.visible,
      mark: this.mark,
      row: (index) => this.rows.row(index),
    };
  }

  override render() {
    const { view } = this;
    return html`
      <div
        class="scroller"
        role="grid"
        aria-label="Readings"
        aria-multiselectable="true"
        aria-readonly="true"
        aria-rowcount=${view.rowCount + 1}
        aria-colcount=${this.columns.length}
        aria-busy=${this.rows.busy}
        @scroll=${this.onScroll}
        @wheel=${isScaled(this.place.shape) ? this.onWheel : nothing}
        @keydown=${this.onKey}
        @pointerdown=${this.onPointerDown}
        @pointerover=${this.onPointerOver}
        @dblclick=${this.openRow}
      >
        <div class="sizer" role="presentation">
          <div class="view" role="presentation">
            ${headerTemplate(view)}
            <div class="body" role="rowgroup">${rowsTemplate(view)}</div>
          </div>
        </div>
        <div class="probe" role="presentation"></div>
      </div>
      <p class="about">${this.renderAbout()}</p>
      <p class="spoken" aria-live="polite">${this.voice.text}</p>
    `;
  }
}

/** Style sheets of elements may not hold what is computed, and the page's policy forbids style attributes. */
function setLengths(element: HTMLElement, lengths: Readonly<Record<string, string>>): void {
  for (const [name, value] of Object.entries(lengths)) {
    if (element.style.getPropertyValue(name) !== value) element.style.setProperty(name, value);
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-readings-grid': ReadingsGrid;
  }
}
