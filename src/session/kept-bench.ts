import { DAY } from '../domain/day.ts';
import { WorkerLost, type BenchClient } from '../worker/client.ts';
import type { KeptAnswer, Ledger } from '../worker/contract/memory.ts';
import type { LedgerCopy } from './ledger-copy.ts';

/** What the page shows of what outlasts it. */
export interface KeptState {
  /** Whether every change is kept. */
  readonly keeps: boolean;
  /** Why nothing is kept. */
  readonly reason?: string;
  /** What is missing, damaged or was interrupted, each a sentence. */
  readonly faults: readonly string[];
  readonly canUndoSwitch: boolean;
  readonly ledger?: Ledger;
}

export const NOT_KEPT: KeptState = { keeps: false, faults: [], canUndoSwitch: false };

/** After this many imports or days without a backup, one is asked for. */
const IMPORTS_WITHOUT_BACKUP = 10;
const DAYS_WITHOUT_BACKUP = 7;

/** Why a backup is due, as a sentence; undefined where none is. @param now - milliseconds since 1970, UTC */
export function backupDue(ledger: Ledger, now: number): string | undefined {
  if (ledger.imports.length === 0) return undefined;
  const { lastBackup } = ledger;
  if (lastBackup === undefined)
    return 'No backup was saved yet: a full disk or a cleared browser takes everything with it.';
  const imports = ledger.imports.length - lastBackup.imports;
  if (imports >= IMPORTS_WITHOUT_BACKUP) return `${imports} imports came since the last backup: save one.`;
  const days = Math.floor((now - lastBackup.at) / DAY);
  return !lastBackup.holdsAll && days >= DAYS_WITHOUT_BACKUP
    ? `The last backup is ${days} days old: save one.`
    : undefined;
}

/** Keeps the copy of the ledger in step with what is kept. */
export class KeptBench {
  readonly #client: BenchClient;
  readonly #copy: LedgerCopy;
  /** While something is missing, the copy stays as it is: it is what knows of it. */
  #misses = false;

  constructor(client: BenchClient, copy: LedgerCopy) {
    this.#client = client;
    this.#copy = copy;
  }

  async open(): Promise<KeptAnswer> {
    const copy = this.#copy.read();
    const answer = await this.#client.call('openKept', copy ? [copy] : []);
    this.#misses = answer.misses;
    if (answer.found && answer.ledger && !this.#misses) this.#copy.write(answer.ledger);
    return answer;
  }

  /**
   * Notes files that are going to be brought in, so that the next start knows of them where the tab does not live to the end.
   * @returns ends the note
   * @throws WorkerLost; without the note for another reason the files are brought in all the same
   */
  async begin(files: readonly string[]): Promise<() => Promise<void>> {
    await this.#client.call('beginImport', [files]).catch(unlessLost);
    return () => this.#client.call('endImport', []).catch(() => undefined);
  }

  /** Files that other tabs are bringing in, as far as can be told. */
  elsewhere(): Promise<readonly string[]> {
    return this.#client.call('importsElsewhere', []).catch(() => []);
  }

  /** Takes what is there for what should be there, as after a restore or a new beginning. */
  accept(): void {
    this.#misses = false;
  }

  /** The ledger as it is now, with the copy brought in step; undefined where nothing is kept. */
  async note(): Promise<Ledger | undefined> {
    const ledger = await this.#client.call('ledger', []);
    if (ledger && !this.#misses) this.#copy.write(ledger);
    return ledger;
  }
}

function unlessLost(error: unknown): void {
  if (error instanceof WorkerLost) throw error;
}

/** What an answer of the worker says of what is kept. */
export function keptState({ keeps, reason, faults, canUndoSwitch, ledger }: KeptAnswer): KeptState {
  return { keeps, faults, canUndoSwitch, ...(reason !== undefined && { reason }), ...(ledger && { ledger }) };
}
