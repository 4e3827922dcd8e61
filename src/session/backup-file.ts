import type { BackupFileState } from '../worker/contract/memory.ts';
import { sentenceOf, type BenchLink } from './bench-link.ts';
import type { PageState } from './page-state.ts';

/** What the page shows of the backup file that is kept up to date. */
export interface BackupFileView extends BackupFileState {
  readonly isWriting?: boolean;
  /** Why it could not be written last, as a sentence. */
  readonly problem?: string;
}

/** How long after the last change the file is written, in milliseconds. */
const PAUSE = 5_000;

/** Keeps one chosen file up to date: it is written once changes have paused, and counts as written only once it was read back. */
export class BackupFileCommands {
  readonly #page: PageState;
  readonly #link: BenchLink;
  readonly #onWritten: () => Promise<void>;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #isWriting = false;

  /** @param onWritten - told when the file was written and read back */
  constructor(page: PageState, link: BenchLink, onWritten: () => Promise<void>) {
    this.#page = page;
    this.#link = link;
    this.#onWritten = onWritten;
    page.onBenchChange(() => {
      void this.#follow();
    });
  }

  /** Chooses the file, which is written at once. */
  async choose(handle: FileSystemFileHandle): Promise<void> {
    await this.#link.attempt(async () => {
      this.#show(await this.#link.call('chooseBackupFile', [handle]));
      await this.write();
    });
  }

  /** Lets the file be; it stays where and as it is. */
  async leave(): Promise<void> {
    clearTimeout(this.#timer);
    await this.#link.attempt(async () => {
      await this.#link.call('chooseBackupFile', [undefined]);
      this.#page.set({ backupFile: undefined });
    });
  }

  /** Asks for permission again, as after a reload. @param ask - asks the person for one file */
  async allow(ask: (handle: FileSystemFileHandle) => Promise<boolean>): Promise<void> {
    await this.#link.attempt(async () => {
      const handle = await this.#link.call('backupHandle', []);
      if (handle !== undefined && (await ask(handle))) await this.#follow();
    });
  }

  /** Writes the file and reads it back. */
  async write(): Promise<void> {
    clearTimeout(this.#timer);
    const view = this.#page.current.backupFile;
    if (this.#isWriting || view === undefined) return;
    this.#isWriting = true;
    this.#page.set({ backupFile: { ...view, isWriting: true } });
    try {
      this.#show(await this.#link.call('writeBackupFile', []));
      await this.#onWritten();
    } catch (error) {
      const problem = sentenceOf(error);
      this.#page.set({ backupFile: { ...view, problem }, problem });
      return;
    } finally {
      this.#isWriting = false;
    }
    // What was changed meanwhile is written after the next pause.
    await this.#follow();
  }

  /** Shows what the file holds by now, and sets the pause going where it is behind. A lost worker is told of elsewhere. */
  async #follow(): Promise<void> {
    const { bench, kept } = this.#page.current;
    if (bench !== 'own' || !kept.keeps) {
      this.#page.set({ backupFile: undefined });
      return;
    }
    let state: BackupFileState | undefined;
    try {
      state = await this.#link.call('backupFile', []);
    } catch {
      return;
    }
    if (this.#isWriting) return;
    this.#show(state, this.#page.current.backupFile?.problem);
    clearTimeout(this.#timer);
    if (state?.holds === 'behind' && state.isAllowed) this.#timer = setTimeout(() => void this.write(), PAUSE);
  }

  #show(state: BackupFileState | undefined, problem?: string): void {
    const isBehind = state !== undefined && state.holds !== 'current';
    this.#page.set({ backupFile: state && { ...state, ...(isBehind && problem !== undefined && { problem }) } });
  }
}
