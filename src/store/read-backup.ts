import { readFrames, type Frame, type FrameKind } from './backup-frames.ts';
import { decodePiece, editsShape, headerShape, importShape, type BackupHeader, type BackupImport } from './backup-shapes.ts'; // prettier-ignore
import { CHUNK_ROWS, chunkCount, decodeChunk, decodeNames, emptyColumns } from './columns-codec.ts';
import type { ReadingLog } from '../columns/reading-log.ts';
import { crc32 } from './crc-32.ts';
import { ShapeFault, type Read } from './fields.ts';
import { detailsShape, type ImportDetails } from './import-shapes.ts';
import { readJson } from './json-bytes.ts';
import type { BenchState, Edit, ReportProgress } from './kept.ts';
import { PIECE_BYTES, pieceCount, unpackPiece } from './original-pieces.ts';
import type { PiecePacking } from './schema.ts';
import { hexOf } from './sha-256.ts';
import { stateShape } from './state-shapes.ts';
import { StoreError } from './store-error.ts';

/** One part of a backup, found to be what it must be and built anew. */
export type BackupPart =
  | { readonly kind: 'header'; readonly header: BackupHeader }
  | { readonly kind: 'state'; readonly state: BenchState }
  | { readonly kind: 'edits'; readonly edits: readonly Edit[] }
  | { readonly kind: 'import'; readonly entry: BackupImport }
  | { readonly kind: 'details'; readonly hash: string; readonly bytes: Bytes; readonly details: ImportDetails }
  | { readonly kind: 'chunk'; readonly hash: string; readonly no: number; readonly bytes: Bytes }
  | { readonly kind: 'original'; readonly hash: string; readonly no: number; readonly packing: PiecePacking; readonly bytes: Bytes } // prettier-ignore
  | { readonly kind: 'end'; readonly seal: string };

type Bytes = Uint8Array<ArrayBuffer>;

/** What is in a backup, for a look before it is taken. */
export interface BackupSummary {
  readonly header: BackupHeader;
  readonly state: BenchState;
  readonly seal: string;
}

/**
 * Reads a whole backup and checks all of it. @throws StoreError of fault `refused` with the reason
 * @param report - told of bytes
 */
export async function readBackup(file: Blob, report: ReportProgress = () => undefined): Promise<BackupSummary> {
  let header: BackupHeader | undefined;
  let state: BenchState | undefined;
  let seal = '';
  let done = 0;
  for await (const part of backupParts(file)) {
    if (part.kind === 'header') ({ header } = part);
    else if (part.kind === 'state') ({ state } = part);
    else if (part.kind === 'end') ({ seal } = part);
    else if ('bytes' in part) report((done += part.bytes.length), file.size);
  }
  if (header === undefined || state === undefined) throw damaged('it is empty');
  return { header, state, seal };
}

/**
 * Reads a written backup back. @throws StoreError where it is not whole, or not the one of this seal
 */
export async function verifyBackup(file: Blob, seal: string, report?: ReportProgress): Promise<BackupSummary> {
  const summary = await readBackup(file, report);
  if (summary.seal !== seal)
    throw new StoreError(
      'refused',
      'This file is another backup than the one just made: choose that one, or save it again.',
    );
  return summary;
}

/** The parts of a backup in their order, each checked; that the file as a whole is sound is known only after the last. */
export async function* backupParts(file: Blob): AsyncGenerator<BackupPart> {
  const reader = new BackupReader();
  for await (const frame of readFrames(file)) {
    try {
      yield await reader.take(frame);
    } catch (cause) {
      throw cause instanceof StoreError && cause.fault === 'refused' ? cause : damaged(reasonOf(cause), cause);
    }
  }
}

/** Knows what may come next, and what has been counted so far. */
class BackupReader {
  #header: BackupHeader | undefined;
  #state = false;
  #entry: BackupImport | undefined;
  #details: ImportDetails | undefined;
  #log: ReadingLog | undefined;
  readonly #hashes = new Set<string>();
  #readings = 0;
  #edits = 0;
  #chunks = 0;
  #pieces = 0;
  #bytes = 0;

