import type { FilePlan, Question } from '../domain/file-plan.ts';
import type { DecimalMark } from '../domain/quantity.ts';
import { WorkerLost, type BenchClient } from '../worker/client.ts';
import type { BenchCalls, CallName, ProgressOf } from '../worker/contract/calls.ts';
import type { PlanChoices } from '../worker/contract/intake.ts';
import type { WorkerNews } from '../worker/contract/messages.ts';
import { BackupFileCommands } from './backup-file.ts';
import { BenchLink } from './bench-link.ts';
import { CHANGING_CALLS, LOOKED_AT_CALLS } from './changing-calls.ts';
import { Elsewhere } from './elsewhere.ts';
import { FileCommands } from './file-commands.ts';
import { Intake } from './intake.ts';
import { KeptBench } from './kept-bench.ts';
import { KeptCommands } from './kept-commands.ts';
import type { LedgerCopy } from './ledger-copy.ts';
import { LostBench } from './lost-bench.ts';
import { PageState } from './page-state.ts';
import type { SessionState } from './state.ts';
import { Turns } from './turns.ts';

export type { SessionState };

const CHANGED_BEFORE =
  'The bench was changed in another tab just before this, so nothing was changed here. Look at it as it is now, then try again.';

/** The state of the page and the commands that change it. Commands that change the bench run one after the other. */
export class Session {
  readonly #page: PageState;
  readonly #link: BenchLink;
  readonly #turns: Turns;
  readonly #intake: Intake;
  readonly #files: FileCommands;
  readonly #kept: KeptCommands;
  readonly #backupFile: BackupFileCommands;
  readonly #elsewhere: Elsewhere;
  readonly #loadSample: () => Promise<readonly File[]>;
  readonly #keeps: boolean;

  /**
   * @param loadSample - gives the files of the invented scenario
   * @param decimalMark - how the technician writes numbers
   * @param copy - where the ledger's copy lies; without one nothing is kept
   */
  constructor(
    client: BenchClient,
    loadSample: () => Promise<readonly File[]>,
    decimalMark: DecimalMark = '.',
    copy?: LedgerCopy,
  ) {
    const page = new PageState(decimalMark);
    const memory = copy && new KeptBench(client, copy);
    const intake = new Intake(client, {
      waiting: () => page.current.waiting,
      wait: (waiting) => {
        page.set({ waiting });
      },
    });
    const link = new BenchLink(client, page, (error) => {
      // The next turn opens what is kept again.
      if (lost.take(error)) void turns.take(() => Promise.resolve());
    });
    const lost = new LostBench(page, link, memory, () => {
      intake.forget();
    });
    const turns = new Turns(page, link, {
      recover: () => lost.recover(),
      begin: (files) => {
        const { bench, kept } = page.current;
        return bench === 'own' && kept.keeps ? memory?.begin(files) : undefined;
      },
    });
    this.#page = page;
    this.#link = link;
    this.#turns = turns;
    this.#intake = intake;
    this.#files = new FileCommands(page, link, turns, intake);
    this.#kept = new KeptCommands(page, link, turns, intake, memory);
    this.#backupFile = new BackupFileCommands(page, link, () => this.#kept.noteLedger());
    this.#elsewhere = new Elsewhere(page, () => memory?.elsewhere() ?? Promise.resolve([]));
    this.#loadSample = loadSample;
    this.#keeps = memory !== undefined;
  }

  get state(): SessionState {
    return this.#page.current;
  }

  /** Calls `listener` after each change of state, until the function that it returns is called. */
  subscribe(listener: () => void): () => void {
    return this.#page.subscribe(listener);
  }

