import type { Separator } from '../domain/file-plan.ts';
import { RecordReader } from './record-reader.ts';

/** A record at the beginning of a file. */
export interface HeadRecord {
  readonly cells: readonly string[];
  readonly line: number;
}

/** The whole records of the beginning of a file. @param atEnd - whether `text` is all of it */
export function headRecords(text: string, separator: Separator, atEnd: boolean): HeadRecord[] {
  const { rows, lines } = new RecordReader(separator).push(text, atEnd);
  return rows.map((cells, at) => ({ cells, line: lines[at]! }));
}

export function isBlankRecord(cells: readonly string[]): boolean {
  return cells.every((cell) => cell.trim() === '');
}

export function isComment(cells: readonly string[]): boolean {
  return cells[0]!.startsWith('#');
}
