import { LitElement, css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Given, GivenRange } from '../../domain/file-plan.ts';
import { givenFields } from '../../session/plan-check.ts';
import { withRange, withRangeAdded, withRangeGiven } from '../../session/plan-edits.ts';
import type { WaitingFile } from '../../session/waiting-file.ts';
import { shared } from '../styles/shared.styles.ts';
import { PlanChanged } from './file-plan-events.ts';
import { givenFieldStyles } from './file-plan-given.styles.ts';
import { GIVEN_LISTS, GIVEN_NAMES } from './file-plan-text.ts';

/**
 * What no column says, stated for ranges of a file's lines: a bare log of several repairs or points one after the other.
 * @fires plan-changed - a range was added, changed or removed
 */
@customElement('bt-file-plan-ranges')
export class FilePlanRanges extends LitElement {
  static override styles = [
    shared,
    givenFieldStyles,
    css`
      fieldset {
        display: flex;
        flex-wrap: wrap;
        align-items: end;
        gap: 0.25rem 1.25rem;
        margin: 0 0 0.5rem;
      }

      input,
      select {
        width: 9rem;
      }

      input[type='number'] {
        width: 6rem;
      }
    `,
  ];

  @property({ attribute: false }) waiting!: WaitingFile;

  private add(): void {
    this.dispatchEvent(new PlanChanged(withRangeAdded, 'given'));
  }

  private change(at: number, range: GivenRange | undefined): void {
    this.dispatchEvent(new PlanChanged((plan) => withRange(plan, at, range), 'given'));
  }

  private state(at: number, range: GivenRange, event: Event): void {
    const { name, value } = event.target as HTMLInputElement;
    if (name !== 'from' && name !== 'to') {
      this.change(at, withRangeGiven(range, name as keyof Given, value.trim()));
      return;
    }
    const line = Math.max(1, Math.trunc(Number(value)) || 1);
    const [from, to] = name === 'from' ? [line, range.to] : [range.from, line];
    this.change(at, { ...range, from: Math.min(from, to), to: Math.max(from, to) });
  }

  private renderField(key: keyof Given, stated: string) {
    const list = GIVEN_LISTS[key];
    const name = GIVEN_NAMES[key];
    if (list === undefined)
      return html`<label>${name}<input name=${key} type="text" autocomplete="off" .value=${stated} /></label>`;
    return html`<label
      >${name}
      <select name=${key}>
        <option value="" .selected=${stated === ''}>as for the file</option>
        ${list.map((value) => html`<option value=${value} .selected=${stated === value}>${value}</option>`)}
      </select>
    </label>`;
  }

  private renderRange(range: GivenRange, at: number) {
    const keys = givenFields(this.waiting.plan).flatMap(({ key }) => (key === 'start' ? [] : key));
    return html`<fieldset @change=${(event: Event) => { this.state(at, range, event); }}>
      <legend>Lines ${range.from} to ${range.to}</legend>
      <label>from line<input name="from" type="number" min="1" .value=${String(range.from)} /></label>
      <label>to line<input name="to" type="number" min="1" .value=${String(range.to)} /></label>
      ${keys.map((key) => this.renderField(key, range.given[key] ?? ''))}
      <button class="plain" type="button" @click=${() => { this.change(at, undefined); }}>
        Remove<span class="spoken"> lines ${range.from} to ${range.to}</span>
      </button>
    </fieldset>`; // prettier-ignore
  }

  override render() {
    const { plan } = this.waiting;
    if (givenFields(plan).length === 0) return nothing;
    return html`
      ${(plan.givenRanges ?? []).map((range, at) => this.renderRange(range, at))}
      <button type="button" @click=${this.add}>State it for a range of lines</button>
    `;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-file-plan-ranges': FilePlanRanges;
  }
}
