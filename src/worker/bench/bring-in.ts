import type { FilePlan } from '../../domain/file-plan.ts';
import type { ImportRecord, SetAside } from '../../domain/import-record.ts';
import { readFile } from '../../intake/read-file.ts';
import type { CallContext } from '../contract/calls.ts';
import type { ImportProgress } from '../contract/progress.ts';
import type { ImportOutcome } from '../contract/intake.ts';
import type { BenchData } from './bench-data.ts';
import { withContents } from './contents.ts';
import { pieces } from './pieces.ts';
import { HEAD_BYTES, isSettled, planWith, remember } from './plans.ts';

/** A bench with new files, and what became of them. */
export interface BroughtIn {
  readonly data: BenchData;
  readonly outcome: ImportOutcome;
  /** Bytes of the files that were read, by hash. */
  readonly originals: ReadonlyMap<string, Uint8Array>;
}

/**
 * Reads files in one after the other, each whole or not at all.
 * @param plans - how to read a file, by its place, where the technician settled it; such plans are remembered
 * @returns the bench with their contents, and what became of each file
 * @throws where the call was cancelled; `data` is unchanged then
 */
export async function bringIn(
  data: BenchData,
  files: readonly File[],
  plans: readonly (FilePlan | undefined)[],
  context: CallContext<ImportProgress>,
): Promise<BroughtIn> {
  const records: ImportRecord[] = [];
  const setAside: SetAside[] = [];
  const refused: { file: string; reason: string }[] = [];
  const originals = new Map<string, Uint8Array>();
  let result = data;
  for (const [index, file] of files.entries()) {
    const report = (bytes: number, rows: number): void => {
      const place = { file: file.name, fileNumber: index + 1, files: files.length };
      context.report({ ...place, bytes, totalBytes: file.size, rows });
    };
    const read = await readOne(result, file, plans[index], report, context.signal);
    if ('refused' in read) {
      refused.push({ file: file.name, reason: read.refused });
      continue;
    }
    result = read.data;
    records.push(read.record);
    setAside.push(...read.setAside);
    if (read.bytes) originals.set(read.record.hash, read.bytes);
  }
  return { data: result, outcome: { records, setAside, refused }, originals };
}

type ReadOne =
  | { readonly refused: string }
  | {
      readonly data: BenchData;
      readonly record: ImportRecord;
      readonly setAside: readonly SetAside[];
      /** The file's bytes, where it added something. */
      readonly bytes?: Uint8Array;
    };

async function readOne(
  data: BenchData,
  file: File,
  given: FilePlan | undefined,
  report: (bytes: number, rows: number) => void,
  signal: AbortSignal,
): Promise<ReadOne> {
  const bytes = await bytesOf(file);
  if (bytes === undefined) {
    return { refused: unreadable(file.name) };
  }
  const hash = await sha256(bytes);
  const earlier = data.imports.find((record) => record.hash === hash);
  if (earlier !== undefined) return { data, record: alreadyHere(file.name, earlier), setAside: [] };
  const plan = given ?? planWith(data, file.name, bytes.subarray(0, HEAD_BYTES), bytes.length <= HEAD_BYTES);
  if ('refused' in plan) return plan;
  if (plan.shape === 'unknown') return { refused: unknownColumns(file.name, plan) };
  const name = freeName(file.name, data.imports);
  const source = { name, size: bytes.length, bytes: pieces(bytes) };
  const contents = await readFile(source, plan, ({ bytes: done, rows }) => { report(done, rows); }, signal); // prettier-ignore
  const { data: withRows, known } = withContents(data, hash, contents);
  const record: ImportRecord = {
    file: name,
    hash,
    shape: contents.shape,
    encoding: plan.encoding,
    separator: plan.separator,
    rows: contents.rows,
    taken: contents.taken - known,
    setAside: contents.setAsideRows,
    known,
    noData: contents.noData,
    notices: [
      ...(isSettled(data, plan) ? ['Read with the columns that you settled for this header.'] : []),
      ...contents.notices,
    ],
  };
  return {
    data: {
      ...(given === undefined ? withRows : remember(withRows, given)),
      imports: [...data.imports, record],
      setAside: [...data.setAside, ...contents.setAside],
      plans: new Map([...data.plans, [name, plan]]),
    },
    record,
    setAside: contents.setAside,
    bytes,
  };
}

/** Why a file that was chosen cannot be read any more. */
function unreadable(name: string): string {
  return `${name} could not be read: it was moved, deleted or changed since it was chosen. Choose it again.`;
}

/** The first bytes of a file, as many as a plan is made of. @throws where it cannot be read any more, with a sentence */
export async function headOf(file: File): Promise<Uint8Array> {
  try {
    // A part of a deleted file is empty and no fault; the whole of it refuses to be read.
    const head = file.size === 0 ? file : file.slice(0, HEAD_BYTES);
    return new Uint8Array(await head.arrayBuffer());
  } catch (cause) {
    throw new Error(unreadable(file.name), { cause });
  }
}

async function bytesOf(file: File): Promise<Uint8Array<ArrayBuffer> | undefined> {
  try {
    return new Uint8Array(await file.arrayBuffer());
  } catch {
    return undefined;
  }
}

/** What an import of bytes that are here already comes to: every row is known. */
function alreadyHere(name: string, earlier: ImportRecord): ImportRecord {
  const when = earlier.file === name ? 'before' : `before as ${earlier.file}`;
  const notices = [`These very bytes were brought in ${when}: nothing was added.`];
  return { ...earlier, file: name, taken: 0, setAside: 0, known: earlier.rows, notices };
}

/** The outcome with those imports that another tab kept in the meantime told as what they are: nothing new. */
export function withKnown(outcome: ImportOutcome, known: ReadonlySet<string>): ImportOutcome {
  if (known.size === 0) return outcome;
  const notices = ['Another tab brought these very bytes in meanwhile: nothing was added.'];
  const records = outcome.records.map((record) =>
    known.has(record.hash) ? { ...record, taken: 0, setAside: 0, known: record.rows, notices } : record,
  );
  return { ...outcome, records };
}

/** Why a table without any column that says what it holds is not read. */
function unknownColumns(name: string, plan: FilePlan): string {
  const headers = plan.columns.map((use) => use.header).filter((header) => header.trim() !== '');
  const found =
    headers.length === 0
      ? 'it has no header'
      : `its columns are ${headers.slice(0, 6).join(', ')}${headers.length > 6 ? ' …' : ''}`;
  return `${name} was not read: no column is known as a reading, a repair, a band or a meter (${found}). Say what its columns hold, or name them as in the sample logs.`;
}

/** A name that no import has yet: a log that has grown often comes under its old name. */
function freeName(name: string, imports: readonly ImportRecord[]): string {
  const taken = new Set(imports.map((record) => record.file));
  let free = name;
  for (let number = 2; taken.has(free); number += 1) free = `${name} (${number})`;
  return free;
}

/** SHA-256 of bytes, hexadecimal. */
export async function sha256(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, '0')).join('');
}
