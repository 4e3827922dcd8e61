import type { FilePlan } from '../domain/file-plan.ts';
import type { ImportOutcome } from '../worker/contract/intake.ts';
import type { BenchLink } from './bench-link.ts';
import { NOTHING_READ, type Intake } from './intake.ts';
import type { PageState } from './page-state.ts';
import type { SessionState } from './state.ts';
import type { Turns } from './turns.ts';

/** Files brought in, asked about, left out and read in another way. */
export class FileCommands {
  readonly #page: PageState;
  readonly #link: BenchLink;
  readonly #turns: Turns;
  readonly #intake: Intake;

  constructor(page: PageState, link: BenchLink, turns: Turns, intake: Intake) {
    this.#page = page;
    this.#link = link;
    this.#turns = turns;
    this.#intake = intake;
  }

  async bringIn(files: readonly File[]): Promise<void> {
    if (files.length === 0) return;
    await this.#turns.run(
      async (signal) => {
        await this.#show(await this.#intake.admit(files, this.#turns.reporting(signal)), this.#ownBench);
      },
      { files: files.map(({ name }) => name) },
    );
  }

  async settlePlan(file: File, plan: FilePlan): Promise<void> {
    const { waiting } = this.#page.current;
    const settled = waiting.find((entry) => entry.file === file);
    if (settled === undefined) return;
    this.#page.set({ waiting: waiting.filter((entry) => entry.file !== file) });
    await this.#turns.run(
      async (signal) => {
        const reporting = this.#turns.reporting(signal);
        try {
          const first = await this.#intake.settle(settled, plan, reporting);
          await this.#show(first, settled.replaces === undefined ? this.#ownBench : this.#page.current.bench);
        } catch (error) {
          this.#page.set({ waiting: [{ ...settled, plan }, ...this.#page.current.waiting] });
          throw error;
        }
        const others = await this.#intake.admitAnswered(reporting);
        if (others.records.length + others.refused.length === 0) return;
        await this.#show(joined(this.#page.current.outcome ?? NOTHING_READ, others), this.#ownBench);
      },
      {
        files: [settled.name],
        ...(settled.replaces !== undefined && {
          cancelled: `The import was cancelled: ${settled.name} stays as it was.`,
        }),
      },
    );
  }

  skip(file: File): void {
    const skipped = this.#page.current.waiting.find((entry) => entry.file === file);
    if (skipped === undefined) return;
    const waiting = this.#page.current.waiting.filter((entry) => entry !== skipped);
    if (skipped.replaces !== undefined) {
      this.#page.set({ waiting });
      return;
    }
    const reason = 'You chose to leave it out: bring it in again to be asked again.';
    this.#page.set({ waiting, outcome: { ...NOTHING_READ, refused: [{ file: skipped.name, reason }] } });
  }

  async fetchOriginal(hash: string, name: string): Promise<void> {
    if (this.#intake.hasOriginal(hash)) return;
    const bytes = await this.#link.call('original', [hash]);
    if (bytes !== undefined) this.#intake.takeOriginal(hash, new File([bytes], name));
  }

  async reread(hash: string, name: string, file?: File): Promise<void> {
    this.#page.set({ problem: undefined });
    try {
      await this.#intake.reread(hash, name, file);
    } catch (error) {
      await this.#link.explain(error);
    }
  }

  get #ownBench(): SessionState['bench'] {
    return this.#page.current.bench === 'own' ? 'own' : 'sample and own';
  }

  /** Shows what an import came to. */
  #show(outcome: ImportOutcome, bench: SessionState['bench']): Promise<void> {
    const isRead = outcome.records.length > 0;
    return this.#link.refresh({ outcome, bench: isRead ? bench : this.#page.current.bench });
  }
}

function joined(first: ImportOutcome, second: ImportOutcome): ImportOutcome {
  return {
    records: [...first.records, ...second.records],
    setAside: [...first.setAside, ...second.setAside],
    refused: [...first.refused, ...second.refused],
  };
}
