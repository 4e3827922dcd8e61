import { findBackupFile, noteBackupFile, writeBackupFile, type BackupFile } from './backup-file.ts';
import { BegunImports } from './begun-imports.ts';
import { BenchDatabase } from './bench-database.ts';
import { generationKeys, linesOf, readPointer, refuseOtherGeneration, reserveGeneration, switchBack, switchGeneration } from './generation.ts'; // prettier-ignore
import { applyChanges, changesBetween, editOf, reverseChanges, withParts, withReason } from './journal.ts';
import { EMPTY_STATE, type BenchState, type Edit, type EditNote, type KeptBench, type Ledger, type NewImport, type ReportProgress } from './kept.ts'; // prettier-ignore
import { counted, ledgerLine, markOf, missingSentences } from './ledger.ts';
import { readImports } from './load-bench.ts';
import { MIGRATIONS, type Migration } from './migrations.ts';
import { compressOriginals, readOriginal } from './original-pieces.ts';
import { verifyBackup, type BackupSummary } from './read-backup.ts';
import { restoreBackup } from './restore.ts';
import { deleteContents, saveImport, type Saved } from './save-import.ts';
import { APP_ID, type ImportLine } from './schema.ts';
import { StoreError } from './store-error.ts';
import { TabChannel, type ChangedKind } from './tab-channel.ts';
import { clearInterrupted } from './unfinished.ts';
import { writeBackup, type Backup } from './write-backup.ts';
import { LOCK_MANNERS, withFileLock, withWriteLock, type LockManners } from './write-lock.ts';
import { lastStep, readState, writeChanges } from './write-state.ts';

export interface KeeperOptions extends Partial<LockManners> {
  /** Name of the database; others on the origin have other names. */
  readonly name?: string;
  /** Another tab has changed something: load what it names anew. */
  readonly onChange?: (what: ChangedKind) => void;
  /** Another tab begins or ends to bring files in. */
  readonly onBegun?: () => void;
  readonly onBlocked?: (sentence: string) => void;
  readonly onClosed?: (sentence: string) => void;
  /** Milliseconds since 1970, UTC. */
  readonly now?: () => number;
  readonly migrations?: readonly Migration[];
  /** Bytes of an import that are written in one transaction. */
  readonly lotBytes?: number;
}

export interface Loaded {
  readonly bench: KeptBench;
  /** What is missing, damaged or was interrupted, each a sentence. */
  readonly faults: readonly string[];
  /** Whether something that was kept is missing or damaged. */
  readonly misses: boolean;
  readonly ledger: Ledger;
  /** Whether there is a bench that `undoSwitch` would bring back. */
  readonly canUndoSwitch: boolean;
}

export interface LongWork {
  readonly signal?: AbortSignal;
  readonly report?: ReportProgress;
}

export interface AddOptions extends LongWork, EditNote {
  /** The import is here and was changed: it is put in place of itself, whatever its size, in one step. */
  readonly replaces?: boolean;
}

const NOTHING = (): void => undefined;

/**
 * Opens the bench's memory.
 * @throws StoreError where there is none to be had, with a sentence that says so
 */
export async function openKeeper(options: KeeperOptions = {}): Promise<Keeper> {
  const { name = APP_ID, onBlocked, onClosed, migrations = MIGRATIONS } = options;
  const events = { ...(onBlocked && { onBlocked }), ...(onClosed && { onClosed }) };
  return new Keeper(await BenchDatabase.open(name, events, migrations), options);
}

/** Keeps a bench: what it has said to have kept is kept whole, whatever happens to the tab. Every failure is a StoreError. */
export class Keeper {
  /** Notes of imports that are under way. */
  readonly begun: BegunImports;
  readonly #database: BenchDatabase;
  readonly #channel: TabChannel;
  readonly #options: KeeperOptions;
  readonly #manners: LockManners;
  #generation = 1;
  /** The state as the caller knows it, from which its next changes are told. */
  #view: BenchState = EMPTY_STATE;
  /** Imports that are here but damaged; bringing one in again writes it anew. */
  readonly #damaged = new Set<string>();
  #entry: number | undefined;
  /** The backup that was written last, and what was kept before it was. */
  #written: { readonly seal: string; readonly mark: string } | undefined;
  #takeOver: (() => void) | undefined;

