import { appendLog, resolveFamilies } from '../../columns/append.ts';
import type { FilePlan } from '../../domain/file-plan.ts';
import type { ImportRecord, SetAside } from '../../domain/import-record.ts';
import { planFile } from '../../intake/plan-file.ts';
import type { FileContents } from '../../intake/file-contents.ts';
import { readFile } from '../../intake/read-file.ts';
import type { BenchData } from './bench-data.ts';
import { withBands } from './edits.ts';
import type { CallContext, ImportOutcome } from '../contract.ts';

/** As much of a file as its shape is guessed from, in bytes. */
export const HEAD_BYTES = 256 * 1024;
/** Bytes that are read before the next look for a cancel. */
const PIECE_BYTES = 1024 * 1024;

/**
 * Reads files in one after the other, each whole or not at all, tables of repairs and bands before the rest is judged.
 * @returns the bench with their contents, and what became of each file
 * @throws where the call was cancelled; `data` is unchanged then
 */
export async function bringIn(
  data: BenchData,
  files: readonly File[],
  plans: readonly (FilePlan | undefined)[],
  context: CallContext,
): Promise<{ readonly data: BenchData; readonly outcome: ImportOutcome }> {
  const records: ImportRecord[] = [];
  const setAside: SetAside[] = [];
  const refused: { file: string; reason: string }[] = [];
  let result = data;
  for (const [index, file] of files.entries()) {
    const read = await readOne(
      result,
      file,
      plans[index],
      (bytes, rows) => {
        context.report({
          file: file.name,
          fileNumber: index + 1,
          files: files.length,
          bytes,
          totalBytes: file.size,
          rows,
        });
      },
      context.signal,
    );
    if ('refused' in read) {
      refused.push({ file: file.name, reason: read.refused });
      continue;
    }
    records.push(read.record);
    setAside.push(...read.setAside);
    result = {
      ...read.data,
      imports: [...read.data.imports, read.record],
      setAside: [...read.data.setAside, ...read.setAside],
    };
  }
  const log = resolveFamilies(result.log, (repair) => result.repairs.get(repair)?.family);
  return { data: { ...result, log }, outcome: { records, setAside, refused } };
}

type ReadOne =
  | { readonly refused: string }
  | { readonly data: BenchData; readonly record: ImportRecord; readonly setAside: readonly SetAside[] };

async function readOne(
  data: BenchData,
  file: File,
  given: FilePlan | undefined,
  report: (bytes: number, rows: number) => void,
  signal: AbortSignal,
): Promise<ReadOne> {
  let bytes: Uint8Array<ArrayBuffer>;
  try {
    bytes = new Uint8Array(await file.arrayBuffer());
  } catch {
    return {
      refused: `${file.name} could not be opened: it was moved or changed since it was chosen. Choose it again.`,
    };
  }
  const hash = await sha256(bytes);
  const earlier = data.imports.find((record) => record.hash === hash);
  if (earlier !== undefined) return alreadyHere(data, file, earlier);
  const plan = given ?? planFile(file.name, bytes.subarray(0, HEAD_BYTES), bytes.length <= HEAD_BYTES);
  if ('refused' in plan) return plan;
  const contents = await readFile(
    { name: file.name, size: file.size, bytes: pieces(bytes) },
    plan,
    (progress) => { report(progress.bytes, progress.rows); }, // prettier-ignore
    signal,
  );
  const record: ImportRecord = {
    file: file.name,
    hash,
    shape: contents.shape,
    encoding: plan.encoding,
    separator: plan.separator,
    rows: contents.rows,
    taken: contents.taken,
    setAside: contents.setAsideRows,
    known: 0,
    noData: contents.noData,
    notices: contents.notices,
  };
  return { data: withContents(data, contents), record, setAside: contents.setAside };
}

/** The bench with one file's contents: readings are added; repairs and families replace those of the same name, bands those of the same check. */
function withContents(data: BenchData, contents: FileContents): BenchData {
  switch (contents.shape) {
    case 'readings':
      return { ...data, log: data.log.count === 0 ? contents.log : appendLog(data.log, contents.log) };
    case 'repairs':
      return {
        ...data,
        repairs: new Map([...data.repairs, ...contents.repairs.map((repair) => [repair.id, repair] as const)]),
      };
    case 'bands': {
      const families = contents.families.map((family) => [family.name, family] as const);
      return withBands({ ...data, families: new Map([...data.families, ...families]) }, contents.bands);
    }
  }
}

function alreadyHere(data: BenchData, file: File, earlier: ImportRecord): ReadOne {
  const notice =
    earlier.file === file.name
      ? 'These very bytes were brought in before: nothing was added.'
      : `These very bytes were brought in before as ${earlier.file}: nothing was added.`;
  const record = { ...earlier, file: file.name, taken: 0, setAside: 0, known: earlier.rows, notices: [notice] };
  return { data, record, setAside: [] };
}

async function sha256(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

// eslint-disable-next-line @typescript-eslint/require-await -- the reader takes any stream of bytes; these are here already
async function* pieces(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  for (let start = 0; start < bytes.length; start += PIECE_BYTES) yield bytes.subarray(start, start + PIECE_BYTES);
}
