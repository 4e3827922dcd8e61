import { LitElement, css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { formatShown, joinQuantity } from '../../domain/quantity.ts';
import { MODE_UNITS, type Reading } from '../../domain/reading.ts';
import type { SetAsideKind } from '../../domain/set-aside-kind.ts';
import type { Mend, MendOutcome } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { AnswerController } from '../controllers/answer-controller.ts';
import { ChangeController } from '../controllers/change-controller.ts';
import { shared } from '../styles/shared.styles.ts';
import { countOf, countText } from '../words.ts';
import { GIVEN_LISTS, readStart } from './file-plan-text.ts';
import { likelyWay, quotedBy, type Way } from './set-aside-words.ts';

const WAYS: readonly (readonly [Way, string])[] = [
  ['mode', 'state the mode'],
  ['stage', 'state the stage'],
  ['repair', 'state the repair'],
  ['point', 'state the test point'],
  ['start', 'state the day'],
  ['text', 'put another text in place of one'],
];

/**
 * Mends rows of one file that were set aside for one reason, all alike, and shows what comes of it before it is done.
 * @fires mended - some rows were admitted, with the sentence that says so
 * @fires left - the rows stay as they are
 */
@customElement('bt-set-aside-mend')
export class SetAsideMend extends LitElement {
  static override styles = [
    shared,
    css`
      form {
        display: flex;
        flex-wrap: wrap;
        align-items: end;
        gap: 0.25rem 1.25rem;
        margin: 0.5rem 0;
      }

      label {
        display: grid;
      }

      p,
      ul {
        max-width: 90ch;
        margin: 0 0 0.25rem;
        overflow-wrap: anywhere;
      }
    `,
  ];

  @property({ attribute: false }) session!: Session;
  @property({ attribute: false }) kind!: SetAsideKind;

  @state() private way: Way | undefined;
  @state() private stated = '';
  @state() private text: string | undefined;

  private readonly making = new ChangeController(this);
  private readonly trying = new AnswerController<MendOutcome | undefined>(this, () => ({
    key: JSON.stringify([this.session.state.revision, this.kind.file, this.kind.reason, this.mend]),
    ask: (signal) => {
      const { mend } = this;
      return mend === undefined ? Promise.resolve(undefined) : this.session.ask('tryMend', [this.kind.rows, mend], signal); // prettier-ignore
    },
  }));

  override focus(): void {
    this.renderRoot.querySelector('select')?.focus();
  }

  private get chosenWay(): Way {
    return this.way ?? likelyWay(this.kind.reason);
  }

  /** What is to be done, once enough is said. */
  private get mend(): Mend | undefined {
    const { chosenWay: way, stated } = this;
    if (way === 'text') {
      const text = this.text ?? quotedBy(this.kind);
      return text === '' || text === stated ? undefined : { text, by: stated };
    }
    const value = way === 'start' ? readStart(stated) : stated.trim();
    if (value === undefined || value === '') return undefined;
    return { given: { [way]: value } };
  }

  private chooseWay(event: Event): void {
    this.way = (event.target as HTMLSelectElement).value as Way;
    this.stated = '';
  }

  private state(event: Event): void {
    this.stated = (event.target as HTMLInputElement).value;
  }

  private async admit(event: Event): Promise<void> {
    event.preventDefault();
    const { mend } = this;
    if (mend === undefined || this.making.isBusy) return;
    const made = await this.making.make(() => this.session.ask('mendRows', [this.kind.rows, mend]));
    if (made === undefined) return;
    const { admitted } = made.result;
    const said = `${countOf(admitted, 'row', this.session.state.decimalMark)} of ${this.kind.file} admitted.`;
    this.dispatchEvent(new CustomEvent('mended', { detail: said }));
  }

  private leave(): void {
    this.dispatchEvent(new CustomEvent('left'));
  }

  private renderValue() {
    const { chosenWay: way, stated } = this;
    if (way === 'text') {
      return html`<label
          ><span>this text</span>
          <input
            name="text"
            type="text"
            autocomplete="off"
            .value=${this.text ?? quotedBy(this.kind)}
            @input=${this.changeText}
          />
        </label>
        <label
          ><span>becomes</span>
          <input name="by" type="text" autocomplete="off" .value=${stated} @input=${this.state} />
        </label>`;
    }
    const list = GIVEN_LISTS[way];
    const name = WAYS.find(([key]) => key === way)?.[1].replace('state the ', '') ?? '';
    if (list === undefined) {
      const type = way === 'start' ? 'date' : 'text';
      return html`<label
        ><span>${name}</span>
        <input name=${way} type=${type} autocomplete="off" .value=${stated} @input=${this.state} />
      </label>`;
    }
    return html`<label
      ><span>${name}</span>
      <select name=${way} @change=${this.state}>
        <option value="" .selected=${stated === ''}>choose</option>
        ${list.map((value) => html`<option value=${value} .selected=${stated === value}>${value}</option>`)}
      </select>
    </label>`;
  }

  private changeText(event: Event): void {
    this.text = (event.target as HTMLInputElement).value;
  }

  private readingText({ origin, repair, point, stage, mode, state, value, prefix, decimals }: Reading): string {
    const mark = this.session.state.decimalMark;
    const shown = state === 'value' ? joinQuantity(formatShown(value, MODE_UNITS[mode], { prefix, decimals }, mark)) : state; // prettier-ignore
    return `line ${origin.line}: ${[repair, point, stage, mode, shown].filter((part) => part !== '').join(' · ')}`;
  }

  private renderTrial() {
    const { answer } = this.trying;
    if (answer.status === 'failed') return html`<p role="alert">${answer.reason}</p>`;
    const outcome = answer.value;
    if (outcome === undefined || this.mend === undefined) return nothing;
    const { decimalMark } = this.session.state;
    const { admitted, left, fault, readings } = outcome;
    return html`<p role="status">
        <b
          >${countText(admitted, decimalMark)} of ${countOf(admitted + left, 'row', decimalMark)} would be
          read${left === 0 ? '' : `, ${countText(left, decimalMark)} ${left === 1 ? 'stays' : 'stay'} set aside`}.</b
        >
        ${fault === undefined ? nothing : html`<span class="quiet">Still wrong: ${fault}</span>`}
      </p>
      <ul aria-label="The first of them, as they would be read">
        ${readings.map((reading) => html`<li>${this.readingText(reading)}</li>`)}
      </ul>`;
  }

  override render() {
    const { kind, chosenWay } = this;
    const { answer } = this.trying;
    const admitted = answer.status === 'failed' || this.mend === undefined ? 0 : (answer.value?.admitted ?? 0);
    const { decimalMark } = this.session.state;
    return html`<form
        aria-label=${`Mend ${countOf(kind.rows.length, 'row', decimalMark)} of ${kind.file}`}
        @submit=${this.admit}
      >
        <label
          ><span>in all of these rows</span>
          <select name="way" @change=${this.chooseWay}>
            ${WAYS.map(([way, text]) => html`<option value=${way} .selected=${way === chosenWay}>${text}</option>`)}
          </select>
        </label>
        ${this.renderValue()}
        <button class="main" type="submit" ?disabled=${admitted === 0 || this.making.isBusy}>
          Admit ${admitted === 0 ? 'them' : countOf(admitted, 'row', decimalMark)}
        </button>
        <button type="button" @click=${this.leave}>Back</button>
      </form>
      ${this.making.faultLine()} ${this.renderTrial()}`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-set-aside-mend': SetAsideMend;
  }
}
