import { LitElement, css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { HISTORY_KINDS, type BenchCalls, type HistoryKind, type HistoryLine } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { AnswerController, valueOf } from '../controllers/answer-controller.ts';
import { ChangeController } from '../controllers/change-controller.ts';
import { DraftController } from '../controllers/draft-controller.ts';
import { followSession } from '../controllers/session-controller.ts';
import '../paging.ts';
import { shared } from '../styles/shared.styles.ts';
import { changedElsewhere } from './changed-elsewhere.ts';
import './history-lines.ts';
import { changeText } from './history-words.ts';

const PAGE = 20;

interface Answer {
  readonly page: ReturnType<BenchCalls['history']>;
  readonly undoable: ReturnType<BenchCalls['undoable']>;
  readonly technician: string;
}

/** All that was changed on the bench, latest first: by whom, what it was and is, and why; with the ways back. */
@customElement('bt-shift-history')
export class ShiftHistory extends LitElement {
  static override styles = [
    shared,
    css`
      .line {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 0.5rem 1.5rem;
        margin: 0.5rem 0;
      }

      .line button {
        overflow-wrap: anywhere;
        text-align: start;
      }
    `,
  ];

  private readonly answers = new AnswerController<Answer>(this, () => {
    const { session, kind, first } = this;
    return {
      key: JSON.stringify([session.state.revision, kind, first]),
      ask: async (signal) => {
        const [page, undoable, { technician = '' }] = await Promise.all([
          session.ask('history', [kind, first, PAGE], signal),
          session.ask('undoable', [], signal),
          session.ask('settings', [], signal),
        ]);
        return { page, undoable, technician };
      },
      keepsLast: true,
    };
  });

  private readonly names = new DraftController<string>(this, () => {
    const answer = valueOf(this.answers.answer);
    return answer && { subject: 'technician', draft: answer.technician };
  });
  private readonly making = new ChangeController(this);

  @state() private kind: HistoryKind | undefined;
  @state() private first = 0;

  @property({ attribute: false }) session!: Session;

  constructor() {
    super();
    followSession(this, () => this.session);
  }

  private choose(event: Event): void {
    const { value } = event.target as HTMLSelectElement;
    this.kind = HISTORY_KINDS.find((kind) => kind === value);
    this.first = 0;
  }

  private turn({ detail }: CustomEvent<number>): void {
    this.first = detail;
  }

  private async sign(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    const name = this.names.draft?.trim() ?? '';
    const technician = name === '' ? undefined : name;
    if (await this.making.make(() => this.session.ask('changeSettings', [{ technician }]))) this.names.saved();
  }

  private typeName(event: Event): void {
    this.names.type((event.target as HTMLInputElement).value);
  }

  private renderMove(call: 'undo' | 'redo', words: string, line: HistoryLine | undefined) {
    if (line === undefined) return nothing;
    const [first] = line.changes;
    const named = first === undefined ? '' : changeText(first, this.session.state.decimalMark).name;
    const others = line.changes.length + line.more > 1 ? ' and more' : '';
    return html`<button
      type="button"
      ?disabled=${this.making.isBusy}
      @click=${() => this.making.make(() => this.session.ask(call, []))}
    >
      ${words}: ${named}${others}
    </button>`;
  }

  private renderPage({ page, undoable }: Answer) {
    const { total, lines } = page;
    const { decimalMark } = this.session.state;
    return html`
      <form class="line" @submit=${this.sign}>
        <label
          >Who works here?
          <input
            id="technician"
            type="text"
            autocomplete="name"
            .value=${this.names.draft ?? ''}
            @input=${this.typeName}
        /></label>
        <button type="submit" ?disabled=${this.names.isOutdated}>Keep the name</button>
        <span class="quiet">It stands beside every change from then on.</span>
        ${changedElsewhere(this.session, this.names, 'Who works here', { kind: 'settings' })}
      </form>
      <div class="line">
        <label
          >Show
          <select @change=${this.choose}>
            <option value="" ?selected=${this.kind === undefined}>all changes</option>
            ${HISTORY_KINDS.map((kind) => html`<option value=${kind} ?selected=${kind === this.kind}>${kind}</option>`)}
          </select>
        </label>
        ${this.renderMove('undo', 'Take back', undoable.undo)} ${this.renderMove('redo', 'Do again', undoable.redo)}
      </div>
      ${
        total === 0
          ? html`<p class="quiet">
              ${this.kind === undefined ? 'Nothing was changed yet.' : `Nothing of ${this.kind} was changed yet.`}
            </p>`
          : html`<bt-history-lines
              .session=${this.session}
              .lines=${lines}
              .name=${'Changes, latest first'}
            ></bt-history-lines>`
      }
      <bt-paging
        .total=${total}
        .first=${this.first}
        .size=${PAGE}
        .noun=${'changes'}
        .decimalMark=${decimalMark}
        @page-turned=${this.turn}
      ></bt-paging>
    `;
  }

  override render() {
    const { answer } = this.answers;
    return html`<section aria-labelledby="history">
      <h2 id="history">What was changed, when and by whom?</h2>
      ${
        answer.status === 'failed'
          ? html`<p class="wrong">${answer.reason}</p>`
          : answer.value === undefined
            ? nothing
            : this.renderPage(answer.value)
      }
      ${this.making.faultLine()}
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-shift-history': ShiftHistory;
  }
}
