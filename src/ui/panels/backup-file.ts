import { LitElement, css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { BackupFileView } from '../../session/backup-file.ts';
import type { Session } from '../../session/session.ts';
import { ChangeController } from '../controllers/change-controller.ts';
import { followSession } from '../controllers/session-controller.ts';
import { askForFile, chooseFile, hasFileHandles } from '../save-file.ts';
import { shared } from '../styles/shared.styles.ts';
import { momentText } from '../words.ts';

/** The file outside the browser that is kept up to date as a backup: chosen, allowed again, or let be. */
@customElement('bt-backup-file')
export class BackupFile extends LitElement {
  static override styles = [
    shared,
    css`
      :host {
        margin-block-start: 1rem;
      }

      .ways {
        display: flex;
        flex-wrap: wrap;
        gap: 0.5rem 0.75rem;
      }
    `,
  ];

  private readonly making = new ChangeController(this);

  @property({ attribute: false }) session!: Session;

  constructor() {
    super();
    followSession(this, () => this.session);
  }

  private async choose(): Promise<void> {
    await this.making.make(async () => {
      const handle = await chooseFile('benchtally.backup');
      if (handle !== undefined) await this.session.keepBackupIn(handle);
    });
  }

  private allow(): void {
    void this.session.allowBackupFile(askForFile);
  }

  private write(): void {
    void this.session.writeBackupFile();
  }

  private leave(): void {
    void this.session.leaveBackupFile();
  }

  /** What stands in the file, and the step that it asks for. */
  private renderState({ name, holds, isAllowed, isWriting, problem, at }: BackupFileView) {
    const warned = (words: string, button: unknown = nothing) =>
      html`<p><span class="wrong">▲</span> ${words}</p>
        ${button}`;
    const when = at === undefined ? '' : ` It was last read back whole on ${momentText(at)}.`;
    if (isWriting === true) return html`<p role="status">${name} is being written and read back.</p>`;
    if (!isAllowed) {
      return warned(
        `${name} is not kept up to date now: the browser asks you again before this page may write it.${when}`,
        html`<button class="main" type="button" @click=${this.allow}>Allow writing ${name}</button>`,
      );
    }
    switch (holds) {
      case 'current':
        return html`<p role="status">${name} is kept up to date: it holds everything.${when}</p>`;
      case 'behind':
        return problem === undefined
          ? html`<p role="status">${name} is behind: it is written when changes pause.${when}</p>`
          : warned(`${problem}${when}`, html`<button type="button" @click=${this.write}>Try again</button>`);
      case 'other bench':
        return warned(
          `${name} holds the bench that was here before, and is not written over unasked.${when}`,
          html`<button type="button" @click=${this.write}>Write this bench into it</button>`,
        );
      case 'damaged bench':
        return warned(`Something of this bench is missing, so ${name} is left as it is: restore from it.${when}`);
    }
  }

  override render() {
    const { backupFile } = this.session.state;
    if (!hasFileHandles()) {
      return html`<p class="quiet">
        This browser lets no page keep a file up to date by itself: save backups by hand, as above.
      </p>`;
    }
    if (backupFile === undefined) {
      return html`<p>A file that you choose can be kept up to date by itself, after every change.</p>
        <button type="button" @click=${this.choose}>Keep a file up to date…</button>
        ${this.making.faultLine()}`;
    }
    return html`${this.renderState(backupFile)}
      <div class="ways">
        <button type="button" @click=${this.choose}>Another file…</button>
        <button type="button" @click=${this.leave}>Keep no file up to date</button>
      </div>
      ${this.making.faultLine()}`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-backup-file': BackupFile;
  }
}
