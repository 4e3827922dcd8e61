import type { FilePlan } from '../domain/file-plan.ts';
import { MAX_FILE_BYTES } from './caps.ts';
import type { FileContents } from './file-contents.ts';
import { FileTable } from './file-table.ts';
import { Pauses } from './pauses.ts';
import { RecordReader } from './record-reader.ts';
import { takerFor } from './row-takers.ts';
import { FileDecoder } from './text-decoder.ts';

export type { FileContents };

/** A file to read: its bytes in pieces of any length. */
export interface FileSource {
  readonly name: string;
  /** Length in bytes. */
  readonly size: number;
  readonly bytes: AsyncIterable<Uint8Array>;
}

/** How far a file has been read. */
export interface Progress {
  readonly bytes: number;
  readonly rows: number;
}

/** Bytes decoded and split at a time: long enough to be quick, short enough to be stopped. */
const PIECE = 65_536;

/**
 * Reads a whole file by its plan. What it holds does not depend on how its bytes are cut into pieces.
 * @param report - called after each piece with the bytes and rows read so far
 * @param signal - stops the reading between two pieces
 * @throws RangeError where the file is larger than is read, or its length is not the one stated; the signal's reason where it stopped
 */
export async function readFile(
  source: FileSource,
  plan: FilePlan,
  report?: (progress: Progress) => void,
  signal?: AbortSignal,
): Promise<FileContents> {
  if (source.size > MAX_FILE_BYTES)
    throw new RangeError(`“${source.name}” is larger than 1 GiB. Split it into smaller files, and bring those in.`);
  const reading = new FileReading(source.name, plan);
  const pauses = new Pauses(signal);
  try {
    for await (const bytes of source.bytes) {
      for (let at = 0; at < bytes.length; at += PIECE) {
        signal?.throwIfAborted();
        if (reading.add(bytes.subarray(at, at + PIECE))) report?.(reading.progress);
        if (reading.progress.bytes > source.size) break;
        await pauses.pause();
      }
    }
  } finally {
    pauses.close();
  }
  signal?.throwIfAborted();
  if (reading.progress.bytes !== source.size) {
    throw new RangeError(`“${source.name}” changed while it was read. Choose it again.`);
  }
  const contents = reading.finish();
  report?.({ bytes: source.size, rows: contents.rows });
  return contents;
}

const FALLBACK =
  'The file is not UTF-8 and was read as windows-1252. Where a name or a unit looks odd, take the file back and choose another encoding.';

/** The way of one file from bytes to contents. */
class FileReading {
  readonly #decoder: FileDecoder;
  readonly #isOneByte: boolean;
  readonly #records: RecordReader;
  readonly #table: FileTable;
  readonly #taker: ReturnType<typeof takerFor>;
  #text = '';
  #bytes = 0;
  #lastCharacter = '';
  #undecodable = false;
  /** Whether characters were read by an encoding that takes every byte for one, so that nothing tells a wrong one. */
  #fallback = false;

  constructor(name: string, plan: FilePlan) {
    this.#isOneByte = plan.encoding === 'windows-1252';
    this.#decoder = new FileDecoder(plan.encoding);
    this.#records = new RecordReader(plan.separator);
    this.#taker = takerFor(name, plan);
    this.#table = new FileTable(name, plan, this.#taker);
  }

  get progress(): Progress {
    return { bytes: this.#bytes, rows: this.#table.rows };
  }

  /** Takes some bytes. @returns whether they made a piece of text long enough to be read */
  add(bytes: Uint8Array): boolean {
    this.#bytes += bytes.length;
    this.#fallback ||= this.#isOneByte && bytes.some((byte) => byte > 0x7f);
    this.#text += this.#decoder.decode(bytes);
    if (this.#text.length < PIECE / 4) return false;
    this.#read(false);
    return true;
  }

  finish(): FileContents {
    this.#text += this.#decoder.end();
    this.#read(true);
    const counts = this.#table.finish(this.#lastCharacter === '\n' || this.#lastCharacter === '\r');
    if (this.#fallback) counts.notices.unshift(FALLBACK);
    if (this.#undecodable) {
      counts.notices.unshift('Some characters could not be decoded. Choose another encoding for the file.');
    }
    return { ...counts, ...this.#taker.contents() };
  }

  #read(last: boolean): void {
    this.#undecodable ||= this.#text.includes('\ufffd');
    if (this.#text !== '') this.#lastCharacter = this.#text.slice(-1);
    this.#table.add(this.#records.push(this.#text, last));
    this.#text = '';
  }
}
