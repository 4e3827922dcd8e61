import { LitElement, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { DecimalMark } from '../../domain/quantity.ts';
import type { ReadingRow } from '../../session/answers.ts';
import { tapeStyles } from '../charts/tolerance-tape.styles.ts';
import { tape } from '../charts/tolerance-tape.ts';
import { readingLine } from '../grid/reading-text.ts';
import { readingsHash } from '../route.ts';
import { shared } from '../styles/shared.styles.ts';
import { verdictText } from '../verdict-text.ts';
import { countOf, minuteText } from '../words.ts';
import type { GoBackEntry, RepairDecision } from './repair-answers.ts';
import { goBackStyles } from './repair-go-back.styles.ts';
import { goBackSentence, standingText } from './repair-words.ts';

/** Why a line is let pass although it does not hold; an empty reason takes that back. */
export interface LineOverruled {
  readonly rule: GoBackEntry['rule'];
  readonly reason: string;
}

/**
 * Whether a board may go back: what must hold, line by line, each with the readings that it rests on.
 * @fires line-overruled - detail: {@link LineOverruled}
 */
@customElement('bt-repair-go-back')
export class RepairGoBack extends LitElement {
  static override styles = [shared, tapeStyles, goBackStyles];

  /** The line for which a reason is being typed. */
  @state() private asked: GoBackEntry['rule'] | undefined;

  @property({ attribute: false }) decision!: RepairDecision;
  @property({ attribute: false }) decimalMark: DecimalMark = '.';

  private ask(rule: GoBackEntry['rule'] | undefined): void {
    this.asked = rule;
    if (rule !== undefined)
      void this.updateComplete.then(() => this.renderRoot.querySelector<HTMLInputElement>('form input')?.focus());
  }

  protected override willUpdate(): void {
    // What was typed stays until the line stands overruled: it may be that it could not be kept.
    const line = this.decision.goBack.find(({ rule }) => rule === this.asked);
    if (line?.overruled !== undefined) this.asked = undefined;
  }

  private overrule(rule: GoBackEntry['rule'], reason: string): void {
    this.dispatchEvent(new CustomEvent<LineOverruled>('line-overruled', { detail: { rule, reason } }));
  }

  private submit(event: SubmitEvent, rule: GoBackEntry['rule']): void {
    event.preventDefault();
    const reason = new FormData(event.currentTarget as HTMLFormElement).get('reason');
    if (typeof reason === 'string' && reason.trim() !== '') this.overrule(rule, reason);
  }

  private renderAction({ rule, must, standing, overruled }: GoBackEntry) {
    if (overruled !== undefined) {
      return html`<button class="plain" type="button" aria-label="Take back: ${must}" @click=${() => {
        this.overrule(rule, '');
      }}>Take back</button>`; // prettier-ignore
    }
    if (standing === 'holds' || standing === 'does not apply' || this.asked === rule) return nothing;
    return html`<button class="plain" type="button" aria-label="Overrule: ${must}" @click=${() => {
      this.ask(rule);
    }}>Overrule</button>`; // prettier-ignore
  }

  private renderForm(rule: GoBackEntry['rule']) {
    return html`<form
      @submit=${(event: SubmitEvent) => {
        this.submit(event, rule);
      }}
    >
      <label for="reason">Let it pass, because</label>
      <input id="reason" name="reason" type="text" required maxlength="200" autocomplete="off" />
      <button type="submit">Overrule</button>
      <button
        type="button"
        @click=${() => {
          this.ask(undefined);
        }}
      >
        Leave it
      </button>
    </form>`;
  }

  private renderReadings({ readings, readingsInAll }: GoBackEntry) {
    if (readings.length === 0) return nothing;
    const more = readingsInAll - readings.length;
    return html`<details>
      <summary>${countOf(readingsInAll, 'reading', this.decimalMark)} behind it</summary>
      <ul>
        ${readings.map((reading) => this.renderReading(reading))}
      </ul>
      ${more === 0 ? nothing : html`<p class="quiet">And ${countOf(more, 'later one', this.decimalMark)}.</p>`}
    </details>`;
  }

  /** One reading, which leads to all of its point on this board. */
  private renderReading(reading: ReadingRow) {
    const { repair, point, time } = reading;
    const { sign, word, wrong } = verdictText(reading.verdict, reading.word);
    const all = readingsHash({
      filters: [
        { field: 'repair', oneOf: [repair] },
        { field: 'point', oneOf: [point] },
      ],
    });
    return html`<li>
      <span class="figures">${minuteText(time)}</span>
      <a href=${all}>${point}</a>
      <span class="figures number">${readingLine(reading, this.decimalMark)}</span>
      ${tape(reading)}
      <span class=${wrong ? 'wrong' : ''}>${sign} ${word}</span>
      <span class="quiet">${reading.meter}</span>
    </li>`;
  }

  private renderLine(entry: GoBackEntry) {
    const { rule, must, sentence, overruled } = entry;
    const { sign, word, wrong } = standingText(entry);
    return html`<li class="line">
      <span class=${wrong ? 'wrong' : ''} aria-hidden="true">${sign}</span>
      <div>
        <p><span class="must">${must}</span><span class="standing ${wrong ? 'wrong' : 'quiet'}">${word}</span></p>
        <p>${sentence}</p>
        ${overruled === undefined ? nothing : html`<p>Overruled: ${overruled}</p>`}
      </div>
      ${this.renderAction(entry)}
      <div class="more">${this.asked === rule ? this.renderForm(rule) : nothing} ${this.renderReadings(entry)}</div>
    </li>`;
  }

  override render() {
    const { goBack, mayGoBack } = this.decision;
    return html`<h2 id="go-back">May it go back?</h2>
      <p role="status" class=${mayGoBack ? '' : 'wrong'}>${goBackSentence(goBack, mayGoBack)}</p>
      <ul aria-labelledby="go-back">
        ${goBack.map((entry) => this.renderLine(entry))}
      </ul>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-repair-go-back': RepairGoBack;
  }
}
