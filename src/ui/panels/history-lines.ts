import { LitElement, css, html, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { HistoryLine } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { stepSource, stepText } from '../grid/edit-words.ts';
import { ChangeController } from '../controllers/change-controller.ts';
import { shared } from '../styles/shared.styles.ts';
import { countOf } from '../words.ts';
import { changeText } from './history-words.ts';

const DEEDS: Readonly<Record<HistoryLine['does'], string>> = {
  changed: '',
  brought: 'brought by',
  'taken back': 'taken back:',
  'done again': 'done again:',
};

/** Changes with what was, what is, when, who and why; a reason can be given afterwards. */
@customElement('bt-history-lines')
export class HistoryLines extends LitElement {
  static override styles = [
    shared,
    css`
      ol {
        margin: 0;
        padding: 0;
        list-style: none;
      }

      ol > li {
        display: grid;
        grid-template-columns: 15rem 1fr minmax(6rem, 22rem);
        gap: 0 1.5rem;
        padding: 0.25rem 0;
        border-bottom: 1px solid var(--rule);
      }

      @media (width < 45rem) {
        ol > li {
          grid-template-columns: 1fr;
        }
      }

      ul {
        margin: 0;
        padding: 0;
        list-style: none;
        overflow-wrap: anywhere;
      }

      p {
        margin: 0;
      }

      time {
        color: var(--quiet);
        font-variant-numeric: tabular-nums;
      }

      .why {
        display: flex;
        flex-wrap: wrap;
        align-items: baseline;
        align-self: start;
        gap: 0.25rem 0.75rem;
      }

      .why button.plain {
        min-height: 1.5rem;
      }
    `,
  ];

  private readonly making = new ChangeController(this);

  @query('input') private readonly input!: HTMLInputElement | null;

  /** The entry whose reason is being written. */
  @state() private explained: number | undefined;

  @property({ attribute: false }) session!: Session;
  @property({ attribute: false }) lines: readonly HistoryLine[] = [];
  /** What the list is called. */
  @property({ attribute: false }) name = 'Changes';

  private async ask(step: number): Promise<void> {
    this.explained = step;
    await this.updateComplete;
    this.input?.focus();
  }

  private async keep(event: SubmitEvent, step: number): Promise<void> {
    event.preventDefault();
    const why = this.input?.value ?? '';
    if (await this.making.make(() => this.session.ask('explain', [step, why]))) this.explained = undefined;
  }

  private leave(): void {
    this.explained = undefined;
  }

  private renderWhy({ step, why, does }: HistoryLine) {
    if (step !== undefined && step === this.explained) {
      return html`<form class="why" @submit=${(event: SubmitEvent) => this.keep(event, step)}>
        <label>why <input type="text" .value=${why ?? ''} /></label>
        <button type="submit">Keep</button>
        <button type="button" @click=${this.leave}>Leave it</button>
      </form>`;
    }
    const isByHand = step !== undefined && does !== 'brought';
    if (why === undefined && !isByHand) return nothing;
    return html`<div class="why">
      ${why === undefined ? nothing : html`<span>“${why}”</span>`}
      ${
        isByHand
          ? html`<button class="plain" type="button" @click=${() => this.ask(step)}>
              ${why === undefined ? 'say why' : 'say it otherwise'}
            </button>`
          : nothing
      }
    </div>`;
  }

  private renderLine(line: HistoryLine) {
    const { decimalMark } = this.session.state;
    const { at, who, does, file, changes, more, readings } = line;
    return html`<li>
      <time>${stepSource({ when: at, ...(who !== undefined && { who }) })}</time>
      <div>
        ${does === 'changed' ? nothing : html`<span class="quiet">${DEEDS[does]} ${file}</span>`}
        ${readings === undefined ? nothing : html`<p>${stepText(readings, decimalMark)}</p>`}
        <ul>
          ${changes.map((change) => {
            const { name, words } = changeText(change, decimalMark);
            return html`<li><b>${name}</b>${words === '' ? nothing : `: ${words}`}</li>`;
          })}
          ${more === 0 ? nothing : html`<li class="quiet">and ${countOf(more, 'item', decimalMark)} more</li>`}
        </ul>
      </div>
      ${this.renderWhy(line)}
    </li>`;
  }

  override render() {
    return html`<ol aria-label=${this.name}>
        ${this.lines.map((line) => this.renderLine(line))}
      </ol>
      ${this.making.faultLine()}`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-history-lines': HistoryLines;
  }
}
