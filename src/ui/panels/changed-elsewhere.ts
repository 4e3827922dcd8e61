import { LitElement, css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { HistorySubject } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { valueOf } from '../controllers/answer-controller.ts';
import type { DraftController } from '../controllers/draft-controller.ts';
import { shared } from '../styles/shared.styles.ts';
import { momentText } from '../words.ts';
import { changeText } from './history-words.ts';
import { subjectHistory } from './subject-history.ts';

/**
 * Stands in a form whose subject was changed elsewhere while somebody typed: what was changed and by whom, and the
 * choice between the two. Nothing typed goes before it is chosen.
 */
@customElement('bt-changed-elsewhere')
export class ChangedElsewhere extends LitElement {
  static override styles = [
    shared,
    css`
      section {
        margin-block: 0.5rem;
        padding: 0.5rem 0 0.5rem 1rem;
        border-inline-start: 3px solid var(--wrong);
      }

      p {
        margin: 0 0 0.5rem;
      }
    `,
  ];

  private readonly lines = subjectHistory(this);

  @property({ attribute: false }) session!: Session;
  @property({ attribute: false }) subject!: HistorySubject;
  /** What is edited, as it is called. */
  @property({ attribute: false }) name = '';
  @property({ attribute: false }) draft!: Pick<DraftController<unknown>, 'keepTyped' | 'takeStored'>;

  /** What was changed last, by whom and when, as far as it is known. */
  private get what(): string {
    const [last] = valueOf(this.lines.answer) ?? [];
    const [change] = last?.changes ?? [];
    if (last === undefined || change === undefined) return '';
    const { words } = changeText(change, this.session.state.decimalMark);
    const by = last.who === undefined ? '' : ` by ${last.who}`;
    return `${by}, ${momentText(last.at)}${words === '' ? '' : `: ${words}`}`;
  }

  override render() {
    return html`<section aria-labelledby="elsewhere">
      <p id="elsewhere" role="alert">
        <span class="wrong">▲</span> ${this.name} was changed while you typed${this.what}. What you typed is still here
        and not saved.
      </p>
      <button type="button" @click=${this.draft.takeStored}>Show it as it is now</button>
      <button type="button" @click=${this.draft.keepTyped}>Go on with what I typed</button>
    </section>`;
  }
}

/** The question about a draft that was changed elsewhere; nothing where it was not. */
export function changedElsewhere(
  session: Session,
  draft: DraftController<unknown>,
  name: string,
  subject: HistorySubject,
) {
  if (!draft.isOutdated) return nothing;
  return html`<bt-changed-elsewhere
    .session=${session}
    .name=${name}
    .subject=${subject}
    .draft=${draft}
  ></bt-changed-elsewhere>`;
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-changed-elsewhere': ChangedElsewhere;
  }
}
