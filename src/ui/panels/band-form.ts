import { html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { BAND_KINDS, BASES, type BandKind, type Basis } from '../../domain/band.ts';
import type { Unit } from '../../domain/quantity.ts';
import { shared } from '../styles/shared.styles.ts';
import { bandEditorStyles } from './band-editor.styles.ts';
import { FIELD_LABELS, FIELDS_OF, type BandDraft, type DraftField } from './band-draft.ts';

/** All that a person says of a band beside its readings. */
export interface BandForm {
  readonly draft: BandDraft;
  readonly basis: Basis;
  readonly author: string;
  /** Whether the band holds at this stage alone, or at every stage without a band of its own. */
  readonly scope: 'stage' | 'any';
}

const KIND_WORDS: Readonly<Record<BandKind, string>> = {
  between: 'between two limits',
  percent: 'nominal ± percent',
  'at least': 'at least',
  'at most': 'at most',
  open: 'open: over range, or above a limit',
  shorted: 'shorted: a beep, or below a limit',
  'rectified mains': 'rectified mains',
};

/**
 * The fields of a band: its kind, limits, reach, basis and author.
 * @fires form-changed - detail: Partial<BandForm>, what the person has changed
 * @fires kind-chosen - detail: BandKind
 */
@customElement('bt-band-form')
export class BandFormElement extends LitElement {
  static override styles = [shared, bandEditorStyles];

  @property({ attribute: false }) form!: BandForm;
  @property({ attribute: false }) unit: Unit = 'V';
  @property({ attribute: false }) stage = '';
  /** What is wrong with the draft, as a sentence, and the field that is to blame. */
  @property({ attribute: false }) fault: string | undefined;
  @property({ attribute: false }) faultField: DraftField | undefined;

  /** Puts the focus where something is to be mended. */
  focusFault(): void {
    const field = this.faultField ?? FIELDS_OF[this.form.draft.kind][0];
    this.renderRoot.querySelector<HTMLElement>(`#${field ?? 'kind'}`)?.focus();
  }

  private change(detail: Partial<BandForm>): void {
    this.dispatchEvent(new CustomEvent('form-changed', { detail }));
  }

  private chooseKind(event: Event): void {
    const detail = (event.target as HTMLSelectElement).value as BandKind;
    this.dispatchEvent(new CustomEvent('kind-chosen', { detail }));
  }

  private chooseScope(event: Event): void {
    this.change({ scope: (event.target as HTMLSelectElement).value === 'any' ? 'any' : 'stage' });
  }

  private chooseBasis(event: Event): void {
    this.change({ basis: (event.target as HTMLSelectElement).value as Basis });
  }

  private typeAuthor(event: Event): void {
    this.change({ author: (event.target as HTMLInputElement).value });
  }

  private renderField(field: DraftField) {
    const { draft } = this.form;
    const isFaulty = this.fault !== undefined && this.faultField === field && draft[field].trim() !== '';
    return html`<label for=${field}>${FIELD_LABELS[field]}</label>
      <input
        id=${field}
        class="quantity"
        type="text"
        autocomplete="off"
        spellcheck="false"
        aria-invalid=${isFaulty ? 'true' : 'false'}
        aria-describedby="says"
        .value=${draft[field]}
        @input=${(event: Event) => {
          this.change({ draft: { ...draft, [field]: (event.target as HTMLInputElement).value } });
        }}
      />`;
  }

  override render() {
    const { draft, basis, author, scope } = this.form;
    const blamed = this.faultField === undefined ? '' : draft[this.faultField].trim();
    return html`<div class="fields">
        <label for="kind">should read</label>
        <select id="kind" @change=${this.chooseKind}>
          ${BAND_KINDS.map(
            (kind) => html`<option value=${kind} ?selected=${kind === draft.kind}>${KIND_WORDS[kind]}</option>`,
          )}
        </select>
        ${FIELDS_OF[draft.kind].map((field) => this.renderField(field))}
        <label for="scope">holds</label>
        <select id="scope" @change=${this.chooseScope}>
          <option value="stage" ?selected=${scope === 'stage'}>${this.stage} only</option>
          <option value="any" ?selected=${scope === 'any'}>at every stage without a band of its own</option>
        </select>
        <label for="basis">basis</label>
        <select id="basis" @change=${this.chooseBasis}>
          ${BASES.map((one) => html`<option value=${one} ?selected=${one === basis}>${one}</option>`)}
        </select>
        <label for="author">set by</label>
        <input id="author" type="text" autocomplete="name" .value=${author} @input=${this.typeAuthor} />
      </div>
      <p id="says" class="says ${blamed === '' ? 'quiet' : 'wrong'}">${this.fault ?? nothing}</p>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-band-form': BandFormElement;
  }
}
