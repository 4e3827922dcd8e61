import type { BenchDatabase } from './bench-database.ts';
import { CHUNK_ROWS } from './columns-codec.ts';
import { crc32 } from './crc-32.ts';
import { generationKeys, importKeys, refuseOtherGeneration } from './generation.ts';
import { detailBytes, lotsOf, unitsOf, type ImportUnit } from './import-units.ts';
import type { Change, EditNote, NewImport, ReportProgress } from './kept.ts';
import { pieceCount } from './original-pieces.ts';
import type { ImportLine, ImportState, WriteTransaction } from './schema.ts';
import { StoreError } from './store-error.ts';
import { writeChanges } from './write-state.ts';

/** Bytes that are written in one transaction. */
const LOT_BYTES = 16 * 1024 * 1024;

export interface SaveOptions {
  readonly generation: number;
  /** What the import changes of the state, in the same transaction as its last bytes. */
  readonly changes: readonly Change[];
  readonly note: EditNote & { readonly at: number };
  /** Whether an import that is here already is written again, because what is here is damaged or was changed. */
  readonly again: boolean;
  /** Stops the writing: it was cancelled, or another tab took over. */
  readonly signal: AbortSignal;
  readonly report: ReportProgress;
  /** Done in the transaction that completes the import. */
  readonly onComplete?: (transaction: WriteTransaction) => Promise<void>;
  /** Told the number of the journal's entry of what it changed. */
  readonly onEntry?: (step: number | undefined) => void;
  readonly lotBytes?: number;
}

/** `known` where an import of these bytes was here already; nothing was written then. */
export type Saved = 'added' | 'known';

/**
 * Writes an import: all in one transaction where it is small, else lot by lot in state `running` until the last
 * transaction makes it complete. What fails or is stopped on the way leaves nothing behind.
 * @throws StoreError with the reason
 */
export async function saveImport(database: BenchDatabase, given: NewImport, options: SaveOptions): Promise<Saved> {
  const writer = new ImportWriter(given, options);
  try {
    let waiting: readonly ImportUnit[] | undefined;
    for (const lot of lotsOf(unitsOf(given), options.lotBytes ?? LOT_BYTES)) {
      if (waiting !== undefined) {
        const units = waiting;
        if (!(await database.write('relaxed', (transaction) => writer.write(transaction, units)))) return 'known';
      }
      waiting = lot;
      refuseStopped(options.signal);
    }
    const units = waiting ?? [];
    return (await database.write('strict', (transaction) => writer.finish(transaction, units))) ? 'added' : 'known';
  } catch (cause) {
    // Where this fails too, the import stays in state `running` and is cleared away when the bench is next opened.
    if (writer.begun) await database.write('relaxed', (transaction) => writer.drop(transaction)).catch(() => undefined);
    throw cause;
  }
}

/** Deletes all of an import but its line in the ledger. */
export async function deleteContents(transaction: WriteTransaction, generation: number, hash: string): Promise<void> {
  await transaction.objectStore('details').delete([generation, hash]);
  await transaction.objectStore('chunks').delete(importKeys(generation, hash));
  await transaction.objectStore('originals').delete(importKeys(generation, hash));
}

class ImportWriter {
  readonly #given: NewImport;
  readonly #options: SaveOptions;
  readonly #owner = crypto.randomUUID();
  readonly #chunks: number[] = [];
  readonly #details: Uint8Array<ArrayBuffer>;
  readonly #total: number;
  #done = 0;
  /** Its place among the imports, where it takes the place of itself. */
  #order: number | undefined;
  begun = false;

  constructor(given: NewImport, options: SaveOptions) {
    this.#given = given;
    this.#options = options;
    this.#details = detailBytes(given);
    this.#total = given.log?.count ?? 0;
  }

