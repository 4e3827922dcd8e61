import type { DecimalMark } from '../domain/quantity.ts';
import type { BenchSummary } from '../worker/contract/memory.ts';
import { NOT_KEPT } from './kept-bench.ts';
import { withChanges, type Changes, type SessionState } from './state.ts';

/** The state of the page as it stands, and who is told when it is replaced. */
export class PageState {
  #current: SessionState;
  readonly #listeners = new Set<() => void>();
  readonly #benchListeners = new Set<() => void>();

  constructor(decimalMark: DecimalMark) {
    this.#current = { revision: 0, bench: 'own', queued: 0, waiting: [], decimalMark, kept: NOT_KEPT };
  }

  get current(): SessionState {
    return this.#current;
  }

  /** Calls `listener` after each replacement, until the function that it returns is called. */
  subscribe(listener: () => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  /** Calls `listener` after each change of what the bench holds. */
  onBenchChange(listener: () => void): void {
    this.#benchListeners.add(listener);
  }

  set(changes: Changes): void {
    this.#current = withChanges(this.#current, changes);
    for (const listener of this.#listeners) listener();
  }

  /** Shows what the bench holds by now: every answer of before is out of date. */
  change(summary: BenchSummary, more: Changes = {}): void {
    this.set({ ...more, summary, revision: this.#current.revision + 1 });
    for (const listener of this.#benchListeners) listener();
  }
}
