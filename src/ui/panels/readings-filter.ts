import { html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { ifDefined } from 'lit/directives/if-defined.js';
import {
  LISTED_FIELDS,
  type FacetValue,
  type Filter,
  type ListedField,
  type ReadingsQuery,
} from '../../session/answers.ts';
import type { Unit } from '../../domain/quantity.ts';
import type { Session } from '../../session/session.ts';
import { AnswerController } from '../controllers/answer-controller.ts';
import { followSession } from '../controllers/session-controller.ts';
import { shared } from '../styles/shared.styles.ts';
import { countText } from '../words.ts';
import { readingsFilterStyles } from './readings-filter.styles.ts';
import {
  filterOn,
  readNumber,
  readTime,
  toggleValue,
  valuesOn,
  withFilter,
  withoutFilter,
  writeNumber,
  writeTime,
  type FilterField,
} from './readings-query.ts';

/** More values than this are not listed at once: typing finds the others. */
const VALUES_LISTED = 120;

/**
 * Lets a person choose what one field of the readings may be: values from a list with counts, or a range.
 * @fires query-chosen - detail: the `ReadingsQuery` with what was chosen
 * @fires filter-closed - the person is done
 */
@customElement('bt-readings-filter')
export class ReadingsFilter extends LitElement {
  static override styles = [shared, readingsFilterStyles];

  private readonly values = new AnswerController<readonly FacetValue[]>(this, () => this.question());

  private focusWaits = false;

  @state() private searched = '';
  /** Which end of the range was typed so that it cannot be read, if any. */
  @state() private unread: 'from' | 'to' | undefined;

  @property({ attribute: false }) session?: Session;
  @property({ attribute: false }) query: ReadingsQuery = { filters: [], sort: [] };
  @property({ attribute: false }) field: FilterField = 'family';

  constructor() {
    super();
    followSession(this, () => this.session);
  }

  /** Moves the focus to the first thing to fill in, once that is here. */
  override focus(): void {
    this.focusWaits = true;
    this.requestUpdate();
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('field')) return;
    this.searched = '';
    this.unread = undefined;
  }

  protected override updated(): void {
    const input = this.focusWaits ? this.renderRoot.querySelector('input') : null;
    if (input === null) return;
    this.focusWaits = false;
    input.focus();
  }

  private get listed(): ListedField | undefined {
    return LISTED_FIELDS.find((field) => field === this.field);
  }

  private question() {
    const { session, listed: field } = this;
    if (session === undefined || field === undefined) return undefined;
    // Counts are of what the other filters let through, so that further values can be added to this one.
    const others = withoutFilter({ filters: this.query.filters, sort: [] }, field);
    return {
      key: JSON.stringify([session.state.revision, others, field]),
      ask: (signal: AbortSignal) => session.ask('facet', [others, field], signal),
    };
  }

  private choose(query: ReadingsQuery): void {
    this.dispatchEvent(new CustomEvent<ReadingsQuery>('query-chosen', { detail: query }));
  }

  private close(): void {
    this.dispatchEvent(new CustomEvent('filter-closed'));
  }

  private onKey(event: KeyboardEvent): void {
    if (event.key !== 'Escape') return;
    event.preventDefault();
    this.close();
  }

  private onSearch(event: InputEvent): void {
    this.searched = (event.target as HTMLInputElement).value;
  }

  private onValue(event: Event): void {
    const { listed } = this;
    if (listed !== undefined) this.choose(toggleValue(this.query, listed, (event.target as HTMLInputElement).value));
  }

  private onBound(event: Event): void {
    const { name, value } = event.target as HTMLInputElement;
    const end = name === 'from' ? 'from' : 'to';
    const { field } = this;
    if (field !== 'time' && field !== 'reading') return;
    const typed = field === 'time' ? undefined : readNumber(value);
    const bound = field === 'time' ? readTime(value) : typed?.value;
    this.unread = bound === undefined && value !== '' ? end : undefined;
    if (this.unread !== undefined) return;
    const { bounds } = this;
    const from = end === 'from' ? bound : bounds.from;
    const to = end === 'to' ? bound : bounds.to;
    // A unit named at one end is that of the other, too.
    const unit = typed?.unit ?? ((end === 'from' ? to : from) === undefined ? undefined : bounds.unit);
    const filter: Filter = {
      field,
      ...(from !== undefined && { from }),
      ...(to !== undefined && { to }),
      ...(unit && { unit }),
    };
    this.choose(withFilter(this.query, filter));
  }

  private get bounds(): { readonly from?: number; readonly to?: number; readonly unit?: Unit } {
    const filter = filterOn(this.query, this.field);
    return filter !== undefined && (filter.field === 'time' || filter.field === 'reading') ? filter : {};
  }

  private renderRange() {
    const { from, to, unit } = this.bounds;
    const mark = this.session?.state.decimalMark ?? '.';
    const isTime = this.field === 'time';
    const text = (bound: number | undefined): string =>
      bound === undefined ? '' : isTime ? writeTime(bound) : writeNumber(bound, mark, unit);
    const input = (name: 'from' | 'to', bound: number | undefined) =>
      html`<label
        >${name}
        <input
          name=${name}
          type=${isTime ? 'datetime-local' : 'text'}
          step=${ifDefined(isTime ? 1 : undefined)}
          .value=${text(bound)}
          aria-invalid=${this.unread === name}
          aria-describedby="hint"
          @change=${this.onBound}
      /></label>`;
    return html`<div class="range">
      ${input('from', from)} ${input('to', to)}
      <p id="hint" class=${this.unread === undefined ? 'quiet' : 'wrong'} aria-live="polite">
        ${
          this.unread === undefined
            ? isTime
              ? 'Both ends count.'
              : 'Both ends count. With a unit, as in 12.7 V or 640 kΩ, readings in other units are left out; without one each is held against the number in its own.'
            : 'This is no number: write it as 12.7, 640k or 0.64 MΩ.'
        }
      </p>
    </div>`;
  }

  private renderList() {
    const { answer } = this.values;
    if (answer.status === 'failed') return html`<p role="alert">${answer.reason}</p>`;
    const all = answer.value ?? [];
    const wanted = this.searched.toLowerCase();
    const found = all.filter(({ value }) => value.toLowerCase().includes(wanted));
    const shown = found.slice(0, VALUES_LISTED);
    const mark = this.session?.state.decimalMark ?? '.';
    const chosen = this.listed === undefined ? [] : valuesOn(this.query, this.listed);
    return html`
      ${
        all.length > 12
          ? html`<label class="search"
              >find a ${this.field} <input type="search" .value=${this.searched} @input=${this.onSearch}
            /></label>`
          : nothing
      }
      <ul>
        ${shown.map(
          ({ value, count }) =>
            html`<li>
              <label
                ><input type="checkbox" .value=${value} .checked=${chosen.includes(value)} @change=${this.onValue} />
                <span class="value">${value || 'not stated'}</span>
                <span class="quiet figures">${countText(count, mark)}</span></label
              >
            </li>`,
        )}
      </ul>
      ${
        shown.length < found.length
          ? html`<p class="quiet">
              ${countText(shown.length, mark)} of ${countText(found.length, mark)} are listed: type to find the others.
            </p>`
          : nothing
      }
      ${answer.status === 'ready' && found.length === 0 ? html`<p class="quiet">There is no such ${this.field}.</p>` : nothing}
    `;
  }

  override render() {
    return html`<section aria-label="Choose by ${this.field}" @keydown=${this.onKey}>
      <fieldset>
        <legend>Show readings whose <b>${this.field}</b> is</legend>
        ${this.listed === undefined ? this.renderRange() : this.renderList()}
      </fieldset>
      <button type="button" @click=${this.close}>Done</button>
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-readings-filter': ReadingsFilter;
  }
}
