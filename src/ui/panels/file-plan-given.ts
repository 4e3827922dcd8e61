import { LitElement, css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Given } from '../../domain/file-plan.ts';
import { MODE_UNITS } from '../../domain/reading.ts';
import type { FacetValue } from '../../session/answers.ts';
import { givenFields, type GivenField } from '../../session/plan-check.ts';
import { withGiven } from '../../session/plan-edits.ts';
import type { Session } from '../../session/session.ts';
import type { WaitingFile } from '../../session/waiting-file.ts';
import { AnswerController } from '../controllers/answer-controller.ts';
import { shared } from '../styles/shared.styles.ts';
import { listText } from '../words.ts';
import { PlanChanged } from './file-plan-events.ts';
import { givenFieldStyles } from './file-plan-given.styles.ts';
import { GIVEN_LISTS, GIVEN_NAMES, readStart, startText } from './file-plan-text.ts';

/** What an empty answer means, where it means something. */
const EMPTY: Partial<Readonly<Record<keyof Given, string>>> = {
  mode: 'as the unit says',
  specimen: 'board',
};

const NAMED = ['repair', 'family', 'point', 'meter'] as const;
/** More names than these would not help to find one. */
const MOST_NAMES = 500;

/**
 * Inputs for what no column says, stated for all rows of the file; known names are suggested.
 * @fires plan-changed - something was stated
 */
@customElement('bt-file-plan-given')
export class FilePlanGiven extends LitElement {
  static override styles = [
    shared,
    givenFieldStyles,
    css`
      .fields {
        display: flex;
        flex-wrap: wrap;
        gap: 0.25rem 1.25rem;
      }

      input,
      select {
        width: 11rem;
      }

      p {
        max-width: 90ch;
        margin: 0 0 0.25rem;
      }

      .asked {
        font-weight: 600;
      }

      details {
        margin-top: 0.5rem;
      }

      summary {
        min-height: 1.5rem;
        width: fit-content;
        cursor: pointer;
      }
    `,
  ];

  private readonly names = new AnswerController<readonly (readonly FacetValue[])[]>(this, () => ({
    key: JSON.stringify([this.session.state.revision, this.waiting.plan.given.family]),
    ask: (signal) => Promise.all(NAMED.map((field) => this.session.ask('facet', [this.known(field), field], signal))),
    keepsLast: true,
  }));

  @property({ attribute: false }) session!: Session;
  @property({ attribute: false }) waiting!: WaitingFile;

  /** Moves the focus to the first input that has to be filled in and is empty. */
  override focus(): void {
    const { plan } = this.waiting;
    const missing = givenFields(plan).find(({ key, required }) => required && plan.given[key] === undefined);
    this.renderRoot
      .querySelector<HTMLElement>(missing === undefined ? 'input, select' : `[name=${missing.key}]`)
      ?.focus();
  }

  /** Readings whose names are suggested: for points, those of the family, where it is stated. */
  private known(field: (typeof NAMED)[number]) {
    const { family } = this.waiting.plan.given;
    if (field !== 'point' || family === undefined) return { filters: [], sort: [] };
    return { filters: [{ field: 'family', oneOf: [family] } as const], sort: [] };
  }

  private state(event: Event): void {
    const { name, value } = event.target as HTMLInputElement;
    const key = name as keyof Given;
    const stated = key === 'start' ? readStart(value) : value.trim();
    this.dispatchEvent(new PlanChanged((plan) => withGiven(plan, key, stated), 'given'));
  }

  private renderList(key: keyof Given, list: readonly string[]) {
    const stated = this.waiting.plan.given[key];
    return html`<select name=${key}>
      <option value="" .selected=${stated === undefined}>${EMPTY[key] ?? 'choose'}</option>
      ${list.map(
        (value) =>
          html`<option value=${value} .selected=${stated === value}>
            ${key === 'mode' ? `${value} (${MODE_UNITS[value as keyof typeof MODE_UNITS]})` : value}
          </option>`,
      )}
    </select>`;
  }

  private renderField({ key, required }: GivenField) {
    const { plan } = this.waiting;
    const list = GIVEN_LISTS[key];
    const isDay =
      !plan.columns.some((use) => use.field === 'elapsed') && plan.columns.some((use) => use.field === 'clock');
    const name = key === 'start' && isDay ? 'day' : GIVEN_NAMES[key];
    const hint = required ? '' : key === 'mode' ? ' (where no unit says it)' : ' (may stay empty)';
    if (list !== undefined) return html`<label><span>${name}${hint}</span>${this.renderList(key, list)}</label>`;
    if (key === 'start') {
      return html`<label
        ><span>${name}${hint}</span>
        <input name="start" type=${isDay ? 'date' : 'datetime-local'} .value=${startText(plan.given.start, isDay)} />
      </label>`;
    }
    return html`<label
      ><span>${name}${hint}</span>
      <input name=${key} type="text" list=${`known-${key}`} autocomplete="off" .value=${plan.given[key] ?? ''} />
    </label>`;
  }

  private renderNames(field: (typeof NAMED)[number], at: number) {
    const { answer } = this.names;
    const values = answer.status === 'failed' ? [] : (answer.value?.[at] ?? []);
    return html`<datalist id=${`known-${field}`}>
      ${values.slice(0, MOST_NAMES).map(({ value }) => html`<option value=${value}></option>`)}
    </datalist>`;
  }

  override render() {
    const { plan } = this.waiting;
    const fields = givenFields(plan);
    if (fields.length === 0) return nothing;
    const question = plan.questions.find(({ about }) => about === 'given');
    const isAsked = ({ key, required }: GivenField): boolean => required || (key === 'mode' && question !== undefined);
    const asked = fields.filter(isAsked);
    const others = fields.filter((field) => !isAsked(field));
    return html`<div @change=${this.state}>
      ${
        asked.length === 0
          ? nothing
          : html`<p id="asked" class="asked">
                ${question?.text ?? 'No column says this: state it for all rows of the file.'}
              </p>
              <div class="fields" role="group" aria-labelledby="asked">
                ${asked.map((field) => this.renderField(field))}
              </div>`
      }
      ${
        others.length === 0
          ? nothing
          : html`<details>
              <summary>Also for all rows: ${listText(others.map(({ key }) => GIVEN_NAMES[key]))}</summary>
              <div class="fields">${others.map((field) => this.renderField(field))}</div>
            </details>`
      }
      ${NAMED.map((field, at) => this.renderNames(field, at))}
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-file-plan-given': FilePlanGiven;
  }
}
