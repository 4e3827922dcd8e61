import type { Separator } from '../domain/file-plan.ts';
import { MAX_CELL, MAX_ROW } from './caps.ts';
import { CellSplitter } from './csv-parser.ts';
import { readQuotedRecord, type QuoteFault } from './quoted-record.ts';

/** Consecutive records of a file. */
export interface RecordBatch {
  readonly rows: readonly string[][];
  /** Physical line on which each record starts, the first of the file being 1. */
  readonly lines: Uint32Array | readonly number[];
  /** Faulty quotation marks, by row of the batch. */
  readonly faults: ReadonlyMap<number, QuoteFault>;
  /** Whether a cell may be longer than allowed. */
  readonly longCells: boolean;
  /** Lines too long to be read, each with the beginning of its text. */
  readonly tooLong: readonly { readonly line: number; readonly start: string }[];
}

/** Cuts decoded text into records, whatever the pieces in which it comes. Nothing between two line ends is ever lost. */
export class RecordReader {
  readonly #splitter: CellSplitter;
  readonly #separator: number;
  #rest = '';
  #line = 1;
  #skipping = false;
  /** Length that a record begun must reach before it is read again, so that a long one is not read anew with each piece. */
  #enough = 0;

  constructor(separator: Separator) {
    this.#splitter = new CellSplitter(separator);
    this.#separator = separator.charCodeAt(0);
  }

  /** The records that `text` completes. @param last - whether the file ends with it */
  push(text: string, last: boolean): RecordBatch {
    const batch = new Batch();
    if (!last && this.#rest.length + text.length < this.#enough) {
      this.#rest += text;
      return batch;
    }
    let source = this.#joined(text, batch);
    if (this.#skipping) source = this.#skipLine(source, last);
    if (this.#skipping) {
      this.#rest = source;
      return batch;
    }
    batch.longCells ||= source.length > MAX_CELL;
    this.#rest = source.slice(this.#take(source, last, batch));
    this.#enough = this.#rest.length + Math.min(this.#rest.length, MAX_CELL);
    if (this.#rest.length > MAX_ROW) {
      batch.tooLong.push({ line: this.#line, start: this.#rest.slice(0, 200) });
      this.#rest = this.#rest.endsWith('\r') ? '\r' : '';
      this.#skipping = true;
    }
    return batch;
  }

  /** What is left over and the new text. Where that is a line begun, the line alone is joined and read, so that no long text is copied. */
  #joined(text: string, batch: Batch): string {
    const rest = this.#rest;
    if (rest === '' || this.#skipping) return rest + text;
    const lineEnd = text.indexOf('\n') + 1;
    const line = rest + text.slice(0, lineEnd);
    if (lineEnd === 0 || line.includes('"')) return rest + text;
    batch.longCells = line.length > MAX_CELL;
    this.#take(line, false, batch);
    return text.slice(lineEnd);
  }

  /** Reads all whole records of `source`, and tells where they end. */
  #take(source: string, last: boolean, batch: Batch): number {
    let at = 0;
    while (at < source.length) {
      const quote = source.indexOf('"', at);
      const plainEnd = quote < 0 ? lastLineEnd(source, at, last) : lineStart(source, quote, at);
      if (plainEnd > at) {
        this.#line = batch.addLines(this.#splitter.split(source.slice(at, plainEnd)), this.#line);
        at = plainEnd;
      }
      if (quote < 0) break;
      const record = readQuotedRecord(source, at, this.#separator, last);
      if (record === undefined) break;
      batch.addRecord(record.cells, this.#line, record.fault);
      this.#line += 1 + record.breaks;
      at = record.end;
    }
    return at;
  }

  /** What follows a line that is too long; while its end has not come, only a CR that may be half of a CRLF. */
  #skipLine(source: string, last: boolean): string {
    const found = source.search(/[\r\n]/);
    if (found < 0) return '';
    const wide = source.startsWith('\r\n', found);
    if (source[found] === '\r' && found === source.length - 1 && !last) return '\r';
    this.#skipping = false;
    this.#line += 1;
    return source.slice(found + (wide ? 2 : 1));
  }
}

class Batch implements RecordBatch {
  rows: string[][] = [];
  readonly lines: number[] = [];
  readonly faults = new Map<number, QuoteFault>();
  longCells = false;
  readonly tooLong: { line: number; start: string }[] = [];

  addLines(rows: string[][], line: number): number {
    if (this.rows.length === 0) this.rows = rows;
    else for (const row of rows) this.rows.push(row);
    for (let count = rows.length; count > 0; count -= 1) this.lines.push(line++);
    return line;
  }

  addRecord(cells: string[], line: number, fault: QuoteFault | undefined): void {
    if (fault) this.faults.set(this.rows.length, fault);
    this.rows.push(cells);
    this.lines.push(line);
  }
}

/** Where the last whole line of a text without quotation marks ends. A final CR may be half of a CRLF, and waits. */
function lastLineEnd(source: string, from: number, last: boolean): number {
  if (last) return source.length;
  const lineFeed = source.lastIndexOf('\n');
  const end = source.endsWith('\r') ? source.length - 1 : source.length;
  for (let at = end - 1; at > Math.max(lineFeed, from - 1); at -= 1) if (source.charCodeAt(at) === 13) return at + 1;
  return Math.max(lineFeed + 1, from);
}

/** Where the line that holds `place` starts, not before `from`. */
function lineStart(source: string, place: number, from: number): number {
  let at = place;
  while (at > from && source.charCodeAt(at - 1) !== 10 && source.charCodeAt(at - 1) !== 13) at -= 1;
  return at;
}
