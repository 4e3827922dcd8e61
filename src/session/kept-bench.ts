import type { BenchClient } from '../worker/client.ts';
import type { KeptAnswer, Ledger } from '../worker/contract/memory.ts';
import type { BegunImports } from './begun-imports.ts';
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
const DAY = 86_400_000;

/** Why a backup is due, as a sentence; undefined where none is. @param now - milliseconds since 1970, UTC */
export function backupDue(ledger: Ledger, now: number): string | undefined {
  if (ledger.imports.length === 0) return undefined;
  const { lastBackup } = ledger;
  if (lastBackup === undefined)
    return 'No backup was saved yet: a full disk or a cleared browser takes everything with it.';
  const imports = ledger.imports.length - lastBackup.imports;
  if (imports >= IMPORTS_WITHOUT_BACKUP) return `${imports} imports came since the last backup: save one.`;
  const days = Math.floor((now - lastBackup.at) / DAY);
  const isChanged = imports > 0 || ledger.edits > lastBackup.edits;
  return isChanged && days >= DAYS_WITHOUT_BACKUP ? `The last backup is ${days} days old: save one.` : undefined;
}

/** Whether the last backup holds all that is kept now. */
export function isBackedUp({ imports, edits, lastBackup }: Ledger): boolean {
  return lastBackup?.imports === imports.length && lastBackup.edits === edits;
}

/** Keeps the copy of the ledger in step with what is kept. */
export class KeptBench {
  readonly #client: BenchClient;
  readonly #copy: LedgerCopy;
  readonly #begun: BegunImports | undefined;
  /** While something is missing, the copy stays as it is: it is what knows of it. */
  #misses = false;
  /** Imports of the bench as far as is known. */
  #imports = 0;

  constructor(client: BenchClient, copy: LedgerCopy, begun?: BegunImports) {
    this.#client = client;
    this.#copy = copy;
    this.#begun = begun;
  }

  async open(): Promise<KeptAnswer> {
    const copy = this.#copy.read();
    const answer = await this.#client.call('openKept', copy ? [copy] : []);
    this.#misses = answer.misses;
    this.#imports = answer.ledger?.imports.length ?? 0;
    if (answer.found && answer.ledger && !this.#misses) this.#copy.write(answer.ledger);
    const brokenOff = (await this.#begun?.takeBrokenOff(answer.ledger)) ?? [];
    return { ...answer, faults: [...answer.faults, ...brokenOff] };
  }

  /** Notes files that are going to be brought in, as long as the tab lives. @returns ends the note */
  begin(files: readonly string[]): () => void {
    return this.#begun?.begin(files, this.#imports) ?? (() => undefined);
  }

  /** Takes what is there for what should be there, as after a restore or a new beginning. */
  accept(): void {
    this.#misses = false;
  }

  /** The ledger as it is now, with the copy brought in step; undefined where nothing is kept. */
  async note(): Promise<Ledger | undefined> {
    const ledger = await this.#client.call('ledger', []);
    this.#imports = ledger?.imports.length ?? 0;
    if (ledger && !this.#misses) this.#copy.write(ledger);
    return ledger;
  }
}

/** What an answer of the worker says of what is kept. */
export function keptState({ keeps, reason, faults, canUndoSwitch, ledger }: KeptAnswer): KeptState {
  return { keeps, faults, canUndoSwitch, ...(reason !== undefined && { reason }), ...(ledger && { ledger }) };
}
