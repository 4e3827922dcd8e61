import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { EditField, ReadingHistoryEntry, ReadingPatch, ReadingRow, RowIdentity } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { EDIT_FIELDS } from '../../domain/reading-edit.ts';
import { AnswerController } from '../controllers/answer-controller.ts';
import { ChangeController } from '../controllers/change-controller.ts';
import { followSession } from '../controllers/session-controller.ts';
import { editText, originalText } from '../grid/edit-text.ts';
import { stepSource } from '../grid/edit-words.ts';
import { shared } from '../styles/shared.styles.ts';
import { listText } from '../words.ts';

const DEEDS = { added: 'added by hand', deleted: 'deleted', returned: 'brought back' } as const;

/** What became of one reading by hand: each edit with who, when and why, and the way back to what was brought in. */
@customElement('bt-readings-history')
export class ReadingsHistory extends LitElement {
  static override styles = [
    shared,
    css`
      :host {
        display: block;
        font-size: var(--small);
      }

      h3,
      p,
      ol {
        margin: 0;
      }

      ol {
        padding: 0;
        list-style: none;
      }

      time {
        color: var(--quiet);
        font-family: var(--font-number);
      }
    `,
  ];

  private readonly making = new ChangeController(this);
  private readonly history = new AnswerController<readonly ReadingHistoryEntry[]>(this, () => this.question());

  @property({ attribute: false }) session?: Session;
  @property({ attribute: false }) row?: ReadingRow;

  constructor() {
    super();
    followSession(this, () => this.session);
  }

  private get identity(): RowIdentity | undefined {
    return this.row && { ...this.row.origin, nth: this.row.nth ?? 0 };
  }

  private question() {
    const { session, identity } = this;
    if (session === undefined || identity === undefined) return undefined;
    return {
      key: JSON.stringify([session.state.revision, identity]),
      ask: (signal: AbortSignal) => session.ask('readingHistory', [identity], signal),
    };
  }

  private async restore(): Promise<void> {
    const { session, identity } = this;
    if (session === undefined || identity === undefined) return;
    const all = { filters: [], sort: [] };
    await this.making.make(async () => {
      const line = await session.ask('placeOf', [all, identity]);
      if (line >= 0) await session.ask('restoreReadings', [all, line, line]);
    });
  }

  private deed(row: ReadingRow, entry: ReadingHistoryEntry): string {
    if (entry.does !== 'edited') return DEEDS[entry.does];
    const mark = this.session?.state.decimalMark ?? '.';
    const textOf = (field: EditField, patch: ReadingPatch | undefined): string =>
      editText(field, { ...row, ...patch }, mark) || 'blank';
    const changes = fieldsOf(entry).map(
      (field) => `${field} ${textOf(field, entry.old)} → ${textOf(field, entry.new)}`,
    );
    return listText(changes);
  }

  override render() {
    const { row, session } = this;
    const { answer } = this.history;
    if (row === undefined || answer.status !== 'ready' || answer.value.length === 0) return nothing;
    const mark = session?.state.decimalMark ?? '.';
    const originals = EDIT_FIELDS.flatMap((field) => {
      const text = originalText(field, row, mark);
      return text === undefined ? [] : [`${field} ${text}`];
    });
    return html`<h3>What was done to it by hand?</h3>
      <ol>
        ${answer.value.map(
          (entry) =>
            html`<li>
              <time>${stepSource(entry)}</time>
              ${this.deed(row, entry)}${entry.why === undefined ? nothing : `: “${entry.why}”`}
            </li>`,
        )}
      </ol>
      ${
        originals.length === 0
          ? nothing
          : html`<p>
                As it was brought in: ${listText(originals)}.
                <button class="plain" type="button" @click=${this.restore}>give that back</button>
              </p>
              ${this.making.faultLine()}`
      }`;
  }
}

/** The fields that an edit changed; what a meter showed is one of them. */
function fieldsOf({ old = {}, new: set = {} }: ReadingHistoryEntry): readonly EditField[] {
  const keys = new Set([...Object.keys(old), ...Object.keys(set)]);
  return EDIT_FIELDS.filter((field) =>
    field === 'reading' ? ['state', 'value', 'prefix', 'decimals'].some((key) => keys.has(key)) : keys.has(field),
  );
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-readings-history': ReadingsHistory;
  }
}
