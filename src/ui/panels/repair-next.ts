import { LitElement, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { DecimalMark } from '../../domain/quantity.ts';
import type { Session } from '../../session/session.ts';
import { AnswerController } from '../controllers/answer-controller.ts';
import { followSession } from '../controllers/session-controller.ts';
import { percentText } from '../charts/share-text.ts';
import { shared } from '../styles/shared.styles.ts';
import { countOf, countText, durationText } from '../words.ts';
import type { WhatNext } from './repair-answers.ts';

/** More than this is not what comes next. */
const MOST_SHOWN = 6;

/** What to measure next on a board, with the reason, and what is still in question with its chances. */
@customElement('bt-repair-next')
export class RepairNext extends LitElement {
  static override styles = [shared];

  private readonly next = new AnswerController<WhatNext | undefined>(this, () => ({
    key: `${this.session.state.revision} ${this.changes} ${this.mark} ${this.repair}`,
    ask: (signal) => this.session.ask('whatNext', [this.repair, this.mark], signal),
    keepsLast: true,
  }));

  @property({ attribute: false }) session!: Session;
  @property({ attribute: false }) repair = '';
  /** Counts changes of the repair that the session does not know of. */
  @property({ attribute: false }) changes = 0;

  constructor() {
    super();
    followSession(this, () => this.session);
  }

  private get mark(): DecimalMark {
    return this.session.state.decimalMark;
  }

  private renderTable({ kind, inQuestion, noneOfThese, restsOn }: WhatNext) {
    if (inQuestion.length === 0) return nothing;
    const shown = inQuestion.slice(0, MOST_SHOWN);
    const others = inQuestion.slice(MOST_SHOWN).reduce((sum, { chance }) => sum + chance, 0);
    return html`<table class="narrow" aria-label="Still in question">
        <thead>
          <tr>
            <th scope="col">check</th>
            <th scope="col">shows</th>
            <th scope="col" class="number">chance</th>
            <th scope="col" class="number">takes</th>
          </tr>
        </thead>
        <tbody>
          ${shown.map(
            ({ point, parts, chance, seconds }) =>
              html`<tr>
                <th scope="row">${point}</th>
                <td>${parts.join(', ')}</td>
                <td class="number">${percentText(chance, this.mark)}</td>
                <td class="number">${seconds === undefined ? '' : durationText(Math.round(seconds), this.mark)}</td>
              </tr>`,
          )}
          ${inQuestion.length === shown.length ? nothing : this.renderOther(countOf(inQuestion.length - shown.length, 'less likely check', this.mark), others)}
          ${noneOfThese === undefined ? nothing : this.renderOther('none of these: another fault, a bad joint, or none', noneOfThese)}
        </tbody>
      </table>
      ${restsOn === undefined ? nothing : html`<p class="quiet">${this.grounds(kind, restsOn)}</p>`}`;
  }

  private renderOther(name: string, chance: number) {
    return html`<tr>
      <td colspan="2" class="quiet">${name}</td>
      <td class="number">${percentText(chance, this.mark)}</td>
      <td></td>
    </tr>`;
  }

  /** What the chances mean and how many repairs they rest on. */
  private grounds(kind: WhatNext['kind'], { repairs, underComplaint }: NonNullable<WhatNext['restsOn']>): string {
    const of = countOf(repairs, 'earlier repair', this.mark);
    const under = underComplaint === undefined ? '' : `, those under this complaint above all (${countText(underComplaint, this.mark)})`; // prettier-ignore
    const what =
      kind === 'lift'
        ? 'that the part has failed; several may have'
        : 'that this check is the first to show the fault, in this order';
    return `A chance is ${what}. They rest on ${of}${under}; the fewer, the closer they stay to not knowing.`;
  }

  override render() {
    const { answer } = this.next;
    if (answer.status === 'failed') return html`<p class="wrong">${answer.reason}</p>`;
    if (answer.value === undefined) return nothing;
    return html`<h2>What next?</h2>
      <p>${answer.value.sentence}</p>
      ${this.renderTable(answer.value)}`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-repair-next': RepairNext;
  }
}
