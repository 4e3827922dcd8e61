import { html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import {
  GROUP_FIELDS,
  LISTED_FIELDS,
  type Grouping,
  type ReadingRow,
  type ReadingsCount,
  type ReadingsQuery,
} from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { followSession } from '../controllers/session-controller.ts';
import { FIRST_LAYOUT, writeLayout, type ColumnLayout } from '../grid/column-layout.ts';
import type { ReadingsGrid } from '../grid/readings-grid.ts';
import '../grid/readings-grid.ts';
import type { GridShortcuts } from '../grid/shortcuts-dialog.ts';
import '../grid/shortcuts-dialog.ts';
import type { SortKeys } from '../grid/sort-keys.ts';
import type { Route } from '../route.ts';
import { shared } from '../styles/shared.styles.ts';
import { readReadingsAddress, writeReadingsAddress, writeViewAddress } from './readings-address.ts';
import type { ReadingsColumns } from './readings-columns.ts';
import './readings-columns.ts';
import './readings-details.ts';
import type { ReadingsFilter } from './readings-filter.ts';
import './readings-filter.ts';
import { memoryOf } from './readings-memory.ts';
import { readingsPlaceStyles } from './readings-place.styles.ts';
import {
  countSentence,
  filterOn,
  filterSentence,
  withFilter,
  withoutFilter,
  type FilterField,
} from './readings-query.ts';
import type { ReadingsSave } from './readings-save.ts';
import './readings-save.ts';
import type { ReadingsViews } from './readings-views.ts';
import './readings-views.ts';

/** Fields by which readings can be chosen, in the order in which a person looks for them. */
const CHOSEN_BY: readonly FilterField[] = [...LISTED_FIELDS, 'reading', 'time'];

/** What can be chosen of the grid as a whole. */
type Arranged = 'columns' | 'views' | 'save as CSV';

/** How long after the last letter a search begins, in milliseconds. */
const SEARCH_AFTER = 200;

/** The readings of the bench: which of them are shown, in words that can be taken away one by one, and the grid of them. */
@customElement('bt-readings-place')
export class ReadingsPlace extends LitElement {
  static override styles = [shared, readingsPlaceStyles];

  private searchTimer = 0;

  @query('bt-readings-grid') private readonly grid!: ReadingsGrid;
  @query('bt-grid-shortcuts') private readonly shortcuts!: GridShortcuts;
  @query('bt-readings-filter, bt-readings-columns, bt-readings-views, bt-readings-save') private readonly panel!:
    ReadingsFilter | ReadingsColumns | ReadingsViews | ReadingsSave | null;

  @state() private asked: ReadingsQuery = { filters: [], sort: [] };
  @state() private count: ReadingsCount | undefined;
  @state() private layout: ColumnLayout = FIRST_LAYOUT;
  /** What a panel is open for, if any. */
  @state() private choosing: FilterField | Arranged | undefined;
  @state() private current: ReadingRow | undefined;
  @state() private detailed = false;

  @property({ attribute: false }) session?: Session;
  @property({ attribute: false }) route: Route = { place: 'readings', query: '' };

  constructor() {
    super();
    followSession(this, () => this.session);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    clearTimeout(this.searchTimer);
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('route') && !changed.has('session')) return;
    const { query: asked, layout } = readReadingsAddress(this.route.query);
    this.asked = asked;
    if (this.session === undefined) return;
    const memory = memoryOf(this.session);
    // An address says nothing of the order of hidden columns: where it shows the same, all stays as it is.
    if (layout !== undefined && writeLayout(layout) !== writeLayout(memory.layout)) memory.layout = layout;
    this.layout = memory.layout;
  }

  private get mark() {
    return this.session?.state.decimalMark ?? '.';
  }

  /** Shows another query and writes it into the address: a step to come back to, or in place of the last one. */
  private ask(query: ReadingsQuery, isStep: boolean): void {
    this.asked = query;
    this.writeAddress(isStep);
  }

  private writeAddress(isStep: boolean): void {
    const hash = writeReadingsAddress({ query: this.asked, layout: this.layout });
    if (isStep) location.hash = hash;
    else location.replace(hash);
  }

  private onQuery(event: CustomEvent<ReadingsQuery>): void {
    this.ask(event.detail, true);
  }

  private onSort(event: CustomEvent<SortKeys>): void {
    this.ask({ ...this.asked, sort: event.detail }, false);
  }

  private onGrouping(event: CustomEvent<Grouping>): void {
    this.ask({ ...this.asked, group: event.detail }, false);
  }

  private onGroupBy(event: Event): void {
    const { value } = event.target as HTMLSelectElement;
    const by = GROUP_FIELDS.find((field) => field === value);
    const { filters, sort } = this.asked;
    this.ask({ filters, sort, ...(by && { group: { by, folded: true, except: [] } }) }, true);
  }

  private foldAll(group: Grouping, folded: boolean): void {
    this.ask({ ...this.asked, group: { ...group, folded, except: [] } }, false);
  }

  private onLayout(event: CustomEvent<ColumnLayout>): void {
    this.layout = event.detail;
    if (this.session !== undefined) memoryOf(this.session).layout = event.detail;
    this.writeAddress(false);
  }

  private showKeys(): void {
    this.shortcuts.open();
  }

  private onCount(event: CustomEvent<ReadingsCount>): void {
    this.count = event.detail;
  }

  private onReached(event: CustomEvent<ReadingRow | undefined>): void {
    this.current = event.detail;
  }

  private onOpened(): void {
    this.detailed = !this.detailed;
  }

  private closeDetails(): void {
    this.detailed = false;
    this.grid.focus();
  }

  private onSearch(event: InputEvent): void {
    const contains = (event.target as HTMLInputElement).value;
    clearTimeout(this.searchTimer);
    this.searchTimer = window.setTimeout(() => {
      this.ask(withFilter(this.asked, { field: 'text', contains }), false);
    }, SEARCH_AFTER);
  }

  private choose(field: FilterField | Arranged): void {
    this.choosing = this.choosing === field ? undefined : field;
    if (this.choosing !== undefined) {
      void this.updateComplete.then(() => {
        this.panel?.focus();
      });
    }
  }

  private closePanel(): void {
    const field = this.choosing;
    this.choosing = undefined;
    this.renderRoot.querySelector<HTMLElement>(`[data-field="${field ?? ''}"]`)?.focus();
  }

  private async removeFilter(field: FilterField): Promise<void> {
    this.ask(withoutFilter(this.asked, field), true);
    await this.updateComplete;
    // The button that was pressed is gone: the next sentence takes its place, or the way to a new one.
    const next =
      this.renderRoot.querySelector<HTMLElement>('.asked li button') ??
      this.renderRoot.querySelector<HTMLElement>('.narrow button');
    next?.focus();
  }

  private renderNarrow() {
    const text = filterOn(this.asked, 'text');
    return html`<div class="narrow">
      <span class="quiet">Choose by</span>
      ${CHOSEN_BY.map(
        (field) =>
          html`<button
            class="plain"
            type="button"
            data-field=${field}
            aria-expanded=${this.choosing === field}
            @click=${() => {
              this.choose(field);
            }}
          >
            ${field}
          </button>`,
      )}
      <label
        >or find
        <input
          type="search"
          .value=${text !== undefined && 'contains' in text ? text.contains : ''}
          @input=${this.onSearch}
      /></label>
    </div>`;
  }

  private renderArrange() {
    const { group } = this.asked;
    const opener = (panel: Arranged) =>
      html`<button
        class="plain"
        type="button"
        data-field=${panel}
        aria-expanded=${this.choosing === panel}
        @click=${() => {
          this.choose(panel);
        }}
      >
        ${panel}
      </button>`;
    return html`<div class="narrow arrange">
      <label class="group"
        >group by
        <select @change=${this.onGroupBy}>
          <option value="" .selected=${group === undefined}>nothing</option>
          ${GROUP_FIELDS.map((field) => html`<option value=${field} .selected=${group?.by === field}>${field}</option>`)}
        </select></label
      >
      ${
        group === undefined
          ? nothing
          : [true, false].map(
              (folded) =>
                html`<button
                  class="plain"
                  type="button"
                  @click=${() => {
                    this.foldAll(group, folded);
                  }}
                >
                  ${folded ? 'fold all' : 'unfold all'}
                </button>`,
            )
      }
      ${opener('columns')} ${opener('views')} ${opener('save as CSV')}
      <button class="plain" type="button" @click=${this.showKeys}>keys</button>
    </div>`;
  }

  private renderPanel(session: Session) {
    const { choosing } = this;
    if (choosing === undefined) return nothing;
    if (choosing === 'columns')
      return html`<bt-readings-columns
        .layout=${this.layout}
        @layout-chosen=${this.onLayout}
        @columns-closed=${this.closePanel}
      ></bt-readings-columns>`;
    if (choosing === 'views')
      return html`<bt-readings-views
        .session=${session}
        .address=${writeViewAddress({ query: this.asked, layout: this.layout })}
        @views-closed=${this.closePanel}
      ></bt-readings-views>`;
    if (choosing === 'save as CSV')
      return html`<bt-readings-save
        .session=${session}
        .query=${this.asked}
        @save-closed=${this.closePanel}
      ></bt-readings-save>`;
    return html`<bt-readings-filter
      .session=${session}
      .query=${this.asked}
      .field=${choosing}
      @query-chosen=${this.onQuery}
      @filter-closed=${this.closePanel}
    ></bt-readings-filter>`;
  }

  private renderAsked() {
    const { count, mark } = this;
    return html`<div class="asked">
      ${
        this.asked.filters.length === 0
          ? nothing
          : html`<ul aria-label="Only these readings are shown">
              ${this.asked.filters.map((filter) => {
                const sentence = filterSentence(filter, mark);
                return html`<li>
                  ${sentence}
                  <button
                    class="plain"
                    type="button"
                    aria-label="remove: ${sentence}"
                    @click=${() => this.removeFilter(filter.field)}
                  >
                    remove
                  </button>
                </li>`;
              })}
            </ul>`
      }
      <p class="quiet" role="status">
        ${count === undefined ? 'Counting readings' : countSentence(this.asked, count, mark)}
      </p>
      ${this.renderArrange()}
    </div>`;
  }

  override render() {
    const { session } = this;
    if (session === undefined) return nothing;
    return html`
      <h1 class="spoken">Readings</h1>
      ${this.renderNarrow()} ${this.renderPanel(session)} ${this.renderAsked()}
      <bt-readings-grid
        .session=${session}
        .query=${this.asked}
        .layout=${this.layout}
        @layout-chosen=${this.onLayout}
        @grouping-chosen=${this.onGrouping}
        @keys-asked=${this.showKeys}
        @readings-counted=${this.onCount}
        @sort-chosen=${this.onSort}
        @row-reached=${this.onReached}
        @row-opened=${this.onOpened}
      ></bt-readings-grid>
      ${
        this.detailed
          ? html`<bt-readings-details
              .session=${session}
              .row=${this.current}
              .decimalMark=${this.mark}
              @details-closed=${this.closeDetails}
            ></bt-readings-details>`
          : nothing
      }
      <bt-grid-shortcuts></bt-grid-shortcuts>
    `;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-readings-place': ReadingsPlace;
  }
}
