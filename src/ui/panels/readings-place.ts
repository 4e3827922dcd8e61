import { html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { LISTED_FIELDS, type ReadingRow, type ReadingsCount, type ReadingsQuery } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { followSession } from '../controllers/session-controller.ts';
import type { ReadingsGrid } from '../grid/readings-grid.ts';
import '../grid/readings-grid.ts';
import type { SortKeys } from '../grid/sort-keys.ts';
import { readingsHash, readReadingsQuery, type Route } from '../route.ts';
import { shared } from '../styles/shared.styles.ts';
import './readings-details.ts';
import type { ReadingsFilter } from './readings-filter.ts';
import './readings-filter.ts';
import { readingsPlaceStyles } from './readings-place.styles.ts';
import {
  countSentence,
  filterOn,
  filterSentence,
  withFilter,
  withoutFilter,
  type FilterField,
} from './readings-query.ts';

/** Fields by which readings can be chosen, in the order in which a person looks for them. */
const CHOSEN_BY: readonly FilterField[] = [...LISTED_FIELDS, 'reading', 'time'];

/** How long after the last letter a search begins, in milliseconds. */
const SEARCH_AFTER = 200;

/** The readings of the bench: which of them are shown, in words that can be taken away one by one, and the grid of them. */
@customElement('bt-readings-place')
export class ReadingsPlace extends LitElement {
  static override styles = [shared, readingsPlaceStyles];

  private searchTimer = 0;

  @query('bt-readings-grid') private readonly grid!: ReadingsGrid;
  @query('bt-readings-filter') private readonly filter!: ReadingsFilter | null;

  @state() private asked: ReadingsQuery = { filters: [], sort: [] };
  @state() private count: ReadingsCount | undefined;
  @state() private choosing: FilterField | undefined;
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
    if (changed.has('route')) this.asked = readReadingsQuery(this.route.query);
  }

  private get mark() {
    return this.session?.state.decimalMark ?? '.';
  }

  /** Shows another query and writes it into the address: a step to come back to, or in place of the last one. */
  private ask(query: ReadingsQuery, isStep: boolean): void {
    this.asked = query;
    const hash = readingsHash(query);
    if (isStep) location.hash = hash;
    else location.replace(hash);
  }

  private onQuery(event: CustomEvent<ReadingsQuery>): void {
    this.ask(event.detail, true);
  }

  private onSort(event: CustomEvent<SortKeys>): void {
    this.ask({ ...this.asked, sort: event.detail }, false);
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

  private choose(field: FilterField): void {
    this.choosing = this.choosing === field ? undefined : field;
    if (this.choosing !== undefined) void this.updateComplete.then(() => this.filter?.focus());
  }

  private closeFilter(): void {
    const field = this.choosing;
    this.choosing = undefined;
    this.renderRoot.querySelector<HTMLElement>(`[data-field="${field ?? ''}"]`)?.focus();
  }

  private async removeFilter(field: FilterField): Promise<void> {
    this.ask(withoutFilter(this.asked, field), true);
    await this.updateComplete;
    // The button that was pressed is gone: the next sentence takes its place, or the way to a new one.
    const next = this.renderRoot.querySelector<HTMLElement>('.asked button, .narrow button');
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
      <p class="quiet" role="status">${count === undefined ? 'Counting readings' : countSentence(count, mark)}</p>
    </div>`;
  }

  override render() {
    const { session } = this;
    if (session === undefined) return nothing;
    return html`
      <h1 class="spoken">Readings</h1>
      ${this.renderNarrow()}
      ${
        this.choosing === undefined
          ? nothing
          : html`<bt-readings-filter
              .session=${session}
              .query=${this.asked}
              .field=${this.choosing}
              @query-chosen=${this.onQuery}
              @filter-closed=${this.closeFilter}
            ></bt-readings-filter>`
      }
      ${this.renderAsked()}
      <bt-readings-grid
        .session=${session}
        .query=${this.asked}
        @readings-counted=${this.onCount}
        @sort-chosen=${this.onSort}
        @row-reached=${this.onReached}
        @row-opened=${this.onOpened}
      ></bt-readings-grid>
      ${
        this.detailed
          ? html`<bt-readings-details
              .row=${this.current}
              .decimalMark=${this.mark}
              @details-closed=${this.closeDetails}
            ></bt-readings-details>`
          : nothing
      }
    `;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-readings-place': ReadingsPlace;
  }
}
