import type { FilePlan, Question } from '../domain/file-plan.ts';
import type { DecimalMark } from '../domain/quantity.ts';
import { CallCancelled, WorkerLost, type BenchClient } from '../worker/client.ts';
import type { BenchCalls, CallName, ProgressOf } from '../worker/contract/calls.ts';
import type { ImportOutcome, PlanChoices } from '../worker/contract/intake.ts';
import type { BenchSummary, KeptAnswer } from '../worker/contract/memory.ts';
import type { ImportProgress } from '../worker/contract/progress.ts';
import { PaceMeter } from './import-pace.ts';
import { Intake } from './intake.ts';
import { KeptBench, keptState, type KeptState } from './kept-bench.ts';
import type { LedgerCopy } from './ledger-copy.ts';
import { withChanges, type Changes, type SessionState } from './state.ts';

export type { SessionState };

/** Calls that change what the bench holds. */
const CHANGING: ReadonlySet<CallName> = new Set([
  'takeBack',
  'mendRow',
  'letGo',
  'answerName',
  'setBands',
  'removeBand',
  'setFamily',
  'setMeter',
  'overruleLine',
  'setRepair',
  'undo',
  'editReadings',
  'restoreReadings',
  'deleteReadings',
  'returnReadings',
  'undoEdit',
  'redoEdit',
]);

const NOT_KEPT: KeptState = { keeps: false, faults: [], canUndoSwitch: false };
const EMPTY: BenchSummary = { readings: 0, repairs: 0, families: 0, bands: 0 };
const NOTHING_READ: ImportOutcome = { records: [], setAside: [], refused: [] };

