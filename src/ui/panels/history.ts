import { LitElement, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { HistorySubject } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { followSession } from '../controllers/session-controller.ts';
import { shared } from '../styles/shared.styles.ts';
import './history-lines.ts';
import { subjectHistory } from './subject-history.ts';

/** The changes of one repair or one band, latest first; nothing where nothing was changed. */
@customElement('bt-history')
export class History extends LitElement {
  static override styles = shared;

  private readonly lines = subjectHistory(this);

  @property({ attribute: false }) session!: Session;
  @property({ attribute: false }) subject!: HistorySubject;

  constructor() {
    super();
    followSession(this, () => this.session);
  }

  override render() {
    const { answer } = this.lines;
    if (answer.status === 'failed') return html`<p class="wrong">${answer.reason}</p>`;
    const lines = answer.value ?? [];
    if (lines.length === 0) return nothing;
    return html`<section aria-labelledby="changes">
      <h2 id="changes">What was changed here, when and by whom?</h2>
      <bt-history-lines .session=${this.session} .lines=${lines} .name=${'Changes, latest first'}></bt-history-lines>
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-history': History;
  }
}
