import type { BenchDatabase } from './bench-database.ts';
import { CHUNK_ROWS, decodeChunk, decodeNames, emptyColumns } from './columns-codec.ts';
import { crc32 } from './crc-32.ts';
import { detailsShape, type ImportDetails } from './import-shapes.ts';
import { readJson } from './json-bytes.ts';
import type { KeptImport, ReportProgress } from './kept.ts';
import type { ReadingLog } from '../columns/reading-log.ts';
import { generationKeys } from './generation.ts';
import type { ImportLine, StoredChunk, StoredDetails } from './schema.ts';

/** Chunks that are read at once. */
const PAGE_CHUNKS = 16;

/** Imports read whole and checked, in the order in which they came, and those that were not what they must be. */
export interface ReadImports {
  readonly sound: readonly KeptImport[];
  readonly damaged: readonly ImportLine[];
}

/** Reads all complete imports of a generation. Each sum is checked; a damaged import is left out whole. */
export async function readImports(
  database: BenchDatabase,
  generation: number,
  lines: readonly ImportLine[],
  report: ReportProgress,
): Promise<ReadImports> {
  const details = await database.read((transaction) =>
    transaction.objectStore('details').getAll(generationKeys(generation)),
  );
  const byHash = new Map(details.map((record) => [record.hash, record]));
  const complete = lines.filter(({ state }) => state === 'complete');
  const readers = new Map(complete.map((line) => [line.hash, new ImportReader(line, byHash.get(line.hash))]));
  const total = complete.reduce((sum, { rows }) => sum + rows, 0);
  let done = 0;
  report(0, total);
  for await (const chunk of chunksOf(database, generation)) {
    done += readers.get(chunk.hash)?.take(chunk) ?? 0;
    report(Math.min(done, total), total);
  }
  const sound: KeptImport[] = [];
  const damaged: ImportLine[] = [];
  for (const [, reader] of readers) {
    const kept = reader.finish();
    if (kept === undefined) damaged.push(reader.line);
    else sound.push(kept);
  }
  return { sound, damaged };
}

async function* chunksOf(database: BenchDatabase, generation: number): AsyncGenerator<StoredChunk> {
  let range = generationKeys(generation);
  for (;;) {
    const page = await database.read((transaction) => transaction.objectStore('chunks').getAll(range, PAGE_CHUNKS));
    yield* page;
    const last = page.at(-1);
    if (last === undefined || page.length < PAGE_CHUNKS) return;
    range = IDBKeyRange.bound([generation, last.hash, last.no], [generation + 1], true, true);
  }
}

/** Puts one import together again from its records. */
class ImportReader {
  readonly line: ImportLine;
  readonly #details: ImportDetails | undefined;
  readonly #log: ReadingLog | undefined;
  #next = 0;
  #damaged = false;

  constructor(line: ImportLine, stored: StoredDetails | undefined) {
    this.line = line;
    try {
      if (stored === undefined || crc32(stored.bytes) !== line.details) throw new Error('The details are damaged.');
      this.#details = readJson(stored.bytes, detailsShape, 'import');
      const { names } = this.#details;
      if (names !== undefined) this.#log = emptyColumns(decodeNames(names), line.rows);
    } catch {
      this.#damaged = true;
    }
  }

  /** Takes the next chunk. @returns its rows */
  take({ no, bytes }: StoredChunk): number {
    const expected = this.#next;
    this.#next += 1;
    try {
      if (this.#log === undefined || no !== expected || crc32(bytes) !== this.line.chunks[no])
        throw new Error('The chunk is damaged.');
      decodeChunk(bytes, this.#log, no);
    } catch {
      this.#damaged = true;
    }
    return Math.min(CHUNK_ROWS, Math.max(0, this.line.rows - expected * CHUNK_ROWS));
  }

  /** The import, or undefined where something of it is damaged or missing. */
  finish(): KeptImport | undefined {
    if (this.#damaged || this.#details === undefined || this.#next !== this.line.chunks.length) return undefined;
    const { record, setAside, plan } = this.#details;
    return { record, setAside, ...(plan && { plan }), ...(this.#log && { log: this.#log }) };
  }
}