  /**
   * Asks the worker. A call that changes what the bench holds waits until the imports and changes before it have ended; then all that is shown is
   * asked for anew.
   * @throws what `BenchClient.call` throws
   */
  ask<Name extends CallName>(
    name: Name,
    args: Parameters<BenchCalls[Name]>,
    signal?: AbortSignal,
    onProgress?: (progress: ProgressOf<Name>) => void,
  ): Promise<ReturnType<BenchCalls[Name]>> {
    if (!CHANGING_CALLS.has(name)) return this.#link.call(name, args, signal, onProgress);
    const seen = this.#kept.opened;
    return this.#turns.take(async () => {
      if (LOOKED_AT_CALLS.has(name) && this.#kept.opened !== seen) throw new Error(CHANGED_BEFORE);
      let answer: ReturnType<BenchCalls[Name]>;
      try {
        answer = await this.#link.call(name, args, signal, onProgress);
      } catch (error) {
        // The bench is as it is kept, which may be another than the page shows.
        if (!(error instanceof WorkerLost)) await this.#link.refresh().catch(() => undefined);
        throw error;
      }
      const isRefused = name === 'mendRow' && answer !== undefined;
      if (!isRefused) await this.#link.refresh();
      return answer;
    });
  }

  /** Opens the technician's own bench as it is kept, or the sample where there is none. */
  async start(): Promise<void> {
    const hasOwn = await this.#kept.open();
    if (!hasOwn) await this.openSample();
  }

  /** Takes the news that the worker stopped. */
  lose(error: WorkerLost): void {
    this.#link.lose(error);
  }

  /** Takes what the worker says unasked. */
  hear(news: WorkerNews): void {
    if ('changed' in news) void this.openOwn();
    else if ('begun' in news) void this.lookElsewhere();
    else if ('waits' in news) this.#page.set({ waits: news.waits, canTakeOver: news.silent });
    else this.#page.set({ problem: news.closed, kept: { ...this.state.kept, keeps: false, reason: news.closed } });
  }

  /** Opens the technician's own bench anew, as after the sample or a change in another tab. */
  async openOwn(): Promise<void> {
    await this.#kept.open();
  }

  /**
   * Saves everything that is kept as one file, and counts it as saved only once it was read back.
   * @param save - writes the file and gives back what then stands there; `unseen` where only the technician can tell, who then shows it by
   * `showBackup`, and undefined where the technician chose no place
   */
  backUp(name: string, save: (file: Blob, name: string) => Promise<Blob | 'unseen' | undefined>): Promise<void> {
    return this.#kept.backUp(name, save);
  }

  /** Takes the file of `state.unseenBackup` as the technician shows it: read back whole, it counts as saved. */
  showBackup(file: Blob): Promise<void> {
    return this.#kept.showBackup(file);
  }

  /** Chooses a file that is kept up to date as a backup from now on, and writes it. */
  keepBackupIn(handle: FileSystemFileHandle): Promise<void> {
    return this.#backupFile.choose(handle);
  }

  /** Writes the chosen backup file now, also where it holds another bench. */
  writeBackupFile(): Promise<void> {
    return this.#backupFile.write();
  }

  /** Asks for permission to write the chosen backup file, as after a reload. @param ask - asks the person for one file */
  allowBackupFile(ask: (handle: FileSystemFileHandle) => Promise<boolean>): Promise<void> {
    return this.#backupFile.allow(ask);
  }

  /** Keeps no file up to date any more. */
  leaveBackupFile(): Promise<void> {
    return this.#backupFile.leave();
  }

  /** Puts a backup in place of the present bench; `undoSwitch` brings that back once. */
  restore(file: Blob): Promise<void> {
    return this.#kept.restore(file);
  }

  /** Brings the bench back that was there before the last restore or new beginning. */
  undoSwitch(): Promise<void> {
    return this.#kept.undoSwitch();
  }

  /** Replaces whatever is open by the invented scenario. */
  openSample(): Promise<void> {
    return this.#kept.openSample(this.#loadSample);
  }

  /** Empties the bench, so that it holds nobody's readings. */
  startEmpty(): Promise<void> {
    return this.#kept.startEmpty();
  }

  /**
   * Brings files in, after those that are being read. What leaves a question open waits in `state.waiting`; what became of the others is told in
   * `state.outcome`.
   */
  bringIn(files: readonly File[]): Promise<void> {
    return this.#files.bringIn(files);
  }

  /**
   * Tries a waiting file with a changed plan.
   * @param change - makes the new plan of the one that holds by then
   * @param answers - the question that the change answers, if any
   */
  async changePlan(file: File, change: (plan: FilePlan) => FilePlan, answers?: Question['about']): Promise<void> {
    await this.#intake.changePlan(file, change, answers);
  }

  /** Guesses a waiting file's plan anew, with an encoding or a separator that the technician chose. */
  async replan(file: File, choices: PlanChoices): Promise<void> {
    await this.#intake.replan(file, choices);
  }

  /** Reads a waiting file as its plan says, and then every other that this leaves without a question. */
  settlePlan(file: File, plan: FilePlan): Promise<void> {
    return this.#files.settlePlan(file, plan);
  }

  /** Takes a waiting file off the list without reading it. */
  skipFile(file: File): void {
    this.#files.skip(file);
  }

  /** Fetches the file of an import from what is kept, where it is not at hand. @param name - the import's */
  async fetchOriginal(hash: string, name: string): Promise<void> {
    if (this.#keeps) await this.#link.attempt(() => this.#files.fetchOriginal(hash, name));
  }

  /** Whether the file of an import is at hand, so that it can be read in another way. */
  hasOriginal(hash: string): boolean {
    return this.#intake.hasOriginal(hash);
  }

  /**
   * Asks anew how a file that is in is read. The import stands until another plan is settled for it.
   * @param name - the import's
   * @param file - its file, where `hasOriginal` says that it is not at hand
   */
  reread(hash: string, name: string, file?: File): Promise<void> {
    return this.#files.reread(hash, name, file);
  }

  /** Asks the import in progress to stop; what it had read is let go. */
  cancelImport(): void {
    this.#turns.cancel();
  }

  /** Goes on with storing although another tab was at it, which gives no sign of life. */
  async takeOver(): Promise<void> {
    this.#page.set({ canTakeOver: undefined });
    await this.#link.attempt(() => this.#link.call('takeOver', []));
  }

  /** Looks for imports that run in other tabs, as after a note that one has begun or ended there. */
  lookElsewhere(): Promise<void> {
    return this.#elsewhere.look();
  }

  /** Takes the last problem off the page. */
  dismissProblem(): void {
    this.#page.set({ problem: undefined });
  }

  /** Chooses how numbers are written on screen. */
  writeNumbersWith(decimalMark: DecimalMark): void {
    this.#page.set({ decimalMark });
  }
}