  take({ kind, content }: Frame): BackupPart | Promise<BackupPart> {
    if (!this.#expected().includes(kind)) throw new ShapeFault(`a part (${kind}) stands where it does not belong`);
    switch (kind) {
      case 'header':
        return { kind, header: (this.#header = json(content, headerShape, kind)) };
      case 'state':
        this.#state = true;
        return { kind, state: json(content, stateShape, kind) };
      case 'edits':
        return { kind, edits: this.#takeEdits(json(content, editsShape, kind)) };
      case 'import':
        return { kind, entry: this.#takeImport(json(content, importShape, kind)) };
      case 'details':
        return this.#takeDetails(content);
      case 'chunk':
        return this.#takeChunk(content);
      case 'original':
        return this.#takePiece(content);
      case 'end':
        this.#refuseOtherCounts();
        return { kind, seal: hexOf(content) };
    }
  }

  #expected(): readonly FrameKind[] {
    if (this.#header === undefined) return ['header'];
    if (!this.#state) return ['state'];
    if (this.#entry === undefined) return ['edits', 'import', 'end'];
    if (this.#details === undefined) return ['details'];
    if (this.#chunks < this.#entry.chunks.length) return ['chunk'];
    return this.#pieces < this.#entry.pieces ? ['original'] : ['import', 'end'];
  }

  #takeEdits(edits: readonly Edit[]): readonly Edit[] {
    for (const { step } of edits) {
      if (step !== this.#edits + 1) throw new ShapeFault('entries of the journal are out of order');
      this.#edits = step;
    }
    return edits;
  }

  #takeImport(entry: BackupImport): BackupImport {
    this.#refuseOtherBytes();
    if (this.#hashes.has(entry.hash)) throw new ShapeFault('an import stands there twice');
    if (entry.chunks.length !== chunkCount(entry.rows) || entry.pieces !== pieceCount(entry.bytes))
      throw new ShapeFault('an import has another number of parts than its size asks for');
    this.#hashes.add(entry.hash);
    this.#readings += entry.rows;
    this.#entry = entry;
    this.#details = undefined;
    this.#log = undefined;
    this.#chunks = this.#pieces = this.#bytes = 0;
    return entry;
  }

  #takeDetails(bytes: Bytes): BackupPart {
    const { hash, rows, details: sum } = this.#present();
    const details = json(bytes, detailsShape, 'details');
    if (crc32(bytes) !== sum || details.record.hash !== hash) throw new ShapeFault('the details are of another import');
    if (details.names === undefined && rows > 0) throw new ShapeFault('readings come without names');
    if (details.names !== undefined) this.#log = emptyColumns(decodeNames(details.names), Math.min(rows, CHUNK_ROWS));
    this.#details = details;
    return { kind: 'details', hash, bytes, details };
  }

  #takeChunk(bytes: Bytes): BackupPart {
    const { hash, rows, chunks } = this.#present();
    const no = this.#chunks;
    if (crc32(bytes) !== chunks[no] || this.#log === undefined) throw new ShapeFault('a chunk has another check sum');
    // One chunk is decoded at a time, as if it were a log of its own.
    const count = Math.min(CHUNK_ROWS, rows - no * CHUNK_ROWS);
    decodeChunk(bytes, count === this.#log.count ? this.#log : emptyColumns(this.#log.names, count), 0);
    this.#chunks += 1;
    return { kind: 'chunk', hash, no, bytes };
  }

  async #takePiece(content: Bytes): Promise<BackupPart> {
    const { hash } = this.#present();
    const piece = decodePiece(content);
    if (piece === undefined) throw new ShapeFault('a piece of a file is packed in an unknown way');
    const { length } = await unpackPiece(piece.packing, piece.bytes);
    if (length === 0 || length > PIECE_BYTES) throw new ShapeFault('a piece of a file has another size');
    this.#bytes += length;
    const no = this.#pieces;
    this.#pieces += 1;
    return { kind: 'original', hash, no, ...piece };
  }

  #present(): BackupImport {
    if (this.#entry === undefined) throw new ShapeFault('there is no import');
    return this.#entry;
  }

  #refuseOtherBytes(): void {
    if (this.#entry !== undefined && this.#bytes !== this.#entry.bytes)
      throw new ShapeFault('a file has another size than its pieces');
  }

  #refuseOtherCounts(): void {
    this.#refuseOtherBytes();
    const { imports, readings, edits } = this.#header ?? { imports: -1, readings: -1, edits: -1 };
    if (imports !== this.#hashes.size || readings !== this.#readings || edits !== this.#edits)
      throw new ShapeFault('it holds another number of imports, readings or edits than it says');
  }
}

function json<T>(content: Bytes, read: Read<T>, place: string): T {
  return readJson(content, read, place);
}

function reasonOf(cause: unknown): string {
  return cause instanceof ShapeFault || cause instanceof StoreError ? cause.message : 'it cannot be read';
}

function damaged(reason: string, cause?: unknown): StoreError {
  return new StoreError('refused', `This backup is damaged (${reason}): take another copy of it.`, cause);
}