  constructor(database: BenchDatabase, options: KeeperOptions) {
    this.#database = database;
    this.#options = options;
    this.#manners = { ...LOCK_MANNERS, ...options };
    this.#channel = new TabChannel(database.name);
    this.begun = new BegunImports(database, this.#channel);
    this.#channel.listen((news) => {
      if (news.kind === 'changed') options.onChange?.(news.what);
      if (news.kind === 'begun') options.onBegun?.();
    });
  }

  /**
   * Reads all that is kept, with every sum checked; what is left of interrupted work is cleared away first.
   * @param report - told of readings
   * @param copy - the ledger as it was kept apart, to find what the browser has lost
   */
  async load(report: ReportProgress = NOTHING, copy?: Ledger): Promise<Loaded> {
    const interrupted = await clearInterrupted(this.#database);
    const { pointer, lines, read } = await this.#database.read(async (transaction) => {
      const found = await readPointer(transaction);
      return {
        pointer: found,
        lines: await linesOf(transaction, found.current),
        read: await readState(transaction, found.current),
      };
    });
    const generation = pointer.current;
    const { sound, damaged } = await readImports(this.#database, generation, lines, report);
    this.#generation = generation;
    this.#view = read.state;
    this.#damaged.clear();
    for (const { hash } of damaged) this.#damaged.add(hash);
    const ledger = await this.ledger();
    const removed = new Set(lines.filter(({ state }) => state === 'removed').map(({ hash }) => hash));
    const lost = [
      ...(copy === undefined ? [] : missingSentences(copy, ledger, removed)),
      ...damaged.map(({ file, rows }) => `${file} is damaged and left out (${counted(rows, 'reading')}): restore a backup, or bring the file in again.`), // prettier-ignore
      ...[...read.damaged].map(([part, number]) => `${counted(number, 'entry').replace('entrys', 'entries')} of the ${part === 'earlierBands' ? 'history of bands' : part} could not be read: restore a backup.`), // prettier-ignore
    ];
    const brokenOff = interrupted.map(({ file }) => `Storing ${file} was interrupted: nothing of it was kept. Bring it in again.`); // prettier-ignore
    return {
      bench: { imports: sound, ...read.state },
      faults: [...lost, ...brokenOff],
      misses: lost.length > 0,
      ledger,
      canUndoSwitch: pointer.previous !== undefined,
    };
  }

  /**
   * Keeps an import whole, or nothing of it.
   * @param state - parts of the state that it changes, kept with it
   * @returns `known` where these very bytes are kept already; nothing was changed then
   */
  async addImport(
    given: NewImport,
    state: Partial<BenchState> = {},
    { signal = new AbortController().signal, report = NOTHING, replaces = false, ...note }: AddOptions = {},
  ): Promise<Saved> {
    const changes = changesBetween(this.#view, withParts(this.#view, state));
    const generation = this.#generation;
    const { hash, file } = given.record;
    const saved = await this.#locked(`storing ${file}`, signal, (ending) =>
      saveImport(this.#database, given, {
        generation,
        changes,
        note: { at: this.#now(), ...note },
        again: replaces || this.#damaged.has(hash),
        signal: ending,
        report,
        onComplete: (transaction) => this.begun.count(transaction),
        onEntry: (step) => {
          this.#entry = step ?? this.#entry;
        },
        ...(this.#options.lotBytes !== undefined && { lotBytes: this.#options.lotBytes }),
        // One transaction, so that either the import as it was or as it is now is there.
        ...(replaces && { lotBytes: Infinity }),
      }),
    );
    if (saved === 'known') return saved;
    this.#damaged.delete(hash);
    this.#view = applyChanges(this.#view, changes);
    this.#tell('imports');
    return saved;
  }

  /** Keeps the parts of the state that are given, with what changed as one entry of the journal. */
  async saveState(next: Partial<BenchState>, note: EditNote = {}): Promise<void> {
    const wanted = withParts(this.#view, next);
    const changes = changesBetween(this.#view, wanted);
    if (changes.length === 0) return;
    this.#view = wanted;
    try {
      this.#entry = await this.#database.write('strict', (transaction) =>
        writeChanges(transaction, this.#generation, changes, { at: this.#now(), ...note }),
      );
    } catch (cause) {
      this.#view = applyChanges(this.#view, reverseChanges(changes));
      throw cause;
    }
    this.#tell('state');
  }

  /** Reads the state alone, as after a change in another tab. */
  async loadState(): Promise<BenchState> {
    const { state } = await this.#database.read(async (transaction) => {
      await refuseOtherGeneration(transaction, this.#generation);
      return readState(transaction, this.#generation);
    });
    this.#view = state;
    return state;
  }

  /** The number of the journal's entry that was written last from here. */
  get lastEntry(): number | undefined {
    return this.#entry;
  }

  /** Says why an entry of the journal was made; an empty text takes that back. */
  async explain(step: number, why: string): Promise<void> {
    const generation = this.#generation;
    await this.#database.write('strict', async (transaction) => {
      await refuseOtherGeneration(transaction, generation);
      const found = await transaction.objectStore('journal').get([generation, step]);
      if (found !== undefined) await transaction.objectStore('journal').put(withReason(found, why));
    });
    this.#tell('state');
  }

  /** The journal, oldest entry first. */
  async journal(): Promise<readonly Edit[]> {
    const edits = await this.#database.read((transaction) =>
      transaction.objectStore('journal').getAll(generationKeys(this.#generation)),
    );
    return edits.map(editOf);
  }

  /** Takes an import away; the state that it changed stays as it is. */
  async removeImport(hash: string): Promise<void> {
    const generation = this.#generation;
    await this.#database.write('strict', async (transaction) => {
      await refuseOtherGeneration(transaction, generation);
      const line = await transaction.objectStore('imports').get([generation, hash]);
      if (line?.state !== 'complete') return;
      await deleteContents(transaction, generation, hash);
      const gone: ImportLine = { ...line, state: 'removed', rows: 0, chunks: [], bytes: 0, pieces: 0 };
      await transaction.objectStore('imports').put(gone);
    });
    this.#tell('imports');
  }

  /** Starts an empty bench; the present one is kept for one undo. */
  async clear(): Promise<void> {
    const present = this.#generation;
    const signal = new AbortController().signal;
    this.#generation = await this.#locked('clearing the bench', signal, () =>
      this.#database.write('strict', async (transaction) => {
        await refuseOtherGeneration(transaction, present);
        const generation = await reserveGeneration(transaction);
        await switchGeneration(transaction, generation);
        return generation;
      }),
    );
    this.#view = EMPTY_STATE;
    this.#tell('bench');
  }

  /** The file's own bytes of an import. @throws StoreError where they are missing or damaged */
  async originalBytes(hash: string): Promise<Uint8Array<ArrayBuffer>> {
    const line = await this.#database.read((transaction) =>
      transaction.objectStore('imports').get([this.#generation, hash]),
    );
    if (line?.state !== 'complete') throw new StoreError('failed', 'The bytes of this file are not kept.');
    return readOriginal(this.#database, line);
  }

  /** Compresses file bytes that were kept as they came; for quiet moments. @returns how many pieces were settled */
  compressOriginals(signal?: AbortSignal): Promise<number> {
    return compressOriginals(this.#database, this.#generation, signal);
  }

  /** What should be here, for the page to keep apart from the database. */
  ledger(): Promise<Ledger> {
    return this.#database.read(async (transaction) => {
      const { current: generation } = await readPointer(transaction);
      const lines = await linesOf(transaction, generation);
      const backup = await transaction.objectStore('about').get('backup');
      const ledger = {
        database: this.#database.database,
        generation,
        imports: lines.filter(({ state }) => state === 'complete').map(ledgerLine),
        edits: await lastStep(transaction, generation),
      };
      if (backup?.key !== 'backup') return ledger;
      const { at, seal, imports, mark } = backup;
      return { ...ledger, lastBackup: { at, seal, imports, holdsAll: mark === markOf(ledger) } };
    });
  }

  /** Writes all that is kept into one file. */
  async backUp(report: ReportProgress = NOTHING): Promise<Backup> {
    const mark = markOf(await this.ledger());
    const backup = await writeBackup(this.#database, this.#now(), report);
    this.#written = { seal: backup.seal, mark };
    return backup;
  }

  /** Reads a saved backup back and, where it is whole and the one of this seal, notes that there is one. */
  async confirmBackup(file: Blob, seal: string, report?: ReportProgress): Promise<BackupSummary> {
    const summary = await verifyBackup(file, seal, report);
    const { imports } = summary.header;
    const mark = this.#written?.seal === seal ? { mark: this.#written.mark } : {};
    await this.#database.write('strict', (transaction) =>
      transaction.objectStore('about').put({ key: 'backup', at: this.#now(), seal, imports, ...mark }),
    );
    return summary;
  }

  /** The chosen file that is kept up to date as a backup, and what it holds. */
  async backupFile(): Promise<BackupFile | undefined> {
    return findBackupFile(this.#database, await this.ledger());
  }

  /** Chooses the file that is kept up to date; undefined for none. */
  chooseBackupFile(handle: FileSystemFileHandle | undefined): Promise<void> {
    return noteBackupFile(this.#database, handle);
  }

  /** Writes all that is kept into the chosen file, and reads it back. Of two tabs one writes at a time. */
  async writeBackupFile(report: ReportProgress = NOTHING): Promise<void> {
    await withFileLock(this.#database.name, async () => {
      const ledger = await this.ledger();
      const found = await findBackupFile(this.#database, ledger);
      if (found?.holds !== 'current') await writeBackupFile(this.#database, ledger, this.#now(), report);
    });
  }

  /** Puts a backup in place of the bench, which is kept for one undo; load the bench afterwards. */
  async restore(file: Blob, { signal = new AbortController().signal, report = NOTHING }: LongWork = {}): Promise<void> {
    const present = this.#generation;
    this.#generation = await this.#locked('restoring a backup', signal, (ending) =>
      restoreBackup(this.#database, file, present, ending, report),
    );
    this.#tell('bench');
  }

  /** Puts the bench before the last restore or clearing back, and again; load the bench afterwards. @returns whether there was one */
  async undoSwitch(): Promise<boolean> {
    const signal = new AbortController().signal;
    const present = this.#generation;
    const earlier = await this.#locked('putting the earlier bench back', signal, () =>
      this.#database.write('strict', async (transaction) => {
        await refuseOtherGeneration(transaction, present);
        return switchBack(transaction);
      }),
    );
    if (earlier === undefined) return false;
    this.#generation = earlier;
    this.#tell('bench');
    return true;
  }

  /** Takes the lock over from a tab that has fallen silent, where `onSilent` told of it and it has not spoken since. */
  takeOver(): void {
    this.#takeOver?.();
  }

  /** Waits for what is being written, then lets go of the database. */
  async close(): Promise<void> {
    await this.#database.close();
    this.#channel.close();
  }

  #locked<Result>(what: string, signal: AbortSignal, work: (signal: AbortSignal) => Promise<Result>): Promise<Result> {
    const { onWaiting, onSilent } = this.#manners;
    const manners: LockManners = {
      ...this.#manners,
      onWaiting: (sentence) => {
        this.#takeOver = undefined;
        onWaiting?.(sentence);
      },
      ...(onSilent && {
        onSilent: (sentence, takeOver) => {
          this.#takeOver = takeOver;
          onSilent(sentence, takeOver);
        },
      }),
    };
    return withWriteLock(this.#database.name, what, this.#channel, manners, signal, work);
  }

  #tell(what: ChangedKind): void {
    this.#channel.tell({ kind: 'changed', what, generation: this.#generation });
  }

  #now(): number {
    return (this.#options.now ?? Date.now)();
  }
}
