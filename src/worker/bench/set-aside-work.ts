import { guardFormula } from '../../domain/formula-guard.ts';
import type { FilePlan } from '../../domain/file-plan.ts';
import type { ImportRecord, SetAside } from '../../domain/import-record.ts';
import { readFile } from '../../intake/read-file.ts';
import { writeRow } from '../../intake/write-row.ts';
import type { BenchData } from './bench-data.ts';
import { settled, withContents } from './contents.ts';
import { pieces } from './pieces.ts';

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
  const plan = data.plans.get(file);
  const record = data.imports.find((one) => one.file === file);
  if (plan === undefined || record === undefined || !data.setAside.some((one) => isAt(one, file, line))) {
    return { reason: `Line ${line} of ${file} is not set aside any more.` };
  }
  const contents = await readFile(oneRowFile(file, plan, content), oneRowPlan(plan));
  const [problem] = contents.setAside;
  if (problem !== undefined) return { reason: problem.reason };
  if (contents.rows !== 1) return { reason: 'A mended row must be one row: keep it on one line.' };
  const atLine =
    contents.shape === 'readings'
      ? { ...contents, log: { ...contents.log, line: contents.log.line.map(() => line) } }
      : contents;
  const { data: withRow, known } = withContents(data, record.hash, atLine);
  const counts = { taken: record.taken + 1 - known, setAside: record.setAside - 1, known: record.known + known };
  return {
    data: settled({
      ...withRow,
      imports: withRow.imports.map((one): ImportRecord => (one.hash === record.hash ? { ...one, ...counts } : one)),
      setAside: withRow.setAside.filter((one) => !isAt(one, file, line)),
    }),
  };
}

/** The bench without some of the rows that were set aside; their imports still count them. */
export function letGo(data: BenchData, rows: readonly { readonly file: string; readonly line: number }[]): BenchData {
  const gone = new Map<string, Set<number>>();
  for (const { file, line } of rows) gone.set(file, (gone.get(file) ?? new Set()).add(line));
  return { ...data, setAside: data.setAside.filter(({ file, line }) => gone.get(file)?.has(line) !== true) };
}

/**
 * The rows that were set aside as CSV (RFC 4180): file, line, column, content, reason.
 * @param isForSpreadsheet - with an apostrophe before what a spreadsheet program would take for a formula; else exactly as it stands there
 */
export function setAsideText(data: BenchData, isForSpreadsheet: boolean): string {
  const cell = isForSpreadsheet ? guardFormula : (text: string) => text;
  const header = ['file', 'line', 'column', 'content', 'reason'];
  const rows = data.setAside.map(({ file, line, column, content, reason }) => [
    file,
    `${line}`,
    column,
    content,
    reason,
  ]);
  return [header, ...rows].map((cells) => `${writeRow(cells.map(cell), ',')}\r\n`).join('');
}

/** A file of the header, where there is one, and one row. */
function oneRowFile(name: string, plan: FilePlan, content: string) {
  const header = plan.headerLine > 0 ? `${writeRow(plan.columns.map((use) => use.header), plan.separator)}\n` : ''; // prettier-ignore
  const bytes = new TextEncoder().encode(`${header}${content}\n`);
  return { name, size: bytes.length, bytes: pieces(bytes) };
}

/** The plan for such a file: what a units line said stands in the columns already. */
function oneRowPlan(plan: FilePlan): FilePlan {
  return { ...plan, encoding: 'utf-8', headerLine: Math.min(plan.headerLine, 1), unitsLine: false };
}

function isAt(one: SetAside, file: string, line: number): boolean {
  return one.file === file && one.line === line;
}
