import { Pauses } from '../../intake/pauses.ts';
import type { CallContext } from '../contract/calls.ts';
import type { WorkProgress } from '../contract/progress.ts';

/** Work that takes longer than this, in milliseconds, says how far it is. */
const PATIENCE = 500;

/** Long work in steps: after each, messages may get through, it may be stopped, and beyond half a second it tells how far it has come. */
export class PacedWork {
  readonly #report: (progress: WorkProgress) => void;
  readonly #pauses: Pauses;
  readonly #total: number;
  readonly #began = performance.now();
  #done = 0;

  /** @param total - how many steps there will be */
  constructor({ signal, report }: CallContext<WorkProgress>, total: number) {
    this.#report = report;
    this.#pauses = new Pauses(signal);
    this.#total = total;
  }

  /** Ends so many steps. @throws the signal's reason where the work was stopped */
  async step(steps = 1): Promise<void> {
    this.#done += steps;
    if (performance.now() - this.#began > PATIENCE) this.#report({ done: this.#done, total: this.#total });
    await this.#pauses.pause();
  }

  /** Makes the entries of a record one after the other, a step each. */
  async entries<Record extends object>(makers: { readonly [Key in keyof Record]: () => Record[Key] }): Promise<Record> {
    const made: Partial<Record> = {};
    for (const key of Object.keys(makers) as (keyof Record)[]) {
      made[key] = makers[key]();
      await this.step();
    }
    return made as Record;
  }

  close(): void {
    this.#pauses.close();
  }
}
