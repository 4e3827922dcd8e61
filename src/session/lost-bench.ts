import type { WorkerLost } from '../worker/client.ts';
import type { BenchSummary } from '../worker/contract/memory.ts';
import { sentenceOf, type BenchLink } from './bench-link.ts';
import { keptState, NOT_KEPT, type KeptBench } from './kept-bench.ts';
import type { PageState } from './page-state.ts';

const EMPTY: BenchSummary = { readings: 0, repairs: 0, families: 0, bands: 0 };

/** What is done where the worker stopped and took the readings with it. */
export class LostBench {
  readonly #page: PageState;
  readonly #link: BenchLink;
  readonly #memory: KeptBench | undefined;
  readonly #forget: () => void;
  /** Why a bench that is kept has to be opened again before anything else. */
  #lost: WorkerLost | undefined;
  /** The loss that was seen to last: every call that waited tells of it once more. */
  #seen: WorkerLost | undefined;

  /** @param forget - lets go of what belonged to the lost bench */
  constructor(page: PageState, link: BenchLink, memory: KeptBench | undefined, forget: () => void) {
    this.#page = page;
    this.#link = link;
    this.#memory = memory;
    this.#forget = forget;
  }

  /** @returns whether the bench is kept, so that `recover` has to bring it back */
  take(error: WorkerLost): boolean {
    if (error === this.#seen) return false;
    this.#seen = error;
    const { bench, kept, summary } = this.#page.current;
    if (bench === 'own' && kept.keeps) {
      this.#lost = error;
      return true;
    }
    const { readings, repairs, bands } = summary ?? EMPTY;
    this.#forget();
    if (readings + repairs + bands === 0) {
      this.#page.set({ summary: EMPTY, bench: 'own', problem: error.message });
      return false;
    }
    const problem = `${error.message} The bench is empty now: bring your files in again.`;
    this.#page.change(EMPTY, { bench: 'own', outcome: undefined, problem });
    return false;
  }

  /** Opens what is kept again after its worker was lost, so that nothing is changed that would not be kept. */
  async recover(): Promise<void> {
    const lost = this.#lost;
    if (lost === undefined || this.#memory === undefined) return;
    this.#lost = undefined;
    this.#forget();
    try {
      const answer = await this.#memory.open();
      const problem = `${lost.message} The bench was opened again as it is kept: bring in again what was being read.`;
      this.#page.set({ kept: keptState(answer) });
      await this.#link.refresh({ outcome: undefined, problem });
    } catch (error) {
      const reason = sentenceOf(error);
      this.#page.set({ summary: EMPTY, problem: reason, kept: { ...NOT_KEPT, reason } });
    }
  }
}
