import type { DecimalMark } from '../domain/quantity.ts';
import { CallCancelled, WorkerLost, type BenchClient } from '../worker/client.ts';
import type { BenchCalls, BenchSummary, CallName, ImportOutcome, ImportProgress } from '../worker/contract.ts';

/** What the page shows of the bench as a whole. Replaced, never changed in place. */
export interface SessionState {
  /** What the bench holds; undefined until the worker has first answered. */
  readonly summary?: BenchSummary;
  /** Grows with each change of what the bench holds: an answer of an older revision is out of date. */
  readonly revision: number;
  /** Whether the invented sample is open, and whether files of one's own were added to it. */
  readonly bench: 'own' | 'sample' | 'sample and own';
  /** How far the import in progress has come; undefined when there is none. */
  readonly importing?: ImportProgress;
  /** What became of the files brought in last. */
  readonly outcome?: ImportOutcome;
  /** What went wrong last, as a sentence. */
  readonly problem?: string;
  readonly decimalMark: DecimalMark;
  /** Whether anything outlasts the page. */
  readonly keeps: false;
}

const EMPTY: BenchSummary = { readings: 0, repairs: 0, families: 0, bands: 0 };

/** The state of the page and the commands that change it. */
export class Session {
  #state: SessionState;
  #import: AbortController | undefined;
  readonly #listeners = new Set<() => void>();
  readonly #client: BenchClient;
  readonly #loadSample: () => Promise<readonly File[]>;

  /**
   * @param loadSample - gives the files of the invented scenario
   * @param decimalMark - how the technician writes numbers
   */
  constructor(client: BenchClient, loadSample: () => Promise<readonly File[]>, decimalMark: DecimalMark = '.') {
    this.#client = client;
    this.#loadSample = loadSample;
    this.#state = { revision: 0, bench: 'own', decimalMark, keeps: false };
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
   * Asks the worker for something to show.
   * @throws what `BenchClient.call` throws
   */
  async ask<Name extends CallName>(
    name: Name,
    args: Parameters<BenchCalls[Name]>,
    signal?: AbortSignal,
  ): Promise<ReturnType<BenchCalls[Name]>> {
    try {
      return await this.#client.call(name, args, signal === undefined ? {} : { signal });
    } catch (error) {
      if (error instanceof WorkerLost) this.#loseBench(error);
      throw error;
    }
  }

  /** Replaces whatever is open by the invented scenario. */
  async openSample(): Promise<void> {
    await this.#run(async (signal) => {
      const files = await this.#loadSample();
      this.#change(await this.#client.call('clear', []), { bench: 'sample', outcome: undefined });
      await this.#read(files, signal);
    });
  }

  /** Empties the bench, so that it holds nobody's readings. */
  async startEmpty(): Promise<void> {
    await this.#run(async () => {
      this.#change(await this.#client.call('clear', []), { bench: 'own', outcome: undefined });
    });
  }

  /** Brings files in; what became of each is told in `state.outcome`. */
  async bringIn(files: readonly File[]): Promise<void> {
    if (files.length === 0) return;
    await this.#run(async (signal) => {
      const bench = this.#state.bench === 'own' ? 'own' : 'sample and own';
      await this.#read(files, signal, { bench });
    });
  }

  /** Asks the import in progress to stop; what it had read of the current file is let go. */
  cancelImport(): void {
    this.#import?.abort();
  }

  /** Takes the last problem off the page. */
  dismissProblem(): void {
    this.#set({ problem: undefined });
  }

  /** Chooses how numbers are written on screen. */
  writeNumbersWith(decimalMark: DecimalMark): void {
    this.#set({ decimalMark });
  }

  async #read(files: readonly File[], signal: AbortSignal, more: Partial<SessionState> = {}): Promise<void> {
    const outcome = await this.#client.call('bringIn', [files], {
      signal,
      onProgress: (importing) => {
        this.#set({ importing });
      },
    });
    this.#change(await this.#client.call('summary', []), { ...more, outcome });
  }

  /** Runs one command at a time, and turns whatever it throws into a sentence. */
  async #run(command: (signal: AbortSignal) => Promise<void>): Promise<void> {
    if (this.#import !== undefined) {
      this.#set({ problem: 'Files are being read in: wait until that has ended, or cancel it.' });
      return;
    }
    const controller = new AbortController();
    this.#import = controller;
    this.#set({ problem: undefined });
    try {
      await command(controller.signal);
    } catch (error) {
      await this.#explain(error);
    } finally {
      this.#import = undefined;
      this.#set({ importing: undefined });
    }
  }

  async #explain(error: unknown): Promise<void> {
    if (error instanceof WorkerLost) {
      this.#loseBench(error);
      return;
    }
    const problem =
      error instanceof CallCancelled ? 'The import was cancelled: its files were left out.' : sentence(error);
    try {
      this.#change(await this.#client.call('summary', []), { problem });
    } catch (second) {
      this.#set({ problem: sentence(second) });
    }
  }

  /** The worker took the readings with it. */
  #loseBench(error: WorkerLost): void {
    const { readings, repairs, bands } = this.#state.summary ?? EMPTY;
    if (readings + repairs + bands === 0) {
      this.#set({ summary: EMPTY, bench: 'own', problem: error.message });
      return;
    }
    const problem = `${error.message} The bench is empty now: bring your files in again.`;
    this.#change(EMPTY, { bench: 'own', outcome: undefined, problem });
  }

  #change(summary: BenchSummary, more: Changes): void {
    this.#set({ ...more, summary, revision: this.#state.revision + 1 });
  }

  #set(changes: Changes): void {
    this.#state = withChanges(this.#state, changes);
    for (const listener of this.#listeners) listener();
  }
}

/** Changes of state; `undefined` takes an entry away. */
type Changes = { readonly [Key in keyof SessionState]?: SessionState[Key] | undefined };

function withChanges(state: SessionState, changes: Changes): SessionState {
  const entries = Object.entries({ ...state, ...changes }).filter(([, value]) => value !== undefined);
  return Object.fromEntries(entries) as unknown as SessionState;
}

function sentence(error: unknown): string {
  const text = error instanceof Error ? error.message : String(error);
  return /[.!?]$/.test(text) ? text : `${text}.`;
}
