import { html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { GridLine, Grouping, ReadingRow, ReadingsQuery, SelectionSummary } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { tapeStyles } from '../charts/tolerance-tape.styles.ts';
import { GridColumnsController } from '../controllers/grid-columns-controller.ts';
import { GridEditController } from '../controllers/grid-edit-controller.ts';
import { GridPointerController } from '../controllers/grid-pointer-controller.ts';
import { GridRowsController, linesOf, type Opened } from '../controllers/grid-rows-controller.ts';
import { AnswerController } from '../controllers/answer-controller.ts';
import { GridVoiceController } from '../controllers/grid-voice-controller.ts';
import { ResizeController } from '../controllers/resize-controller.ts';
import { followSession } from '../controllers/session-controller.ts';
import { shared } from '../styles/shared.styles.ts';
import { FIRST_LAYOUT, type ColumnLayout } from './column-layout.ts';
import { copyRows } from './copy-rows.ts';
import type { CopyManner } from './copy-text.ts';
import { derivedFields } from './grid-columns.ts';
import { clampCursor, cursorAt, extendTo, HEADER_ROW, moveByKey, rangeOf } from './grid-cursor.ts';
import type { GridCursor, GridExtent, GridRange } from './grid-cursor.ts';
import { gridEditStyles } from './grid-edit.styles.ts';
import { footTemplate, type GridFoot } from './grid-foot.ts';
import { setLengths } from './grid-lengths.ts';
import { GridScroll } from './grid-scroll.ts';
import { cellElement, headerTemplate, rowsTemplate, type GridView } from './grid-view.ts';
import { isScaled, rowsPerView, wheelPixels } from './grid-window.ts';
import { foldedOther, isGroup, spokenLine } from './group-text.ts';
import { gridStyles } from './readings-grid.styles.ts';
import { wayFrom } from './row-ways.ts';
import { summaryQuestion } from './selection-line.ts';
import { measureColumn, showColumn, stretchOf } from './show-column.ts';
import { nextSort, type SortKeys } from './sort-keys.ts';

/**
 * Readings as a grid of any length: sorted and filtered in the worker, drawn as far as they are seen.
 *
 * @fires readings-counted - `ReadingsCount` of the query, once its first rows are here
 * @fires sort-chosen - `SortKeys` that a person chose by a header
 * @fires layout-chosen - `ColumnLayout` that a person chose by pointer or key
 * @fires grouping-chosen - `Grouping` with a group folded or unfolded
 * @fires row-reached - `ReadingRow` under the cursor, or undefined where it is on none
 * @fires row-opened - `ReadingRow` of which a person wants to know more
 * @fires keys-asked - a person wants to see all keys
 */
@customElement('bt-readings-grid')
export class ReadingsGrid extends LitElement {
  static override styles = [shared, tapeStyles, gridStyles, gridEditStyles];

  private readonly place = new GridScroll();
  private readonly rows = new GridRowsController(this, {
    landing: (opened) => ({
      row: Math.max(0, this.cursorAfter(opened).row),
      reach: rowsPerView(this.place.shape),
    }),
    keep: (): GridLine | undefined => (this.touched ? this.rows.row(this.cursor.row) : undefined),
    opened: (opened) => {
      this.follow(opened);
    },
  });
  private readonly voice = new GridVoiceController(this);
  private readonly say = this.voice.say;
  private readonly columns = new GridColumnsController(this, {
    measure: (column) => measureColumn(this.renderRoot, this.scroller, column),
    mark: () => this.mark,
    chosen: (layout) => {
      this.layout = layout;
      this.dispatchEvent(new CustomEvent<ColumnLayout>('layout-chosen', { detail: layout }));
    },
    say: this.say,
  });
  private readonly pointer = new GridPointerController(this, {
    select: ({ row, column }, extend) => {
      const editor = this.renderRoot.querySelector<HTMLInputElement>('.editor');
      if (editor) void this.edits.keep(editor.value, false);
      this.moveTo(extend ? extendTo(this.cursor, row, column) : cursorAt(row, column));
    },
    chooseHeader: (column, add) => {
      this.chooseSort(column, add);
    },
    follow: () => {
      this.followCell();
    },
    moveColumn: this.columns.move,
    resizeColumn: this.columns.resize,
    markTarget: this.columns.markTarget,
  });
  private readonly edits = new GridEditController(this, {
    edited: () => {
      const { session, range } = this;
      const shown = this.rows.query ?? this.query;
      const cells = range ?? { firstRow: 0, lastRow: -1, firstColumn: 0, lastColumn: -1 };
      return session && { session, query: shown, range: cells, lines: this.rowCount, columns: this.columns.shown };
    },
    cursor: () => this.cursor,
    row: (line) => this.rows.row(line),
    say: this.voice.note,
    focusCell: (by) => {
      const { row, column } = this.cursor;
      if (by === 0) this.focus();
      else this.moveTo(cursorAt(Math.min(row + by, this.rowCount - 1), column));
    },
  });
  private readonly summary = new AnswerController<SelectionSummary>(this, () =>
    summaryQuestion(this.session, this.rows.query, this.range),
  );
  /** The reading or group that was under the cursor last. */
  private reached: GridLine | undefined;
  /** What is to be said of a reading that left, before the one that took its place. */
  private farewell = '';
  /** Whether the cursor was moved, so that the focus has to follow it. */
  private focusMoves = false;
  /** Whether a cell had the focus before the last drawing. */
  private hadFocus = false;
  /** Whether a person has put the cursor where it is. */
  private touched = false;
  private headerHeight = 0;

  @query('.scroller') private readonly scroller!: HTMLElement;
  @query('.header') private readonly header!: HTMLElement;
  @query('.probe') private readonly probe!: HTMLElement;

  @state() private cursor: GridCursor = cursorAt(0, 0);

  @property({ attribute: false }) session?: Session;
  /** What to show; `session` and this are set by whoever holds the grid. */
  @property({ attribute: false }) query: ReadingsQuery = { filters: [], sort: [] };
  @property({ attribute: false }) layout: ColumnLayout = FIRST_LAYOUT;

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

  /** Moves the focus to the current cell. */
  override focus(): void {
    this.focusMoves = true;
    this.requestUpdate();
  }

  protected override willUpdate(changed: PropertyValues): void {
    this.hadFocus = this.renderRoot.querySelector('.scroller :focus') !== null;
    if (changed.has('layout')) this.showLayout();
    if (this.session !== undefined)
      this.rows.open(this.session, this.query, derivedFields(this.columns.shown), this.edits.edition);
    const { first, count } = this.place.visible;
    // Of a view as high as it is now, though rows are not here yet.
    this.rows.want(first, first + Math.max(count, rowsPerView(this.place.shape)));
  }

  protected override updated(): void {
    const { shape, visible } = this.place;
    setLengths(this.scroller, { columns: this.columns.shown, shape, visible, headerHeight: this.headerHeight });
    const bar = this.place.takeBar();
    if (bar !== undefined) this.scroller.scrollTop = bar;
    const editor = this.edits.editor && this.renderRoot.querySelector<HTMLInputElement>('.editor');
    if (editor) editor.focus();
    else if (this.focusMoves || this.focusWasLost()) this.focusCell();
    this.reach();
  }

  private get extent(): GridExtent {
    return {
      rows: this.rowCount,
      columns: this.columns.shown.length,
      page: Math.max(1, rowsPerView(this.place.shape) - 1),
    };
  }

  private get rowCount(): number {
    return this.rows.lines;
  }

  private get range(): GridRange | undefined {
    return rangeOf(this.cursor, this.extent);
  }

  private measure(): void {
    this.scroller.style.setProperty('--stretch', String(stretchOf(this.probe)));
    const rowHeight = Math.round(this.probe.getBoundingClientRect().height);
    this.headerHeight = this.header.offsetHeight;
    const viewHeight = Math.max(0, this.scroller.clientHeight - this.headerHeight);
    const { shape } = this.place;
    if (rowHeight === shape.rowHeight && viewHeight === shape.viewHeight) return;
    this.place.reshape({ rows: this.rowCount, rowHeight, viewHeight }, this.cursor.row);
    this.requestUpdate();
  }

  /** Where the cursor goes with a new query: it stays on its reading, else in its place where a person put it there. */
  private cursorAfter({ count, kept }: Opened): GridCursor {
    const { row, column } = this.cursor;
    const extent = { ...this.extent, rows: linesOf(count) };
    if (kept !== undefined && kept >= 0) return cursorAt(kept, column);
    const stays = row === HEADER_ROW ? this.matches(':focus-within') : this.touched;
    return clampCursor(stays ? cursorAt(row, column) : cursorAt(0, 0), extent);
  }

  private follow(opened: Opened): void {
    const { count, kept } = opened;
    const { reached } = this;
    const focused = this.scroller.matches(':focus-within');
    this.cursor = this.cursorAfter(opened);
    this.place.reshape({ ...this.place.shape, rows: linesOf(count) });
    this.place.show(Math.max(0, this.cursor.row));
    this.focusMoves ||= focused;
    if (kept === -1 && reached !== undefined && !isGroup(reached) && focused)
      this.farewell = `The reading of ${reached.point} is not among these. `;
    this.reached = undefined;
    this.dispatchEvent(new CustomEvent('readings-counted', { detail: count }));
  }

  private get mark() {
    return this.session?.state.decimalMark ?? '.';
  }

  private moveTo(cursor: GridCursor): void {
    this.cursor = cursor;
    this.touched = true;
    this.focusMoves = true;
    if (cursor.row >= 0) this.place.show(cursor.row);
  }

  /** A row that is drawn elsewhere in the list than before, or as a group once it is here, loses the focus with its old nodes. */
  private focusWasLost(): boolean {
    return this.hadFocus && this.shadowRoot?.activeElement === null;
  }

  private focusCell(): void {
    const cell = cellElement(this.renderRoot, this.cursor);
    if (cell === null) return;
    this.focusMoves = false;
    cell.focus({ preventScroll: true });
    showColumn(this.scroller, this.header, cell);
  }

  /** Tells who listens which reading is current, once it is here. */
  private reach(): void {
    const row = this.rows.row(this.cursor.row);
    if (row === this.reached || (row === undefined && this.cursor.row >= 0)) return;
    this.reached = row;
    this.dispatchEvent(new CustomEvent('row-reached', { detail: isGroup(row) ? undefined : row }));
    if (row === undefined || !this.scroller.matches(':focus-within')) return;
    this.say(this.farewell + spokenLine(row, this.cursor.row, this.rowCount, this.mark));
    this.farewell = '';
  }

  private onScroll(): void {
    if (this.place.followBar(this.scroller.scrollTop)) this.requestUpdate();
  }

  /** A scaled scroll bar would jump over rows at each notch of the wheel. */
  private onWheel(event: WheelEvent): void {
    const pixels = wheelPixels(event, this.place.shape);
    if (pixels === undefined) return;
    event.preventDefault();
    this.place.moveBy(pixels);
    this.requestUpdate();
  }

  private onKey(event: KeyboardEvent): void {
    const command = event.ctrlKey || event.metaKey;
    const isHeader = this.cursor.row === HEADER_ROW;
    if (command && event.key.toLowerCase() === 'c') void this.copy(event.shiftKey ? 'exact' : 'spreadsheet');
    else if (event.key === '?') this.dispatchEvent(new CustomEvent('keys-asked'));
    else if (event.key === 'Enter' && isHeader) this.chooseSort(this.cursor.column, event.shiftKey);
    else if (event.key === 'Enter' && command) this.followCell();
    else if (event.key === 'Enter') this.openRow();
    else if (!(isHeader && this.columns.press(this.cursor.column, event)) && !this.edits.press(event, isHeader)) {
      const next = moveByKey(this.cursor, event, this.extent);
      if (next === undefined) return;
      this.moveTo(next);
    }
    event.preventDefault();
  }

  /** Takes the columns of a new layout; the cursor stays in its column where that is shown. */
  private showLayout(): void {
    const { row, column } = this.cursor;
    const now = this.columns.show(this.layout, column);
    if (now !== column) this.cursor = now < 0 ? clampCursor(this.cursor, this.extent) : cursorAt(row, now);
    this.focusMoves ||= this.matches(':focus-within');
  }

  private chooseSort(column: number, add: boolean): void {
    const field = this.columns.shown[column]?.sort;
    if (field === undefined) return;
    const detail = nextSort(this.query.sort, field, add);
    this.dispatchEvent(new CustomEvent<SortKeys>('sort-chosen', { detail }));
  }

  private openRow(): void {
    const row = this.rows.row(this.cursor.row);
    const { group } = this.query;
    if (isGroup(row) && group !== undefined)
      this.dispatchEvent(new CustomEvent<Grouping>('grouping-chosen', { detail: foldedOther(group, row.group) }));
    else if (row !== undefined && !isGroup(row))
      this.dispatchEvent(new CustomEvent<ReadingRow>('row-opened', { detail: row }));
  }

  /** Goes to what the current cell names: the repair, the band, the line of its file. */
  private followCell(): void {
    const row = this.rows.row(this.cursor.row);
    const column = this.columns.shown[this.cursor.column];
    if (row !== undefined && !isGroup(row) && column !== undefined) location.hash = wayFrom(column.id, row);
  }

  private onDoubleClick(event: MouseEvent): void {
    if (!this.pointer.resetWidth(event)) this.openRow();
  }

  private onPaste(event: ClipboardEvent): void {
    if (this.edits.editor !== undefined) return;
    event.preventDefault();
    void this.edits.pasting.begin(event.clipboardData?.getData('text/plain') ?? '');
  }

  private async copy(manner: CopyManner): Promise<void> {
    const { session, range } = this;
    const { query: shown } = this.rows;
    if (session === undefined || shown === undefined || range === undefined) return;
    const columns = this.columns.shown.slice(range.firstColumn, range.lastColumn + 1);
    this.say(await copyRows(session, shown, range, columns, manner, this.edits.copiesHeaders));
  }

  private get foot(): GridFoot {
    const { range } = this;
    const isOfSeveral = range !== undefined && range.firstRow !== range.lastRow;
    return {
      fault: this.rows.fault,
      isEmpty: this.rowCount === 0,
      selection: isOfSeveral ? this.summary.answer : undefined,
      edits: this.edits,
      mark: this.mark,
      copy: (manner) => {
        void this.copy(manner);
      },
    };
  }

  private get view(): GridView {
    return {
      columns: this.columns.shown,
      sort: this.query.sort,
      grouped: this.rows.query?.group !== undefined,
      target: this.columns.target,
      edits: this.edits,
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
        role=${view.grouped ? 'treegrid' : 'grid'}
        aria-label="Readings"
        aria-multiselectable="true"
        aria-rowcount=${view.rowCount + 1}
        aria-colcount=${this.columns.shown.length}
        aria-busy=${this.rows.busy}
        @scroll=${this.onScroll}
        @wheel=${isScaled(this.place.shape) ? this.onWheel : nothing}
        @keydown=${this.onKey}
        @pointerdown=${this.pointer.press}
        @pointerover=${this.pointer.over}
        @dblclick=${this.onDoubleClick}
        @paste=${this.onPaste}
      >
        <div class="sizer" role="presentation">
          <div class="view" role="presentation">
            ${headerTemplate(view)}
            <div class="body" role="rowgroup">${rowsTemplate(view)}</div>
          </div>
        </div>
        <div class="probe" role="presentation">0000</div>
      </div>
      ${footTemplate(this.foot)}
      <p class="spoken" aria-live="polite">${this.voice.text}</p>
    `;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-readings-grid': ReadingsGrid;
  }
}
