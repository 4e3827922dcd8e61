import type { BenchDatabase } from './bench-database.ts';
import {
  giveUpGeneration,
  refuseGivenUp,
  refuseOtherGeneration,
  reserveGeneration,
  switchGeneration,
} from './generation.ts';
import { STATE_PARTS, type ReportProgress } from './kept.ts';
import { backupParts, type BackupPart } from './read-backup.ts';
import type { ImportLine, WriteTransaction } from './schema.ts';
import { StoreError } from './store-error.ts';

/** Bytes that are written in one transaction. */
const LOT_BYTES = 16 * 1024 * 1024;

/**
 * Puts a backup in place of the bench: it is written as a new generation, every part checked, and one strict transaction
 * at the very end makes it the bench. Whatever fails before leaves the present bench as it is, to the byte.
 * @param present - the generation that it shall replace
 * @returns the new generation
 * @throws StoreError with the reason
 */
export async function restoreBackup(
  database: BenchDatabase,
  file: Blob,
  present: number,
  signal: AbortSignal,
  report: ReportProgress,
): Promise<number> {
  const generation = await database.write('relaxed', async (transaction) => {
    await refuseOtherGeneration(transaction, present);
    return reserveGeneration(transaction);
  });
  try {
    const writer = new GenerationWriter(database, generation);
    let done = 0;
    for await (const part of backupParts(file)) {
      if (signal.aborted) throw stopped(signal);
      await writer.take(part);
      if ('bytes' in part) report((done += part.bytes.length), file.size);
    }
    await writer.flush();
    await database.write('strict', async (transaction) => {
      if (signal.aborted) throw stopped(signal);
      await refuseOtherGeneration(transaction, present);
      await refuseGivenUp(transaction, generation);
      await switchGeneration(transaction, generation);
    });
    return generation;
  } catch (cause) {
    // Where this fails too, what was written is nobody's, and is cleared away when the bench is next opened.
    await database.write('relaxed', (transaction) => giveUpGeneration(transaction, generation)).catch(() => undefined);
    throw cause;
  }
}

/** Gathers records until there are enough for one transaction. */
class GenerationWriter {
  readonly #database: BenchDatabase;
  readonly #generation: number;
  #waiting: BackupPart[] = [];
  #size = 0;
  #order = 0;

  constructor(database: BenchDatabase, generation: number) {
    this.#database = database;
    this.#generation = generation;
  }

  async take(part: BackupPart): Promise<void> {
    this.#waiting.push(part);
    this.#size += 'bytes' in part ? part.bytes.length : 0;
    if (this.#size >= LOT_BYTES) await this.flush();
  }

  async flush(): Promise<void> {
    const parts = this.#waiting;
    this.#waiting = [];
    this.#size = 0;
    await this.#database.write('relaxed', async (transaction) => {
      await refuseGivenUp(transaction, this.#generation);
      for (const part of parts) await this.#put(transaction, part);
    });
  }

  async #put(transaction: WriteTransaction, part: BackupPart): Promise<void> {
    const generation = this.#generation;
    switch (part.kind) {
      case 'state':
        for (const name of STATE_PARTS)
          await transaction.objectStore('state').put({ generation, part: name, items: part.state[name] });
        return;
      case 'edits':
        for (const edit of part.edits) await transaction.objectStore('journal').put({ generation, ...edit });
        return;
      case 'import':
        this.#order += 1;
        await transaction.objectStore('imports').put(lineOf(part, generation, this.#order));
        return;
      case 'details':
        await transaction.objectStore('details').put({ generation, hash: part.hash, bytes: part.bytes });
        return;
      case 'chunk': {
        const { hash, no, bytes } = part;
        await transaction.objectStore('chunks').put({ generation, hash, no, bytes });
        return;
      }
      case 'original': {
        const { hash, no, packing, bytes } = part;
        await transaction.objectStore('originals').put({ generation, hash, no, packing, bytes });
        return;
      }
      case 'header':
      case 'end':
    }
  }
}

function lineOf({ entry }: BackupPart & { kind: 'import' }, generation: number, order: number): ImportLine {
  return { generation, order, state: 'complete', owner: '', ...entry };
}

function stopped(signal: AbortSignal): StoreError {
  return signal.reason instanceof StoreError
    ? signal.reason
    : new StoreError('cancelled', 'Restoring was cancelled: the bench is as it was.', signal.reason);
}
