import { expect } from 'vitest';
import { readingAt } from '../../src/columns/reading-log.ts';
import type { FilePlan, Separator } from '../../src/domain/file-plan.ts';
import type { SetAside } from '../../src/domain/import-record.ts';
import type { Reading } from '../../src/domain/reading.ts';
import { shorten } from '../../src/intake/fault.ts';
import type { FileContents } from '../../src/intake/file-contents.ts';
import { planFile } from '../../src/intake/plan-file.ts';
import { readFile } from '../../src/intake/read-file.ts';
import { RecordReader } from '../../src/intake/record-reader.ts';
import { FileDecoder } from '../../src/intake/text-decoder.ts';
import { HEAD_BYTES } from '../../src/intake/caps.ts';

const encoder = new TextEncoder();

export const utf8 = (text: string): Uint8Array => encoder.encode(text);

export function utf16(text: string, bigEndian = false): Uint8Array {
  const bytes = new DataView(new ArrayBuffer(2 * text.length));
  for (let at = 0; at < text.length; at += 1) bytes.setUint16(2 * at, text.charCodeAt(at), !bigEndian);
  return new Uint8Array(bytes.buffer);
}

/** Bytes in pieces of `size`. */
export async function* inPieces(bytes: Uint8Array, size = bytes.length || 1): AsyncGenerator<Uint8Array> {
  for (let at = 0; at < bytes.length; at += size) yield bytes.subarray(at, at + size);
  await Promise.resolve();
}

export function planOf(bytes: Uint8Array, name = 'log.csv'): FilePlan {
  const plan = planFile(name, bytes.subarray(0, HEAD_BYTES), bytes.length <= HEAD_BYTES);
  if ('refused' in plan) throw new Error(plan.refused);
  return plan;
}

export function read(
  bytes: Uint8Array,
  plan: FilePlan = planOf(bytes),
  pieces = 65_536,
  name = 'log.csv',
): Promise<FileContents> {
  return readFile({ name, size: bytes.length, bytes: inPieces(bytes, pieces) }, plan);
}

/** All cells of a text. */
export function cellsOf(text: string, separator: Separator = ','): string[][] {
  return [...new RecordReader(separator).push(text, true).rows];
}

/** All cells of a file whose bytes come in pieces cut at `cuts`. */
export function cellsOfPieces(
  pieces: readonly Uint8Array[],
  encoding: FilePlan['encoding'],
  separator: Separator,
): { rows: string[][]; lines: number[] } {
  const decoder = new FileDecoder(encoding);
  const reader = new RecordReader(separator);
  const rows: string[][] = [];
  const lines: number[] = [];
  const take = (text: string, last: boolean): void => {
    const batch = reader.push(text, last);
    rows.push(...batch.rows);
    lines.push(...batch.lines);
  };
  for (const piece of pieces) take(decoder.decode(piece), false);
  take(decoder.end(), true);
  return { rows, lines };
}

export function pieces(bytes: Uint8Array, size: number): Uint8Array[] {
  return Array.from({ length: Math.ceil(bytes.length / size) }, (_, at) => bytes.subarray(at * size, (at + 1) * size));
}

/** How many line ends a text has, and whether text follows the last: its physical lines. */
export function lineCount(text: string): number {
  const ends = text.match(/\r\n|\r|\n/g)?.length ?? 0;
  return ends + (text === '' || /[\r\n]$/.test(text) ? 0 : 1);
}

/** All readings of a file. */
export function readingsOf(contents: FileContents): Reading[] {
  if (contents.shape !== 'readings') throw new Error('The file holds no readings.');
  const { log } = contents;
  return Array.from({ length: log.count }, (_, row) => readingAt(log, row));
}

/** A sentence that says what is wrong, and one that says what to do. */
export const TWO_SENTENCES = /^[“A-Z].*[^.]\. [A-Z].*\.$/s;

/** Checks that a row set aside has its line, and a reason that names the column that is meant and says what to do. */
export function expectReason({ line, column, reason }: SetAside): void {
  expect(line).toBeGreaterThan(0);
  expect(reason).toMatch(TWO_SENTENCES);
  if (column.trim() !== '') expect(reason).toContain(`column “${shorten(column)}”`);
}

/** Checks that every record is a reading, set aside with its reason, or counted as no data. */
export function expectAccounted(contents: FileContents, records: number): void {
  const { rows, taken, setAsideRows, noData, noDataKinds, setAside } = contents;
  expect(rows + noData).toBe(records);
  expect(rows).toBe(taken + setAsideRows);
  expect(noData).toBe(Object.values(noDataKinds).reduce((sum, count) => sum + count, 0));
  for (const row of setAside) expectReason(row);
}
