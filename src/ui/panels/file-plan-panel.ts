import { LitElement, html, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Preview, Question } from '../../domain/file-plan.ts';
import { planFault, type PlanFault } from '../../session/plan-check.ts';
import type { Session } from '../../session/session.ts';
import type { WaitingFile } from '../../session/waiting-file.ts';
import { shared } from '../styles/shared.styles.ts';
import { countOf } from '../words.ts';
import type { ChoicesChanged, PlanChanged } from './file-plan-events.ts';
import { answerTo, byWeight } from './file-plan-answers.ts';
import './file-plan-count.ts';
import './file-plan-given.ts';
import './file-plan-marks.ts';
import './file-plan-ranges.ts';
import { filePlanPanelStyles } from './file-plan-panel.styles.ts';
import './file-plan-question.ts';
import './file-plan-rows.ts';

/** The parts in which questions are answered that are not answered where they are asked. */
const ANSWERED_IN: Partial<Record<PlanFault['about'], string>> = {
  encoding: 'bt-file-plan-marks',
  columns: 'bt-file-plan-rows',
  given: 'bt-file-plan-given',
};

/** One screen on which a file's reading is settled: what the file leaves open, what was guessed, and its first rows as they will be read. */
@customElement('bt-file-plan-panel')
export class FilePlanPanel extends LitElement {
  static override styles = [shared, filePlanPanelStyles];

  /** What stood in the way when the file was last to be read. */
  @state() private fault: string | undefined;
  /** Whether the warning that no row can be read was seen. */
  @state() private isWarned = false;

  /** The question that was answered last: it stays open until another is, so that nothing moves from under the pointer or the focus. */
  @state() private answering: Question['about'] | undefined;

  @property({ attribute: false }) session!: Session;
  @property({ attribute: false }) waiting!: WaitingFile;
  /** How many files wait, this one among them. */
  @property({ attribute: false }) count = 1;

  protected override willUpdate(changed: PropertyValues<this>): void {
    const before = changed.get('waiting');
    if (before !== undefined && (before.file !== this.waiting.file || before.plan !== this.waiting.plan)) {
      this.fault = undefined;
      this.isWarned = false;
    }
  }

  private changePlan(event: PlanChanged): void {
    this.answering = event.answers;
    void this.session.changePlan(this.waiting.file, event.change, event.answers);
  }

  private changeChoices(event: ChoicesChanged): void {
    void this.session.replan(this.waiting.file, event.choices);
  }

  private async read(): Promise<void> {
    const { file, plan } = this.waiting;
    const open = planFault(this.waiting);
    if (open !== undefined) {
      this.fault = open.text;
      this.goTo(open.about);
      return;
    }
    const warning = this.isWarned ? undefined : await this.noRowReadable();
    if (warning !== undefined) {
      this.fault = `${warning} Change what is wrong, or press again to read it all the same.`;
      this.isWarned = true;
      return;
    }
    await this.session.settlePlan(file, plan);
  }

  /** Says why, where every row that is shown would be set aside. */
  private async noRowReadable(): Promise<string | undefined> {
    const { file, plan } = this.waiting;
    const tried = (): Preview | undefined => this.session.state.waiting.find((entry) => entry.file === file)?.preview;
    if (tried()?.plan !== plan) await this.session.changePlan(file, (same) => same);
    const preview = tried();
    const first = preview?.problems[0];
    if (preview === undefined || first === undefined || preview.rows.length === 0) return undefined;
    const lines = new Set(preview.problems.map(({ line }) => line));
    return preview.rows.every(({ line }) => lines.has(line))
      ? `None of these rows can be read this way. ${first.reason}`
      : undefined;
  }

  private skip(): void {
    this.session.skipFile(this.waiting.file);
  }

  private goTo(about: PlanFault['about']): void {
    const target = ANSWERED_IN[about] ?? `[data-about="${about}"]`;
    const element = this.renderRoot.querySelector<HTMLElement>(target);
    const folded = element?.closest('details');
    if (folded) folded.open = true;
    element?.focus();
  }

  private renderQuestions() {
    const { plan, answered } = this.waiting;
    const questions = plan.questions.filter(({ about }) => about !== 'given').sort(byWeight);
    const current = questions.find(({ about }) => !answered.includes(about));
    return questions.map(
      (question) =>
        html`<details class="question" ?open=${question === current || question.about === this.answering}>
          <summary>${answerTo(question, this.waiting)}</summary>
          ${this.renderQuestion(question)}
        </details>`,
    );
  }

  private renderQuestion(question: Question) {
    const { about, text } = question;
    if (about === 'columns' || about === 'encoding') {
      return html`<p>
        <b>${text}</b>
        <button
          class="plain"
          type="button"
          @click=${() => {
            this.goTo(about);
          }}
        >
          ${about === 'columns' ? 'Choose below what each column is read as' : 'Choose the encoding below'}
        </button>
        <button
          type="button"
          @click=${() => {
            void this.session.changePlan(this.waiting.file, (plan) => plan, about);
          }}
        >
          ${about === 'columns' ? 'Yes, as they are' : 'Yes, as it is'}
        </button>
      </p>`;
    }
    return html`<bt-file-plan-question
      data-about=${about}
      .waiting=${this.waiting}
      .question=${question}
      @plan-changed=${this.changePlan}
    ></bt-file-plan-question>`;
  }

  override render() {
    const { waiting, session, count, fault } = this;
    const { decimalMark } = session.state;
    const isAgain = waiting.replaces !== undefined;
    const asksEachTime = waiting.plan.questions.some(({ about }) => about === 'given');
    return html`
      <h2 tabindex="-1">How should ${waiting.name} be read${isAgain ? ' instead' : ''}?</h2>
      <p class="quiet">
        ${
          isAgain
            ? 'What it brought stays on the bench until you read it again; rows of it that you mended are then set aside again.'
            : asksEachTime
              ? 'The next file with the same header is read in the same way; only what no column says is asked again.'
              : 'Asked once: the next file with the same header is read in the same way.'
        }
        ${count > 1 ? `${countOf(count, 'file', decimalMark)} wait.` : nothing}
      </p>
      ${this.renderQuestions()}
      <bt-file-plan-given
        class="question"
        .session=${session}
        .waiting=${waiting}
        @plan-changed=${this.changePlan}
      ></bt-file-plan-given>
      <bt-file-plan-ranges class="question" .waiting=${waiting} @plan-changed=${this.changePlan}></bt-file-plan-ranges>
      <bt-file-plan-marks
        .waiting=${waiting}
        @plan-changed=${this.changePlan}
        @choices-changed=${this.changeChoices}
      ></bt-file-plan-marks>
      ${waiting.problem === undefined ? nothing : html`<p role="alert"><span class="wrong">▲</span> ${waiting.problem}</p>`}
      <bt-file-plan-count .count=${waiting.preview?.count} .decimalMark=${decimalMark}></bt-file-plan-count>
      <bt-file-plan-rows .waiting=${waiting} @plan-changed=${this.changePlan}></bt-file-plan-rows>
      <div class="actions">
        <button class="main" type="button" @click=${this.read}>Read it so</button>
        <button type="button" @click=${this.skip}>${isAgain ? 'Leave it as it is' : 'Leave it out'}</button>
        <p role="alert">${fault === undefined ? nothing : html`<span class="wrong">▲</span> ${fault}`}</p>
      </div>
    `;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-file-plan-panel': FilePlanPanel;
  }
}
