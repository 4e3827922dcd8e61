import {
  GENERATION_STORES,
  type ImportLine,
  type PointerRecord,
  type ReadTransaction,
  type WriteTransaction,
} from './schema.ts';
import { StoreError } from './store-error.ts';

/** All keys of one generation. */
export function generationKeys(generation: number): IDBKeyRange {
  return IDBKeyRange.bound([generation], [generation + 1], false, true);
}

/** All keys of one import in a generation, in stores with a record per piece. */
export function importKeys(generation: number, hash: string): IDBKeyRange {
  return IDBKeyRange.bound([generation, hash, 0], [generation, hash, Infinity]);
}

export async function readPointer(transaction: ReadTransaction): Promise<PointerRecord> {
  const record = await transaction.objectStore('about').get('pointer');
  if (record?.key !== 'pointer')
    throw new StoreError('damaged', 'The storage does not say which bench is the present one: restore a backup.');
  return record;
}

/** @throws StoreError where another tab has put another bench in place of this generation */
export async function refuseOtherGeneration(transaction: ReadTransaction, generation: number): Promise<void> {
  const { current } = await readPointer(transaction);
  if (current !== generation)
    throw new StoreError('replaced', 'Another tab has replaced or cleared the bench: reload this page.');
}

/** The lines of a generation's imports, in the order in which they came. */
export function linesOf(transaction: ReadTransaction, generation: number): Promise<ImportLine[]> {
  return transaction.objectStore('imports').index('order').getAll(generationKeys(generation));
}

/** Sets a number aside for a generation that is going to be written. */
export async function reserveGeneration(transaction: WriteTransaction): Promise<number> {
  const pointer = await readPointer(transaction);
  const { next, unfinished } = pointer;
  await transaction.objectStore('about').put({ ...pointer, next: next + 1, unfinished: [...unfinished, next] });
  return next;
}

/** @throws StoreError where a generation that is being written was given up by another tab */
export async function refuseGivenUp(transaction: ReadTransaction, generation: number): Promise<void> {
  const { unfinished } = await readPointer(transaction);
  if (!unfinished.includes(generation))
    throw new StoreError('taken over', 'Another tab has taken over: the bench is as that tab left it.');
}

/** Makes a reserved generation the bench; the present one is kept for one undo, the one before it goes. */
export async function switchGeneration(transaction: WriteTransaction, generation: number): Promise<void> {
  const { current, previous, next, unfinished } = await readPointer(transaction);
  const left = unfinished.filter((one) => one !== generation);
  await transaction.objectStore('about').put({ key: 'pointer', current: generation, previous: current, next, unfinished: left }); // prettier-ignore
  if (previous !== undefined) await deleteGeneration(transaction, previous);
}

/** Puts the bench before the last switch back, and keeps the present one in its place. @returns its generation, if there was one */
export async function switchBack(transaction: WriteTransaction): Promise<number | undefined> {
  const pointer = await readPointer(transaction);
  const { current, previous } = pointer;
  if (previous === undefined) return undefined;
  await transaction.objectStore('about').put({ ...pointer, current: previous, previous: current });
  return previous;
}

/** Deletes a generation that will not be finished, unless another tab did so before. */
export async function giveUpGeneration(transaction: WriteTransaction, generation: number): Promise<void> {
  const pointer = await readPointer(transaction);
  if (!pointer.unfinished.includes(generation)) return;
  await deleteGeneration(transaction, generation);
  const unfinished = pointer.unfinished.filter((one) => one !== generation);
  await transaction.objectStore('about').put({ ...pointer, unfinished });
}

async function deleteGeneration(transaction: WriteTransaction, generation: number): Promise<void> {
  for (const store of GENERATION_STORES) await transaction.objectStore(store).delete(generationKeys(generation));
}
