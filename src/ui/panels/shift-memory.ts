import { LitElement, html, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { errorText } from '../../domain/error-text.ts';
import type { BackupContents } from '../../session/answers.ts';
import { backupDue } from '../../session/kept-bench.ts';
import type { Session } from '../../session/session.ts';
import { followSession } from '../controllers/session-controller.ts';
import { saveAndReadBack } from '../save-file.ts';
import { shared } from '../styles/shared.styles.ts';
import { countOf, countText, momentText } from '../words.ts';
import './backup-file.ts';
import './start-anew.ts';

/** A backup that was looked into, before it takes the place of the bench. */
interface Candidate {
  readonly file: File;
  readonly contents: BackupContents;
}

/** What outlasts the page: whether changes are kept, what is missing, and backups saved and restored. */
@customElement('bt-shift-memory')
export class ShiftMemory extends LitElement {
  static override styles = shared;

  @query('#restored') private readonly input!: HTMLInputElement;
  @query('#saved') private readonly savedInput!: HTMLInputElement | null;

  @state() private candidate: Candidate | undefined;
  @state() private refusal = '';
  @state() private said = '';

  @property({ attribute: false }) session!: Session;

  constructor() {
    super();
    followSession(this, () => this.session);
  }

  private save(): Promise<void> {
    const name = `benchtally ${new Date().toISOString().slice(0, 10)}.backup`;
    return this.confirmed(() => this.session.backUp(name, saveAndReadBack));
  }

  private choose(): void {
    this.input.click();
  }

  private chooseSaved(): void {
    this.savedInput?.click();
  }

  private async showSaved(): Promise<void> {
    const [file] = this.savedInput?.files ?? [];
    if (this.savedInput !== null) this.savedInput.value = '';
    if (file !== undefined) await this.confirmed(() => this.session.showBackup(file));
  }

  /** Does what may end with a backup read back, and says so only then. */
  private async confirmed(work: () => Promise<void>): Promise<void> {
    const atOf = (): number | undefined => this.session.state.kept.ledger?.lastBackup?.at;
    const before = atOf();
    this.said = '';
    await work();
    const isRead = atOf() !== undefined && atOf() !== before;
    this.said = isRead ? 'The backup was saved and read back whole.' : '';
  }

  private async look(): Promise<void> {
    const [file] = this.input.files ?? [];
    this.input.value = '';
    if (file === undefined) return;
    this.candidate = undefined;
    this.refusal = '';
    this.said = '';
    try {
      this.candidate = { file, contents: await this.session.ask('lookIntoBackup', [file]) };
    } catch (error) {
      this.refusal = errorText(error);
    }
  }

  private async restore(): Promise<void> {
    const { candidate } = this;
    this.candidate = undefined;
    if (candidate !== undefined) await this.session.restore(candidate.file);
  }

  private leave(): void {
    this.candidate = undefined;
  }

  private openOwn(): void {
    void this.session.openOwn();
  }

  private undo(): void {
    void this.session.undoSwitch();
  }

  private renderState() {
    const { bench, kept } = this.session.state;
    if (bench !== 'own') {
      const reason =
        kept.reason ??
        'Nothing is kept while the sample is open. Start an empty bench, and every change of it is kept.';
      return html`<p>${reason}</p>`;
    }
    if (!kept.keeps) {
      return html`<p>${kept.reason ?? 'Nothing is kept when this page closes: keep your files.'}</p>`;
    }
    const due = kept.ledger && backupDue(kept.ledger, Date.now());
    const last = kept.ledger?.lastBackup;
    return html`
      <p>
        Every change is kept in this browser, on this machine.
        ${last === undefined ? nothing : html`Last backup: ${momentText(last.at)}.`}
      </p>
      ${due === undefined ? nothing : html`<p><span class="wrong">▲</span> ${due}</p>`}
    `;
  }

  private renderCandidate({ file, contents }: Candidate) {
    const { decimalMark } = this.session.state;
    const { imports, readings, repairs, bands, families, present } = contents;
    const of = (number: number, noun: string): string => countOf(number, noun, decimalMark);
    const count = (number: number): string => countText(number, decimalMark);
    const told = contents.changes.map(({ part, added, changed, gone }) => `${part}: ${count(added)} come, ${count(changed)} change, ${count(gone)} go`); // prettier-ignore
    return html`<section aria-labelledby="candidate">
      <h3 id="candidate">Put ${file.name} in place of this bench?</h3>
      <p>
        It holds ${of(readings, 'reading')} of ${of(imports, 'import')}, ${of(repairs, 'repair')},
        ${families === 1 ? '1 family' : `${count(families)} families`} and ${of(bands, 'band')}; this bench holds
        ${of(present.readings, 'reading')} of ${of(present.imports, 'import')} and ${of(present.bands, 'band')}.
        ${told.length === 0 ? 'Bands, families, repairs, meters, settings and views stay as they are.' : `Of the ${told.join('; of the ')}.`}
        This bench can be brought back once.
      </p>
      <button class="main" type="button" @click=${this.restore}>Put it in place</button>
      <button type="button" @click=${this.leave}>Leave it</button>
    </section>`;
  }

  /** A backup of which nobody knows yet whether it arrived, and the way to prove it. */
  private renderUnseen() {
    const { unseenBackup } = this.session.state;
    if (unseenBackup === undefined) return nothing;
    return html`<div role="group" aria-labelledby="unseen">
      <p id="unseen" role="status">
        The browser took ${unseenBackup.name} to its downloads; whether it arrived whole, this page cannot see. It
        counts as a backup once you show the file here and it is read.
      </p>
      <button type="button" @click=${this.chooseSaved}>Show the saved file…</button>
      <input
        id="saved"
        type="file"
        hidden
        accept=".backup"
        aria-label="The backup that was just saved"
        @change=${this.showSaved}
      />
    </div>`;
  }

  private renderProgress() {
    const { working } = this.session.state;
    if (working === undefined) return nothing;
    const { what, done, total } = working;
    return html`<p role="status">
      ${what}. <progress aria-label=${what} max=${Math.max(1, total)} .value=${Math.min(done, total)}></progress>
    </p>`;
  }

  override render() {
    const { bench, kept, summary } = this.session.state;
    const hasStorage = kept.reason === undefined;
    const keepsOwn = bench === 'own' && kept.keeps;
    const { readings = 0, repairs = 0, families = 0, bands = 0 } = summary ?? {};
    const isEmpty = readings + repairs + families + bands === 0;
    return html`<section aria-labelledby="kept">
      <h2 id="kept">What is kept?</h2>
      ${kept.faults.map((fault) => html`<p role="alert"><span class="wrong">▲</span> ${fault}</p>`)}
      ${this.renderState()}
      ${
        hasStorage
          ? html`<p>
              ${keepsOwn ? html`<button type="button" @click=${this.save}>Save a backup…</button>` : nothing}
              <button type="button" @click=${this.choose}>Restore a backup…</button>
              ${
                kept.canUndoSwitch
                  ? html`<button type="button" @click=${this.undo}>Bring the bench before back</button>`
                  : nothing
              }
              ${
                bench !== 'own' && kept.ledger && kept.ledger.imports.length > 0
                  ? html`<button type="button" @click=${this.openOwn}>Back to your own bench</button>`
                  : nothing
              }
            </p>`
          : nothing
      }
      <input id="restored" type="file" hidden accept=".backup" aria-label="Backup to restore" @change=${this.look} />
      ${this.renderUnseen()} ${this.renderProgress()}
      <p role="status">${this.said}</p>
      ${this.refusal === '' ? nothing : html`<p role="alert"><span class="wrong">▲</span> ${this.refusal}</p>`}
      ${this.candidate === undefined ? nothing : this.renderCandidate(this.candidate)}
      ${
        keepsOwn
          ? html`<bt-backup-file .session=${this.session}></bt-backup-file> ${
                isEmpty
                  ? nothing
                  : html`<bt-start-anew .session=${this.session} @backup-wanted=${this.save}></bt-start-anew>`
              }`
          : nothing
      }
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-shift-memory': ShiftMemory;
  }
}
