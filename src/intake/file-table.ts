import { countText } from '../domain/count-text.ts';
import type { FilePlan } from '../domain/file-plan.ts';
import type { DecimalMark } from '../domain/quantity.ts';
import { MAX_CELL, MAX_COLUMNS } from './caps.ts';
import { detached } from './detached.ts';
import { columnText } from './fault.ts';
import type { FileCounts, NoDataKind } from './file-contents.ts';
import { fieldOfHeader } from './field-names.ts';
import type { RecordBatch } from './record-reader.ts';
import type { RowTaker } from './row-taker.ts';
import { SetAsideList } from './set-aside-list.ts';
import { isSummaryWord } from './words.ts';

/** Lines of one cell, kept until it is known whether they end the file or stand amid its rows. */
const MOST_FOOTER_LINES = 50;

/** Tells the rows of a file's table from its other lines, hands the rows to their taker, and counts every line. */
export class FileTable {
  readonly #plan: FilePlan;
  readonly #taker: RowTaker;
  readonly #setAside: SetAsideList;
  readonly #width: number;
  readonly #kinds: Record<NoDataKind, number> = {
    blank: 0,
    preamble: 0,
    header: 0,
    'repeated header': 0,
    units: 0,
    comment: 0,
    footer: 0,
  };
  readonly #header: readonly string[];
  readonly #preamble: string[] = [];
  readonly #footers: { line: number; cells: readonly string[] }[] = [];
  readonly #looseQuotes: number[] = [];
  #unitCells: readonly string[] = [];
  #awaitsUnits: boolean;
  #taken = 0;
  #otherTable = 0;
  #afterBlank = false;
  #last: readonly string[] = [];

  constructor(file: string, plan: FilePlan, taker: RowTaker) {
    this.#plan = plan;
    this.#taker = taker;
    this.#setAside = new SetAsideList(file, plan.separator);
    this.#width = plan.columns.length;
    this.#header = plan.columns.map((column) => column.header.trim());
    this.#awaitsUnits = plan.unitsLine;
  }

  /** Rows of data so far. */
  get rows(): number {
    return this.#taken + this.#setAside.count + this.#footers.length;
  }

  add(batch: RecordBatch): void {
    const { rows, lines, faults } = batch;
    for (let at = 0; at < rows.length; at += 1) {
      const cells = rows[at]!;
      const line = lines[at]!;
      if (line <= this.#plan.headerLine || this.#awaitsUnits) {
        this.#addAbove(cells, line);
        continue;
      }
      if (cells.length === 1 && cells[0] === '') {
        this.#kinds.blank += 1;
        this.#afterBlank = true;
        continue;
      }
      const fault = faults.size > 0 ? faults.get(at) : undefined;
      if (fault === 'loose') this.#looseQuotes.push(line);
      if (fault === 'unclosed') this.#reject(line, '', cells, UNCLOSED);
      else if (batch.longCells && cells.some((cell) => cell.length > MAX_CELL))
        this.#reject(line, '', cells, LONG_CELL);
      else if (this.#otherTable === 0 && cells.length === this.#width && this.#taker.take(cells, line)) this.#accept();
      else this.#addOdd(cells, line);
      this.#afterBlank = false;
      if (at === rows.length - 1) this.#last = cells;
    }
    for (const { line, start } of batch.tooLong) this.#reject(line, '', [start], LONG_ROW);
  }

  /** The counts, once all records are in. @param endsWithLineEnd - whether the file's last line is a whole one */
  finish(endsWithLineEnd: boolean): FileCounts {
    if (this.#otherTable > 0 || this.#footers.length > MOST_FOOTER_LINES) this.#releaseFooters();
    this.#kinds.footer += this.#footers.length;
    const before = this.#setAside.count;
    this.#taker.finish?.(this.#setAside);
    const taken = this.#taken - (this.#setAside.count - before);
    const kinds = { ...this.#kinds };
    return {
      rows: taken + this.#setAside.count,
      taken,
      setAsideRows: this.#setAside.count,
      noData: Object.values(kinds).reduce((sum, count) => sum + count, 0),
      noDataKinds: kinds,
      setAside: this.#setAside.kept,
      notices: [...this.#notices(endsWithLineEnd), ...(this.#taker.notices?.() ?? [])],
    };
  }

  #addAbove(cells: readonly string[], line: number): void {
    if (line === this.#plan.headerLine) this.#kinds.header += 1;
    else if (isBlankRow(cells)) this.#kinds.blank += 1;
    else if (line > this.#plan.headerLine) {
      this.#kinds.units += 1;
      this.#unitCells = cells;
      this.#taker.useUnits?.(cells);
      this.#awaitsUnits = false;
    } else {
      this.#kinds[cells[0]!.startsWith('#') ? 'comment' : 'preamble'] += 1;
      if (this.#preamble.length < 5) this.#preamble.push(detached(cells.join(' ').trim().slice(0, 120)));
    }
  }

  /** A row that is not one of the table's usual ones: no data after all, or set aside with a reason. */
  #addOdd(cells: readonly string[], line: number): void {
    if (isBlankRow(cells)) {
      this.#kinds.blank += 1;
      return;
    }
    if (this.#isHeader(cells)) {
      this.#kinds['repeated header'] += 1;
      this.#otherTable = 0;
      return;
    }
    if (this.#otherTable > 0) {
      this.#reject(
        line,
        '',
        cells,
        `This row stands under another header, on line ${this.#otherTable}. Save that table as a file of its own.`,
      );
      return;
    }
    const first = cells.find((cell) => cell.trim() !== '') ?? '';
    if (first.trimStart().startsWith('#')) this.#kinds.comment += 1;
    else if (this.#isUnitsAgain(cells)) this.#kinds.units += 1;
    else if (isSummaryWord(first)) this.#kinds.footer += 1;
    else if (this.#looksLikeHeader(cells)) {
      this.#otherTable = line;
      this.#reject(
        line,
        '',
        cells,
        'This line looks like the header of another table. Save that table as a file of its own.',
      );
    } else if (
      this.#width > 2 &&
      cells.filter((cell) => cell.trim() !== '').length === 1 &&
      this.#footers.length <= MOST_FOOTER_LINES
    ) {
      this.#footers.push({ line, cells });
    } else this.#addUneven(cells, line);
  }

  #addUneven(cells: readonly string[], line: number): void {
    const width = this.#width;
    const missing = this.#plan.columns.slice(cells.length);
    if (cells.length > width && cells.slice(width).some((cell) => cell.trim() !== '')) {
      const reason = `This row has ${cells.length} cells where the header has ${width}. Look for a separator inside a cell, and put that cell in quotation marks.`;
      this.#reject(line, '', cells, cells.length > MAX_COLUMNS ? MANY_COLUMNS : reason);
    } else if (missing.some((column) => column.field !== 'ignored' || column.header.trim() !== '')) {
      const first = columnText(missing[0]!.header, cells.length);
      const reason = `This row has ${cells.length} of ${width} cells and ends before ${first}. Fill in what is missing, or let the row go.`;
      this.#reject(line, missing[0]!.header, cells, reason);
    } else if (cells.length === width) {
      this.#reject(line, this.#taker.faultColumn, cells, this.#taker.fault);
    } else {
      const even = cells.length > width ? cells.slice(0, width) : [...cells, ...missing.map(() => '')];
      if (this.#taker.take(even, line)) this.#accept();
      else this.#reject(line, this.#taker.faultColumn, cells, this.#taker.fault);
    }
  }

  #accept(): void {
    this.#taken += 1;
    if (this.#footers.length > 0) this.#releaseFooters();
  }

  #reject(line: number, column: string, cells: readonly string[], reason: string): void {
    if (this.#footers.length > 0) this.#releaseFooters();
    this.#setAside.add(line, column, cells, reason);
  }

  /** Lines of one cell that turned out to stand amid the rows. */
  #releaseFooters(): void {
    for (const { line, cells } of this.#footers)
      this.#setAside.add(line, '', cells, 'This line holds a single cell. Fill in the row, or let it go.');
    this.#footers.length = 0;
  }

  #isHeader(cells: readonly string[]): boolean {
    if (this.#plan.headerLine === 0 || cells.length !== this.#width) return false;
    return cells.every((cell, at) => cell.trim() === this.#header[at]);
  }

  #isUnitsAgain(cells: readonly string[]): boolean {
    return (
      this.#unitCells.length > 0 &&
      cells.length === this.#unitCells.length &&
      cells.every((cell, at) => cell === this.#unitCells[at])
    );
  }

  /** Words without a digit in two cells or more, after a blank line or named like fields. */
  #looksLikeHeader(cells: readonly string[]): boolean {
    const words = cells.filter((cell) => cell.trim() !== '');
    if (words.length < 2 || words.length < cells.length || words.some((cell) => /\d/.test(cell.slice(0, 200))))
      return false;
    return this.#afterBlank || words.filter((cell) => fieldOfHeader(cell) !== undefined).length >= 2;
  }

  #notices(endsWithLineEnd: boolean): string[] {
    const notices: string[] = [];
    if (this.#kinds.header > 0 && this.rows === 0) notices.push('The file has a header and no rows under it.');
    if (this.#preamble.length > 0)
      notices.push(`Above the table stood: ${this.#preamble.map((text) => `“${text}”`).join(' · ')}.`);
    if (this.#looseQuotes.length > 0) {
      notices.push(
        `Quotation marks inside cells are not doubled on ${lineList(this.#looseQuotes, this.#plan.decimalMark)}; they were kept as text.`,
      );
    }
    const last = this.#last;
    if (!endsWithLineEnd && last.length > 0 && (last.length < this.#width || (last.length > 1 && last.at(-1) === ''))) {
      notices.push('The file ends in the middle of a line: it may be cut off. Compare its end with the original.');
    }
    return notices;
  }
}

const UNCLOSED = 'A quotation mark opens a cell of this line, and none closes it. Remove it, or close the cell.';
const LONG_CELL = `A cell of this row is longer than ${MAX_CELL.toLocaleString('en')} characters. Shorten it, or let the row go.`;
const LONG_ROW = 'This line is too long to be a row. Look for missing line ends.';
const MANY_COLUMNS = `This row has more than ${MAX_COLUMNS.toLocaleString('en')} cells. Look for missing line ends.`;

function isBlankRow(cells: readonly string[]): boolean {
  return cells.every((cell) => cell.trim() === '');
}

function lineList(lines: readonly number[], mark: DecimalMark): string {
  const shown = lines.slice(0, 5).join(', ');
  return lines.length === 1
    ? `line ${shown}`
    : `lines ${shown}${lines.length > 5 ? ` and ${countText(lines.length - 5, mark)} more` : ''}`;
}
