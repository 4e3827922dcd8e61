import type { KeptAnswer } from '../worker/contract/memory.ts';
import type { WorkProgress } from '../worker/contract/progress.ts';
import type { BenchLink } from './bench-link.ts';
import type { Intake } from './intake.ts';
import { keptState, type KeptBench } from './kept-bench.ts';
import type { PageState } from './page-state.ts';
import type { Turns } from './turns.ts';

/** The bench opened as it is kept, saved as a backup and restored from one, replaced by the sample or by an empty one. */
export class KeptCommands {
  readonly #page: PageState;
  readonly #link: BenchLink;
  readonly #turns: Turns;
  readonly #intake: Intake;
  readonly #memory: KeptBench | undefined;
  #opened = 0;

  constructor(page: PageState, link: BenchLink, turns: Turns, intake: Intake, memory: KeptBench | undefined) {
    this.#page = page;
    this.#link = link;
    this.#turns = turns;
    this.#intake = intake;
    this.#memory = memory;
    page.onBenchChange(() => {
      this.noteLedger().catch(() => undefined);
    });
  }

  /** How often the bench was opened: what somebody looked at before may be another since. */
  get opened(): number {
    return this.#opened;
  }

  /** @returns whether a bench of the technician's own, or what is missing of it, is shown now */
  async open(): Promise<boolean> {
    const memory = this.#memory;
    if (memory === undefined) return false;
    let isShown = false;
    await this.#turns.run(async () => {
      this.#opened += 1;
      const answer = await memory.open();
      this.#page.set({ kept: keptState(answer) });
      if (!answer.found && !answer.keeps && answer.faults.length === 0) return;
      isShown = true;
      this.#intake.forget();
      const isOther = this.#page.current.bench !== 'own';
      await this.#link.refresh({ bench: 'own', ...(isOther && { outcome: undefined }) });
    });
    return isShown;
  }

  async backUp(name: string, save: (file: Blob, name: string) => Promise<Blob | 'unseen' | undefined>): Promise<void> {
    await this.#turns.run(async () => {
      const { file, seal } = await this.#link.call('backUp', [], undefined, this.#working('Writing the backup'));
      const written = await save(file, name);
      if (written === 'unseen') this.#page.set({ unseenBackup: { name, seal } });
      else if (written !== undefined) await this.#confirm(written, seal);
    });
  }

  /** Reads a backup's file that the browser took to its downloads. */
  async showBackup(file: Blob): Promise<void> {
    const { unseenBackup } = this.#page.current;
    if (unseenBackup !== undefined) await this.#turns.run(() => this.#confirm(file, unseenBackup.seal));
  }

  async #confirm(file: Blob, seal: string): Promise<void> {
    await this.#link.call('confirmBackup', [file, seal], undefined, this.#working('Reading the backup back'));
    this.#page.set({ unseenBackup: undefined });
    await this.noteLedger();
  }

  async restore(file: Blob): Promise<void> {
    await this.#switch((signal) => this.#link.call('restore', [file], signal, this.#working('Restoring')));
  }

  async undoSwitch(): Promise<void> {
    await this.#switch((signal) => this.#link.call('undoSwitch', [], signal));
  }

  async openSample(loadSample: () => Promise<readonly File[]>): Promise<void> {
    await this.#turns.run(async (signal) => {
      const files = await loadSample();
      await this.#clear('sample');
      const outcome = await this.#intake.read(files, [], this.#turns.reporting(signal));
      await this.#link.refresh({ outcome });
    });
  }

  async startEmpty(): Promise<void> {
    const memory = this.#memory;
    await this.#turns.run(async () => {
      if (memory === undefined) {
        await this.#clear('own');
        return;
      }
      const summary = await this.#link.call('startOwn', []);
      memory.accept();
      this.#intake.forget();
      const { kept } = this.#page.current;
      this.#page.change(summary, { bench: 'own', outcome: undefined, waiting: [], kept: { ...kept, faults: [] } });
      await this.noteLedger();
      // What was kept before the new beginning comes back by one undo.
      const { kept: noted } = this.#page.current;
      this.#page.set({ kept: { ...noted, canUndoSwitch: (noted.ledger?.generation ?? 1) > 1 } });
    });
  }

  async #switch(call: (signal: AbortSignal) => Promise<KeptAnswer>): Promise<void> {
    await this.#turns.run(async (signal) => {
      const answer = await call(signal);
      this.#memory?.accept();
      this.#intake.forget();
      await this.#link.refresh({ bench: 'own', outcome: undefined, kept: keptState(answer) });
    });
  }

  /** Brings what is shown of the ledger, and its copy, in step with what is kept. */
  async noteLedger(): Promise<void> {
    if (this.#memory === undefined || this.#page.current.bench !== 'own') return;
    const ledger = await this.#memory.note();
    const { faults, canUndoSwitch } = this.#page.current.kept;
    if (ledger !== undefined) this.#page.set({ kept: { keeps: true, faults, canUndoSwitch, ledger } });
  }

  #working(what: string): (progress: WorkProgress) => void {
    return ({ done, total }) => {
      this.#page.set({ working: { what, done, total } });
    };
  }

  async #clear(bench: 'own' | 'sample'): Promise<void> {
    const summary = await this.#link.call('clear', []);
    this.#intake.forget();
    this.#page.change(summary, { bench, outcome: undefined, waiting: [] });
  }
}