/** The state of the page and the commands that change it. Commands that change the bench run one after the other. */
export class Session {
  #state: SessionState;
  /** Ends when the command asked for last has ended. */
  #last: Promise<unknown> = Promise.resolve();
  /** Imports that run or whose turn comes, in order. */
  #imports: readonly AbortController[] = [];
  readonly #intake: Intake;
  readonly #listeners = new Set<() => void>();
  readonly #client: BenchClient;
  readonly #loadSample: () => Promise<readonly File[]>;
  readonly #memory: KeptBench | undefined;

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
    this.#client = client;
    this.#loadSample = loadSample;
    this.#memory = copy && new KeptBench(client, copy);
    this.#state = { revision: 0, bench: 'own', queued: 0, waiting: [], decimalMark, kept: NOT_KEPT };
    this.#intake = new Intake(client, {
      waiting: () => this.#state.waiting,
      wait: (waiting) => {
        this.#set({ waiting });
      },
    });
  }

  get state(): SessionState {
    return this.#state;
  }

  /** Calls `listener` after each change of state, until the function that it returns is called. */
  subscribe(listener: () => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
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
    if (!CHANGING.has(name)) return this.#call(name, args, signal, onProgress);
    return this.#inTurn(async () => {
      const answer = await this.#call(name, args, signal, onProgress);
      const isRefused = name === 'mendRow' && answer !== undefined;
      if (!isRefused) this.#change(await this.#call('summary', []), {});
      return answer;
    });
  }

  /** Opens the technician's own bench as it is kept, or the sample where there is none. */
  async start(): Promise<void> {
    const hasOwn = await this.#openKept();
    if (!hasOwn) await this.openSample();
  }

  /** Opens the technician's own bench anew, as after the sample or a change in another tab. */
  async openOwn(): Promise<void> {
    await this.#openKept();
  }

  /**
   * Saves everything that is kept as one file, and counts it as saved only once it was read back.
   * @param save - writes the file and gives back what then stands there; undefined where the technician chose no place
   */
  async backUp(save: (file: Blob) => Promise<Blob | undefined>): Promise<void> {
    await this.#run(async () => {
      const { file, seal } = await this.#client.call('backUp', []);
      const written = await save(file);
      if (written === undefined) return;
      await this.#client.call('confirmBackup', [written, seal]);
      await this.#noteLedger();
    });
  }

  /** Puts a backup in place of the present bench; `undoSwitch` brings that back once. */
  async restore(file: Blob): Promise<void> {
    await this.#switch((signal) => this.#call('restore', [file], signal));
  }

  /** Brings the bench back that was there before the last restore or new beginning. */
  async undoSwitch(): Promise<void> {
    await this.#switch((signal) => this.#call('undoSwitch', [], signal));
  }

  /** Replaces whatever is open by the invented scenario. */
  async openSample(): Promise<void> {
    await this.#run(async (signal) => {
      const files = await this.#loadSample();
      await this.#clear('sample');
      const outcome = await this.#intake.read(files, [], this.#reporting(signal));
      this.#change(await this.#client.call('summary', []), { outcome });
    });
  }

  /** Empties the bench, so that it holds nobody's readings. */
  async startEmpty(): Promise<void> {
    if (this.#memory === undefined) {
      await this.#run(() => this.#clear('own'));
      return;
    }
    await this.#run(async () => {
      const summary = await this.#client.call('startOwn', []);
      this.#memory?.accept();
      this.#intake.forget();
      this.#change(summary, {
        bench: 'own',
        outcome: undefined,
        waiting: [],
        kept: { ...this.#state.kept, faults: [] },
      });
      await this.#noteLedger();
      // What was kept before the new beginning comes back by one undo.
      const { ledger } = this.#state.kept;
      this.#set({ kept: { ...this.#state.kept, canUndoSwitch: (ledger?.generation ?? 1) > 1 } });
    });
  }

  /**
   * Brings files in, after those that are being read. What leaves a question open waits in `state.waiting`; what became of the others is told in
   * `state.outcome`.
   */
  async bringIn(files: readonly File[]): Promise<void> {
    if (files.length === 0) return;
    await this.#run(
      async (signal) => {
        await this.#take(await this.#intake.admit(files, this.#reporting(signal)), this.#ownBench);
      },
      { files: files.length },
    );
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
  async settlePlan(file: File, plan: FilePlan): Promise<void> {
    const { waiting } = this.#state;
    const settled = waiting.find((entry) => entry.file === file);
    if (settled === undefined) return;
    this.#set({ waiting: waiting.filter((entry) => entry.file !== file) });
    await this.#run(
      async (signal) => {
        try {
          const first = await this.#intake.settle(settled, plan, this.#reporting(signal));
          await this.#take(first, settled.replaces === undefined ? this.#ownBench : this.#state.bench);
        } catch (error) {
          this.#set({ waiting: [{ ...settled, plan }, ...this.#state.waiting] });
          throw error;
        }
        const others = await this.#intake.admitAnswered(this.#reporting(signal));
        if (others.records.length + others.refused.length === 0) return;
        await this.#take(joined(this.#state.outcome ?? NOTHING_READ, others), this.#ownBench);
      },
      {
        files: 1,
        ...(settled.replaces !== undefined && {
          cancelled: `The import was cancelled: ${settled.name} stays as it was.`,
        }),
      },
    );
  }

  /** Takes a waiting file off the list without reading it. */
  skipFile(file: File): void {
    const skipped = this.#state.waiting.find((entry) => entry.file === file);
    if (skipped === undefined) return;
    const waiting = this.#state.waiting.filter((entry) => entry !== skipped);
    if (skipped.replaces !== undefined) {
      this.#set({ waiting });
      return;
    }
    const reason = 'You chose to leave it out: bring it in again to be asked again.';
    this.#set({ waiting, outcome: { ...NOTHING_READ, refused: [{ file: skipped.name, reason }] } });
  }

  /** Fetches the file of an import from what is kept, where it is not at hand. @param name - the import's */
  async fetchOriginal(hash: string, name: string): Promise<void> {
    if (this.#memory === undefined || this.hasOriginal(hash)) return;
    const bytes = await this.#call('original', [hash]);
    if (bytes !== undefined) this.#intake.takeOriginal(hash, new File([bytes], name));
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
  async reread(hash: string, name: string, file?: File): Promise<void> {
    this.#set({ problem: undefined });
    try {
      await this.#intake.reread(hash, name, file);
    } catch (error) {
      await this.#explain(error);
    }
  }

  /** Asks the import in progress to stop; what it had read is let go. */
  cancelImport(): void {
    this.#imports[0]?.abort();
  }

  /** Takes the last problem off the page. */
  dismissProblem(): void {
    this.#set({ problem: undefined });
  }

  /** Chooses how numbers are written on screen. */
  writeNumbersWith(decimalMark: DecimalMark): void {
    this.#set({ decimalMark });
  }

  get #ownBench(): SessionState['bench'] {
    return this.#state.bench === 'own' ? 'own' : 'sample and own';
  }

  async #call<Name extends CallName>(
    name: Name,
    args: Parameters<BenchCalls[Name]>,
    signal?: AbortSignal,
    onProgress?: (progress: ProgressOf<Name>) => void,
  ): Promise<ReturnType<BenchCalls[Name]>> {
    try {
      return await this.#client.call(name, args, { ...(signal && { signal }), ...(onProgress && { onProgress }) });
    } catch (error) {
      if (error instanceof WorkerLost) this.#loseBench(error);
      throw error;
    }
  }

  /** @returns whether a bench of the technician's own, or what is missing of it, is shown now */
  async #openKept(): Promise<boolean> {
    const memory = this.#memory;
    if (memory === undefined) return false;
    let isShown = false;
    await this.#run(async () => {
      const answer = await memory.open();
      this.#set({ kept: keptState(answer) });
      if (!answer.found && !answer.keeps && answer.faults.length === 0) return;
      isShown = true;
      this.#intake.forget();
      this.#change(await this.#client.call('summary', []), { bench: 'own', outcome: undefined });
    });
    return isShown;
  }

  async #switch(call: (signal: AbortSignal) => Promise<KeptAnswer>): Promise<void> {
    await this.#run(async (signal) => {
      const answer = await call(signal);
      this.#memory?.accept();
      this.#intake.forget();
      this.#change(await this.#client.call('summary', []), {
        bench: 'own',
        outcome: undefined,
        kept: keptState(answer),
      });
    });
  }

  async #noteLedger(): Promise<void> {
    if (this.#memory === undefined || this.#state.bench !== 'own') return;
    const ledger = await this.#memory.note();
    const { faults, canUndoSwitch } = this.#state.kept;
    if (ledger !== undefined) this.#set({ kept: { keeps: true, faults, canUndoSwitch, ledger } });
  }

  async #clear(bench: 'own' | 'sample'): Promise<void> {
    const summary = await this.#client.call('clear', []);
    this.#intake.forget();
    this.#change(summary, { bench, outcome: undefined, waiting: [] });
  }

  /** Shows what an import came to. */
  async #take(outcome: ImportOutcome, bench: SessionState['bench']): Promise<void> {
    const isRead = outcome.records.length > 0;
    this.#change(await this.#client.call('summary', []), { outcome, bench: isRead ? bench : this.#state.bench });
  }

  /** What a long call is made with, so that it is seen and can be stopped. */
  #reporting(signal: AbortSignal) {
    const pace = new PaceMeter();
    return {
      signal,
      onProgress: (progress: ImportProgress) => {
        this.#set({ importing: pace.measure(progress, performance.now()) });
      },
    };
  }

  /** Runs a command once those before it have ended. */
  #inTurn<Result>(command: () => Promise<Result>): Promise<Result> {
    const result = this.#last.then(command);
    this.#last = result.catch(() => undefined);
    return result;
  }

  /**
   * Runs an import in its turn, and turns whatever it throws into a sentence.
   * @param files - how many it brings
   * @param cancelled - what is said when it was cancelled
   */
  async #run(
    command: (signal: AbortSignal) => Promise<void>,
    { files = 0, cancelled = 'The import was cancelled: its files were left out.' } = {},
  ): Promise<void> {
    const controller = new AbortController();
    const isFirst = this.#imports.length === 0;
    this.#imports = [...this.#imports, controller];
    this.#set(isFirst ? { problem: undefined } : { queued: this.#state.queued + files });
    await this.#inTurn(async () => {
      if (!isFirst) this.#set({ queued: this.#state.queued - files });
      try {
        controller.signal.throwIfAborted();
        await command(controller.signal);
      } catch (error) {
        const isCancelled = controller.signal.aborted || error instanceof CallCancelled;
        await this.#explain(isCancelled ? new Error(cancelled) : error);
      } finally {
        this.#imports = this.#imports.filter((one) => one !== controller);
        this.#set({ importing: undefined });
      }
    });
  }

  async #explain(error: unknown): Promise<void> {
    if (error instanceof WorkerLost) {
      this.#loseBench(error);
      return;
    }
    const problem = sentence(error);
    try {
      this.#change(await this.#client.call('summary', []), { problem });
    } catch (second) {
      this.#set({ problem: sentence(second) });
    }
  }

  /** The worker took the readings with it. */
  #loseBench(error: WorkerLost): void {
    const { readings, repairs, bands } = this.#state.summary ?? EMPTY;
    this.#intake.forget();
    if (readings + repairs + bands === 0) {
      this.#set({ summary: EMPTY, bench: 'own', problem: error.message });
      return;
    }
    const problem = `${error.message} The bench is empty now: bring your files in again.`;
    this.#change(EMPTY, { bench: 'own', outcome: undefined, problem });
  }

  #change(summary: BenchSummary, more: Changes): void {
    this.#set({ ...more, summary, revision: this.#state.revision + 1 });
    this.#noteLedger().catch(() => undefined);
  }

  #set(changes: Changes): void {
    this.#state = withChanges(this.#state, changes);
    for (const listener of this.#listeners) listener();
  }
}

function joined(first: ImportOutcome, second: ImportOutcome): ImportOutcome {
  return {
    records: [...first.records, ...second.records],
    setAside: [...first.setAside, ...second.setAside],
    refused: [...first.refused, ...second.refused],
  };
}

function sentence(error: unknown): string {
  const text = error instanceof Error ? error.message : String(error);
  return /[.!?]$/.test(text) ? text : `${text}.`;
}
