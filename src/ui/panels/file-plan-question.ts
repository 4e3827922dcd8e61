import { LitElement, css, html, nothing } from 'lit';
import { customElement, property, query } from 'lit/decorators.js';
import type { Question } from '../../domain/file-plan.ts';
import type { WaitingFile } from '../../session/waiting-file.ts';
import { shared } from '../styles/shared.styles.ts';
import { PlanChanged } from './file-plan-events.ts';
import { choicesOf, type Choice } from './file-plan-text.ts';

/**
 * One thing that the file alone cannot settle, as a question with its plain answers.
 * @fires plan-changed - an answer was chosen
 */
@customElement('bt-file-plan-question')
export class FilePlanQuestion extends LitElement {
  static override styles = [
    shared,
    css`
      fieldset {
        margin: 0;
        padding: 0;
        border: 0;
      }

      legend {
        max-width: 90ch;
        padding: 0;
        font-weight: 600;
      }

      label {
        display: flex;
        align-items: center;
        gap: 0.5rem;
        min-height: 1.75rem;
      }

      .answers {
        display: flex;
        flex-wrap: wrap;
        gap: 0 2rem;
      }
    `,
  ];

  @query('input') private readonly input!: HTMLInputElement | null;

  @property({ attribute: false }) waiting!: WaitingFile;
  @property({ attribute: false }) question!: Question;

  override focus(): void {
    this.input?.focus();
  }

  private choose(event: Event): void {
    const { question } = this;
    const choice = choicesOf(question)[Number((event.target as HTMLInputElement).value)];
    if (choice !== undefined)
      this.dispatchEvent(new PlanChanged((plan) => ({ ...plan, ...choice.marks }), question.about));
  }

  private isChosen({ decimalMark, dateOrder }: Choice['marks']): boolean {
    const { waiting, question } = this;
    if (!waiting.answered.includes(question.about)) return false;
    return decimalMark === waiting.plan.decimalMark || dateOrder === waiting.plan.dateOrder;
  }

  override render() {
    const { question } = this;
    const choices = choicesOf(question);
    if (choices.length === 0) return nothing;
    return html`<fieldset @change=${this.choose}>
      <legend>${question.text}</legend>
      <div class="answers">
        ${choices.map(
          ({ text, marks }, at) =>
            html`<label
              ><input type="radio" name="answer" .value=${String(at)} .checked=${this.isChosen(marks)} /> ${text}</label
            >`,
        )}
      </div>
    </fieldset>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-file-plan-question': FilePlanQuestion;
  }
}
