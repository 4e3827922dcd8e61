import { BACKUP_FORMAT, encodePiece, type BackupHeader, type BackupImport } from './backup-shapes.ts';
import type { BenchDatabase } from './bench-database.ts';
import { FrameWriter } from './backup-frames.ts';
import { generationKeys, importKeys, readPointer } from './generation.ts';
import { editOf } from './journal.ts';
import { jsonBytes } from './json-bytes.ts';
import type { BenchState, Edit, ReportProgress } from './kept.ts';
import { APP_ID, type ImportLine, type StoredDetails } from './schema.ts';
import { hexOf } from './sha-256.ts';
import { StoreError } from './store-error.ts';
import { readState } from './write-state.ts';

/** Entries of the journal in one frame. */
const EDITS_A_FRAME = 500;
/** Chunks or pieces that are read at once. */
const PAGE = 16;

export interface Backup {
  readonly file: Blob;
  /** Names this very content, in hexadecimal digits. */
  readonly seal: string;
  readonly header: BackupHeader;
}

/** Everything of a generation but the bulk of its imports, as it stood at one moment. */
interface Snapshot {
  readonly generation: number;
  readonly lines: readonly ImportLine[];
  readonly details: ReadonlyMap<string, StoredDetails>;
  readonly state: BenchState;
  readonly edits: readonly Edit[];
}

/**
 * Writes all that is kept into one file. Imports are never changed once complete, so that it holds the bench of one moment.
 * @throws StoreError where something to be written is missing, or an import was removed meanwhile
 */
export async function writeBackup(database: BenchDatabase, made: number, report: ReportProgress): Promise<Backup> {
  const { generation, lines, details, state, edits } = await takeSnapshot(database);
  const readings = lines.reduce((sum, { rows }) => sum + rows, 0);
  const header = { app: APP_ID, format: BACKUP_FORMAT, made, imports: lines.length, readings, edits: edits.length };
  const writer = new FrameWriter();
  await writer.write('header', jsonBytes(header));
  await writer.write('state', jsonBytes(state));
  for (let first = 0; first < edits.length; first += EDITS_A_FRAME)
    await writer.write('edits', jsonBytes(edits.slice(first, first + EDITS_A_FRAME)));
  let done = 0;
  for (const line of lines) {
    const { hash, file, rows, chunks, details: detailsSum, bytes, pieces } = line;
    const entry: BackupImport = { hash, file, rows, chunks, details: detailsSum, bytes, pieces };
    await writer.write('import', jsonBytes(entry));
    await writer.write('details', required(details.get(hash), file).bytes);
    await writeBulk(database, writer, generation, line);
    done += rows;
    report(done, readings);
  }
  const { file, seal } = await writer.finish();
  return { file, seal: hexOf(seal), header };
}

async function writeBulk(
  database: BenchDatabase,
  writer: FrameWriter,
  generation: number,
  { hash, file, chunks, pieces }: ImportLine,
): Promise<void> {
  for (let no = 0; no < chunks.length; no += PAGE) {
    const page = await database.read((transaction) =>
      transaction.objectStore('chunks').getAll(pageKeys(generation, hash, no), PAGE),
    );
    if (page.length !== Math.min(PAGE, chunks.length - no)) throw missing(file);
    for (const { bytes } of page) await writer.write('chunk', bytes);
  }
  for (let no = 0; no < pieces; no += PAGE) {
    const page = await database.read((transaction) =>
      transaction.objectStore('originals').getAll(pageKeys(generation, hash, no), PAGE),
    );
    if (page.length !== Math.min(PAGE, pieces - no)) throw missing(file);
    for (const { packing, bytes } of page) await writer.write('original', encodePiece(packing, bytes));
  }
}

function takeSnapshot(database: BenchDatabase): Promise<Snapshot> {
  return database.read(async (transaction) => {
    const { current: generation } = await readPointer(transaction);
    const keys = generationKeys(generation);
    const lines = await transaction.objectStore('imports').index('order').getAll(keys);
    const details = await transaction.objectStore('details').getAll(keys);
    const { state, damaged } = await readState(transaction, generation);
    if (damaged.size > 0)
      throw new StoreError('damaged', 'Some of what is kept is damaged: load the bench and save it again first.');
    const edits = await transaction.objectStore('journal').getAll(keys);
    return {
      generation,
      lines: lines.filter((line) => line.state === 'complete'),
      details: new Map(details.map((record) => [record.hash, record])),
      state,
      edits: edits.map(editOf),
    };
  });
}

function pageKeys(generation: number, hash: string, no: number): IDBKeyRange {
  return IDBKeyRange.bound([generation, hash, no], importKeys(generation, hash).upper);
}

function required(record: StoredDetails | undefined, file: string): StoredDetails {
  if (record === undefined) throw missing(file);
  return record;
}

function missing(file: string): StoreError {
  return new StoreError('damaged', `Something of ${file} is missing or was removed meanwhile: no backup was made.`);
}
