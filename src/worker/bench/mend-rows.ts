import { readingAt } from '../../columns/reading-log.ts';
import type { FilePlan, GivenRange } from '../../domain/file-plan.ts';
import type { ImportRecord, SetAside } from '../../domain/import-record.ts';
import type { FileContents } from '../../intake/file-contents.ts';
import { GivenLines } from '../../intake/given-lines.ts';
import { readFile } from '../../intake/read-file.ts';
import { writeRow } from '../../intake/write-row.ts';
import type { Mend, MendOutcome, RowPlace } from '../contract/intake.ts';
import type { BenchData } from './bench-data.ts';
import { settled, withContents } from './contents.ts';
import { pieces } from './pieces.ts';

/** Readings that show what a mend does. */
const SHOWN = 3;

const NOT_ONE_ROW = 'A mended row must be one row: keep it on one line.';

/** A row with the content that it is to be read with. */
interface MendedRow {
  readonly line: number;
  readonly content: string;
}

/**
 * Reads a mended row again by the plan of its file.
 * @returns the bench with the row admitted, or what is still wrong with it, as a sentence
 */
export async function mendRow(
  data: BenchData,
  file: string,
  line: number,
  content: string,
): Promise<{ readonly data: BenchData } | { readonly reason: string }> {
  if (!data.plans.has(file) || !data.setAside.some((one) => one.file === file && one.line === line)) {
    return { reason: `Line ${line} of ${file} is not set aside any more.` };
  }
  const { contents, data: mended } = await reread(data, file, [{ line, content }], {});
  const [problem] = contents.setAside;
  if (problem !== undefined) return { reason: problem.reason };
  if (contents.rows !== 1) return { reason: NOT_ONE_ROW };
  return { data: mended };
}

/**
 * Reads rows of one file again, all mended alike; those that still cannot be read stay as they were.
 * @throws where none of them is set aside any more
 */
export async function mendRows(
  data: BenchData,
  places: readonly RowPlace[],
  mend: Mend,
): Promise<{ readonly data: BenchData; readonly outcome: MendOutcome }> {
  const file = places[0]?.file ?? '';
  const lines = new Set(places.filter((place) => place.file === file).map(({ line }) => line));
  const rows = data.setAside.filter((one) => one.file === file && one.line > 0 && lines.has(one.line));
  if (rows.length === 0 || !data.plans.has(file)) throw new Error('These rows are not set aside any more.');
  const mended = rows.map((row): MendedRow => ({ line: row.line, content: mendedContent(row, mend) }));
  const { contents, data: after } = await reread(data, file, mended, 'given' in mend ? mend.given : {});
  if (contents.rows !== rows.length) {
    return { data, outcome: { admitted: 0, left: rows.length, fault: NOT_ONE_ROW, readings: [] } };
  }
  const left = new Set(contents.setAside.map(({ line }) => line)).size;
  const fault = contents.setAside[0]?.reason;
  const readings = contents.shape === 'readings' ? firstReadings(contents.log) : [];
  const outcome = { admitted: rows.length - left, left, ...(fault !== undefined && { fault }), readings };
  return { data: after, outcome };
}

function mendedContent({ content }: SetAside, mend: Mend): string {
  return 'given' in mend || mend.text === '' ? content : content.replaceAll(mend.text, () => mend.by);
}

function firstReadings(log: (FileContents & { shape: 'readings' })['log']): MendOutcome['readings'] {
  return Array.from({ length: Math.min(SHOWN, log.count) }, (_, row) => readingAt(log, row));
}

/** Reads rows by the plan of their file, under their own lines. @returns what they hold, and the bench with those admitted that can be read */
async function reread(
  data: BenchData,
  file: string,
  rows: readonly MendedRow[],
  given: FilePlan['given'],
): Promise<{ readonly contents: FileContents; readonly data: BenchData }> {
  const plan = data.plans.get(file)!;
  const record = data.imports.find((one) => one.file === file)!;
  const { text, starts } = textOf(plan, rows);
  const bytes = new TextEncoder().encode(text);
  const source = { name: file, size: bytes.length, bytes: pieces(bytes) };
  const lineOf = new Map(starts.map((start, at) => [start, rows[at]!.line]));
  const contents = underOwnLines(await readFile(source, planOf(plan, rows, starts, given)), lineOf);
  const left = new Set(contents.setAside.map(({ line }) => line));
  const admitted = new Set(rows.map(({ line }) => line).filter((line) => !left.has(line)));
  if (contents.rows !== rows.length) return { contents, data };
  const { data: withRows, known } = withContents(data, record.hash, contents);
  const counts = {
    taken: record.taken + admitted.size - known,
    setAside: record.setAside - admitted.size,
    known: record.known + known,
  };
  return {
    contents,
    data: settled({
      ...withRows,
      imports: withRows.imports.map((one): ImportRecord => (one.hash === record.hash ? { ...one, ...counts } : one)),
      setAside: withRows.setAside.filter((one) => !(one.file === file && admitted.has(one.line))),
    }),
  };
}

/** The rows under their header, where there is one, and the line on which each starts. */
function textOf(plan: FilePlan, rows: readonly MendedRow[]): { readonly text: string; readonly starts: number[] } {
  let text = plan.headerLine > 0 ? `${writeRow(plan.columns.map((use) => use.header), plan.separator)}\n` : ''; // prettier-ignore
  const starts: number[] = [];
  let line = 1 + lineEnds(text);
  for (const { content } of rows) {
    starts.push(line);
    text += `${content}\n`;
    line += 1 + lineEnds(content);
  }
  return { text, starts };
}

function lineEnds(text: string): number {
  return text.match(/\r\n|\r|\n/g)?.length ?? 0;
}

/** The plan for such a file: what a units line said stands in the columns already, and each row has what was stated for its own line. */
function planOf(
  plan: FilePlan,
  rows: readonly MendedRow[],
  starts: readonly number[],
  given: FilePlan['given'],
): FilePlan {
  const stated = new GivenLines(plan);
  const givenRanges = rows.map(({ line }, at): GivenRange => {
    const from = starts[at]!;
    return { from, to: (starts[at + 1] ?? from + 1) - 1, given: { ...stated.at(line), ...given } };
  });
  return { ...plan, encoding: 'utf-8', headerLine: Math.min(plan.headerLine, 1), unitsLine: false, givenRanges };
}

function underOwnLines(contents: FileContents, lineOf: ReadonlyMap<number, number>): FileContents {
  const own = (line: number): number => lineOf.get(line) ?? line;
  const setAside = contents.setAside.map((row) => ({ ...row, line: own(row.line) }));
  if (contents.shape !== 'readings') return { ...contents, setAside };
  return { ...contents, setAside, log: { ...contents.log, line: contents.log.line.map(own) } };
}