  /** Writes one lot. @returns false where these bytes are here already */
  async write(transaction: WriteTransaction, units: readonly ImportUnit[]): Promise<boolean> {
    if (!(await this.#claim(transaction))) return false;
    await this.#putUnits(transaction, units);
    await transaction.objectStore('imports').put(this.#line('running', -1));
    this.begun = true;
    return true;
  }

  /** Writes the last lot and makes the import complete. @returns false where these bytes are here already */
  async finish(transaction: WriteTransaction, units: readonly ImportUnit[]): Promise<boolean> {
    const { generation, changes, note, onComplete, onEntry } = this.#options;
    if (!(await this.#claim(transaction))) return false;
    await this.#putUnits(transaction, units);
    const { hash } = this.#given.record;
    await transaction.objectStore('details').put({ generation, hash, bytes: this.#details });
    const order = this.#order ?? (await nextOrder(transaction, generation));
    await transaction.objectStore('imports').put(this.#line('complete', order));
    const step = await writeChanges(transaction, generation, changes, note);
    await onComplete?.(transaction);
    onEntry?.(step);
    return true;
  }

  async drop(transaction: WriteTransaction): Promise<void> {
    const { generation } = this.#options;
    const { hash } = this.#given.record;
    const line = await transaction.objectStore('imports').get([generation, hash]);
    if (line?.owner !== this.#owner || line.state !== 'running') return;
    await deleteContents(transaction, generation, hash);
    await transaction.objectStore('imports').delete([generation, hash]);
  }

  /** Makes sure that the import is this writer's; a first lot takes it over, with what another may have left. */
  async #claim(transaction: WriteTransaction): Promise<boolean> {
    const { generation, again, signal } = this.#options;
    const { hash } = this.#given.record;
    refuseStopped(signal);
    await refuseOtherGeneration(transaction, generation);
    const line = await transaction.objectStore('imports').get([generation, hash]);
    if (this.begun) {
      if (line?.owner === this.#owner) return true;
      throw new StoreError('taken over', `Another tab has taken over storing ${this.#given.record.file}.`);
    }
    if (line?.state === 'complete' && !again) return false;
    if (line !== undefined) await deleteContents(transaction, generation, hash);
    if (line?.state === 'complete') this.#order = line.order;
    return true;
  }

  async #putUnits(transaction: WriteTransaction, units: readonly ImportUnit[]): Promise<void> {
    const { generation } = this.#options;
    const { hash } = this.#given.record;
    const puts: Promise<unknown>[] = [];
    try {
      for (const { store, no, bytes } of units) {
        if (store === 'chunks') {
          this.#chunks[no] = crc32(bytes);
          this.#done += 1;
          puts.push(transaction.objectStore(store).put({ generation, hash, no, bytes }));
        } else {
          puts.push(transaction.objectStore(store).put({ generation, hash, no, packing: 'plain', bytes }));
        }
      }
      await Promise.all(puts);
    } catch (cause) {
      // The others end with their transaction; one failure is told of, not many.
      void Promise.allSettled(puts);
      throw cause;
    }
    this.#options.report(Math.min(this.#total, this.#done * CHUNK_ROWS), this.#total);
    refuseStopped(this.#options.signal);
  }

  #line(state: ImportState, order: number): ImportLine {
    const { record, bytes } = this.#given;
    return {
      generation: this.#options.generation,
      hash: record.hash,
      order,
      state,
      file: record.file,
      owner: this.#owner,
      rows: this.#total,
      chunks: [...this.#chunks],
      details: crc32(this.#details),
      bytes: bytes.length,
      pieces: pieceCount(bytes.length),
    };
  }
}

async function nextOrder(transaction: WriteTransaction, generation: number): Promise<number> {
  const index = transaction.objectStore('imports').index('order');
  const cursor = await index.openKeyCursor(generationKeys(generation), 'prev');
  return Math.max(0, (cursor?.key[1] ?? 0) + 1);
}

function refuseStopped(signal: AbortSignal): void {
  if (!signal.aborted) return;
  throw signal.reason instanceof StoreError
    ? signal.reason
    : new StoreError('cancelled', 'Storing was cancelled: nothing of it was kept.', signal.reason);
}
