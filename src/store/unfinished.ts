import { begunNotes } from './begun-imports.ts';
import type { BenchDatabase } from './bench-database.ts';
import { giveUpGeneration, linesOf, readPointer } from './generation.ts';
import { deleteContents } from './save-import.ts';
import type { ImportLine, ReadTransaction, WriteTransaction } from './schema.ts';
import { ifUnlocked } from './write-lock.ts';

/** Clears away what was never finished, unless a tab is writing just now. @returns the imports among it that no note tells of */
export async function clearInterrupted(database: BenchDatabase): Promise<readonly ImportLine[]> {
  const cleared = await ifUnlocked(database.name, async () => {
    const { untold, isTidy } = await database.read(unfinishedIn);
    // Where clearing fails, what is unfinished stays, and is read by nobody.
    if (!isTidy) await database.write('relaxed', clearUnfinished).catch(() => undefined);
    return untold;
  });
  return cleared ?? [];
}

async function unfinishedIn(
  transaction: ReadTransaction,
): Promise<{ readonly untold: readonly ImportLine[]; readonly isTidy: boolean }> {
  const { current, unfinished } = await readPointer(transaction);
  const running = (await linesOf(transaction, current)).filter(({ state }) => state === 'running');
  const noted = new Set((await begunNotes(transaction)).flatMap(({ files }) => files));
  const untold = running.filter(({ file }) => !noted.has(file));
  return { untold, isTidy: unfinished.length === 0 && running.length === 0 };
}

async function clearUnfinished(transaction: WriteTransaction): Promise<void> {
  const { current, unfinished } = await readPointer(transaction);
  for (const { generation, hash, state } of await linesOf(transaction, current)) {
    if (state !== 'running') continue;
    await deleteContents(transaction, generation, hash);
    await transaction.objectStore('imports').delete([generation, hash]);
  }
  for (const generation of unfinished) await giveUpGeneration(transaction, generation);
}
