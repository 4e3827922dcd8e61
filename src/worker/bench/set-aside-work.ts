import { guardFormula } from '../../domain/formula-guard.ts';
import { writeRow } from '../../intake/write-row.ts';
import type { BenchData } from './bench-data.ts';
import type { RowPlace } from '../contract/intake.ts';

/** The bench without some of the rows that were set aside; their imports still count them. */
export function letGo(data: BenchData, rows: readonly RowPlace[]): BenchData {
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
