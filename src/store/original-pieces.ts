import { importKeys } from './generation.ts';
import type { BenchDatabase } from './bench-database.ts';
import type { ImportLine, PiecePacking, StoredPiece } from './schema.ts';
import { hexOf, sha256 } from './sha-256.ts';
import { StoreError } from './store-error.ts';

/** Bytes of a file that are kept as one piece. */
export const PIECE_BYTES = 4 * 1024 * 1024;

export function pieceCount(bytes: number): number {
  return Math.ceil(bytes / PIECE_BYTES);
}

/** Piece `no` of a file's bytes, as a copy of its own. */
export function pieceOf(bytes: Uint8Array, no: number): Uint8Array<ArrayBuffer> {
  return new Uint8Array(bytes.subarray(no * PIECE_BYTES, (no + 1) * PIECE_BYTES));
}

/** A piece compressed; `undefined` where that makes it no smaller. */
export async function compressPiece(bytes: Uint8Array<ArrayBuffer>): Promise<Uint8Array<ArrayBuffer> | undefined> {
  const stream = new Blob([bytes]).stream().pipeThrough(new CompressionStream('gzip'));
  const packed = new Uint8Array(await new Response(stream).arrayBuffer());
  return packed.length < bytes.length ? packed : undefined;
}

/** The bytes of a piece. @throws StoreError where they are damaged, or more than a piece holds */
export async function unpackPiece(
  packing: PiecePacking,
  bytes: Uint8Array<ArrayBuffer>,
): Promise<Uint8Array<ArrayBuffer>> {
  if (packing !== 'gzip') return bytes;
  const reader = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip')).getReader();
  const result = new Uint8Array(PIECE_BYTES);
  let length = 0;
  try {
    for (let read = await reader.read(); !read.done; read = await reader.read()) {
      if (length + read.value.length > PIECE_BYTES) throw new RangeError('A piece unpacks to more than it may hold.');
      result.set(read.value, length);
      length += read.value.length;
    }
  } catch (cause) {
    await reader.cancel().catch(() => undefined);
    throw new StoreError('damaged', 'The kept bytes of a file are damaged: restore a backup.', cause);
  }
  return result.subarray(0, length);
}

/** The file's own bytes as they were brought in. @throws StoreError where they are not the ones that `line` names */
export async function readOriginal(database: BenchDatabase, line: ImportLine): Promise<Uint8Array<ArrayBuffer>> {
  const pieces = await database.read((transaction) =>
    transaction.objectStore('originals').getAll(importKeys(line.generation, line.hash)),
  );
  const result = new Uint8Array(line.bytes);
  let length = 0;
  for (const piece of pieces) {
    const bytes = await unpackPiece(piece.packing, piece.bytes);
    if (length + bytes.length > result.length) break;
    result.set(bytes, length);
    length += bytes.length;
  }
  if (length !== line.bytes || hexOf(await sha256(result)) !== line.hash) {
    throw new StoreError('damaged', `The kept bytes of ${line.file} are damaged: restore a backup.`);
  }
  return result;
}

/**
 * Compresses the pieces of a generation that are kept as they came, one at a time.
 * @returns how many pieces were settled so
 */
export async function compressOriginals(
  database: BenchDatabase,
  generation: number,
  signal: AbortSignal | undefined,
): Promise<number> {
  const keys = await database.read((transaction) =>
    transaction.objectStore('originals').index('packing').getAllKeys([generation, 'plain']),
  );
  let settledPieces = 0;
  for (const key of keys) {
    if (signal?.aborted) break;
    const piece = await database.read((transaction) => transaction.objectStore('originals').get(key));
    if (piece?.packing !== 'plain') continue;
    const packed = await compressPiece(piece.bytes);
    const settled: StoredPiece =
      packed === undefined ? { ...piece, packing: 'incompressible' } : { ...piece, packing: 'gzip', bytes: packed };
    await database.write('relaxed', async (transaction) => {
      const store = transaction.objectStore('originals');
      if ((await store.get(key))?.packing === 'plain') await store.put(settled);
    });
    settledPieces += 1;
  }
  return settledPieces;
}
