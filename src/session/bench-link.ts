import { errorText } from '../domain/error-text.ts';
import { WorkerLost, type BenchClient } from '../worker/client.ts';
import type { BenchCalls, CallName, ProgressOf } from '../worker/contract/calls.ts';
import type { PageState } from './page-state.ts';
import type { Changes } from './state.ts';

/** The bench in the worker: calls to it, and what the page shows after a change of it, a fault or its loss. */
export class BenchLink {
  readonly #client: BenchClient;
  readonly #page: PageState;
  readonly #onLost: (error: WorkerLost) => void;

  /** @param onLost - told when the worker took the bench with it */
  constructor(client: BenchClient, page: PageState, onLost: (error: WorkerLost) => void) {
    this.#client = client;
    this.#page = page;
    this.#onLost = onLost;
  }

  /** @throws what `BenchClient.call` throws */
  async call<Name extends CallName>(
    name: Name,
    args: Parameters<BenchCalls[Name]>,
    signal?: AbortSignal,
    onProgress?: (progress: ProgressOf<Name>) => void,
  ): Promise<ReturnType<BenchCalls[Name]>> {
    try {
      return await this.#client.call(name, args, { ...(signal && { signal }), ...(onProgress && { onProgress }) });
    } catch (error) {
      if (error instanceof WorkerLost) this.#onLost(error);
      throw error;
    }
  }

  /** Takes the news that the worker stopped, which may come before and after the ends of the calls that waited for it. */
  lose(error: WorkerLost): void {
    this.#onLost(error);
  }

  /** Shows what the bench holds by now. */
  async refresh(more: Changes = {}): Promise<void> {
    this.#page.change(await this.#client.call('summary', []), more);
  }

  /** Does something that nobody waits for; what goes wrong is shown as a sentence. */
  async attempt(work: () => Promise<unknown>): Promise<void> {
    try {
      await work();
    } catch (error) {
      await this.explain(error);
    }
  }

  /** Shows what went wrong as a sentence. */
  async explain(error: unknown): Promise<void> {
    if (error instanceof WorkerLost) {
      this.#onLost(error);
      return;
    }
    const problem = sentenceOf(error);
    try {
      await this.refresh({ problem });
    } catch (second) {
      this.#page.set({ problem: sentenceOf(second) });
    }
  }
}

/** What was thrown, as a sentence. */
export function sentenceOf(error: unknown): string {
  const text = errorText(error);
  return /[.!?]$/.test(text) ? text : `${text}.`;
}
