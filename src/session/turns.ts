import { CallCancelled } from '../worker/client.ts';
import type { ImportProgress } from '../worker/contract/progress.ts';
import type { BenchLink } from './bench-link.ts';
import { PaceMeter } from './import-pace.ts';
import type { PageState } from './page-state.ts';

/** What is done around commands. */
export interface AroundTurns {
  /** Before each of them. */
  readonly recover: () => Promise<void>;
  /** Before one that brings files in. @returns done after it */
  readonly begin: (files: readonly string[]) => Promise<() => Promise<void>> | undefined;
}

/** Commands that change the bench run one after the other; what they throw is shown as a sentence. */
export class Turns {
  readonly #page: PageState;
  readonly #link: BenchLink;
  readonly #around: AroundTurns;
  /** Ends when the command asked for last has ended. */
  #last: Promise<unknown> = Promise.resolve();
  /** Commands that run or whose turn comes, in order. */
  #commands: readonly AbortController[] = [];

  constructor(page: PageState, link: BenchLink, around: AroundTurns) {
    this.#page = page;
    this.#link = link;
    this.#around = around;
  }

  /** Runs a command once those before it have ended. */
  take<Result>(command: () => Promise<Result>): Promise<Result> {
    const result = this.#last.then(async () => {
      await this.#around.recover();
      try {
        return await command();
      } finally {
        if (this.#page.current.waits !== undefined) this.#page.set({ waits: undefined, canTakeOver: undefined });
      }
    });
    this.#last = result.catch(() => undefined);
    return result;
  }

  /**
   * Runs a command in its turn, and turns whatever it throws into a sentence.
   * @param files - names of those that it brings in
   * @param cancelled - what is said when it was cancelled
   */
  async run(
    command: (signal: AbortSignal) => Promise<void>,
    { files = [] as readonly string[], cancelled = 'The import was cancelled: its files were left out.' } = {},
  ): Promise<void> {
    const controller = new AbortController();
    const isFirst = this.#commands.length === 0;
    this.#commands = [...this.#commands, controller];
    this.#page.set(isFirst ? { problem: undefined } : { queued: this.#page.current.queued + files.length });
    await this.take(async () => {
      if (!isFirst) this.#page.set({ queued: this.#page.current.queued - files.length });
      let end: (() => Promise<void>) | undefined;
      try {
        if (files.length > 0) end = await this.#around.begin(files);
        controller.signal.throwIfAborted();
        await command(controller.signal);
      } catch (error) {
        const isCancelled = controller.signal.aborted || error instanceof CallCancelled;
        await this.#link.explain(isCancelled ? new Error(cancelled) : error);
      } finally {
        this.#commands = this.#commands.filter((one) => one !== controller);
        await end?.();
        this.#page.set({ importing: undefined, working: undefined });
      }
    });
  }

  /** Asks the command in progress to stop. */
  cancel(): void {
    this.#commands[0]?.abort();
  }

  /** What an import is called with, so that it is seen and can be stopped. */
  reporting(signal: AbortSignal) {
    const pace = new PaceMeter();
    return {
      signal,
      onProgress: (progress: ImportProgress) => {
        this.#page.set({ importing: pace.measure(progress, performance.now()) });
      },
    };
  }
}
