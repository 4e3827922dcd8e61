import type { DecimalMark } from '../../domain/quantity.ts';
import type { Reading } from '../../domain/reading.ts';
import type { CellText, EditField, NewRows, ReadingPatch, ReadingRow } from '../../session/answers.ts';
import { timeText } from './grid-cells.ts';
import type { GridColumn } from './grid-columns.ts';
import type { GridRange } from './grid-cursor.ts';
import type { Block } from './read-block.ts';
import { readingLine } from './reading-text.ts';

/** A field of a reading as a person edits it. */
export function editText(field: EditField, reading: Reading, mark: DecimalMark): string {
  if (field === 'reading') return reading.state === 'blank' ? '' : readingLine(reading, mark);
  return field === 'time' ? timeText(reading) : reading[field];
}

/** The field as it was brought in, where an edit has changed it; undefined where it is as it was. */
export function originalText(field: EditField | undefined, row: ReadingRow, mark: DecimalMark): string | undefined {
  if (field === undefined || row.original === undefined) return undefined;
  const keys: readonly (keyof ReadingPatch)[] =
    field === 'reading' ? ['state', 'value', 'prefix', 'decimals'] : [field];
  const isChanged = keys.some((key) => row.original !== undefined && key in row.original);
  return isChanged ? editText(field, { ...row, ...row.original }, mark) || 'blank' : undefined;
}

/**
 * The cells of a pasted block, from the first cell of the selection on, or by the grid's own headers where its first row
 * holds them. One cell alone fills the selection; what would fall on columns that nobody can edit is passed over. `below`
 * counts the rows that would fall below the last line.
 */
export function pastedBlock(
  block: Block,
  range: GridRange,
  columns: readonly GridColumn[],
  lines: number,
): { readonly cells: readonly CellText[]; readonly below: number } {
  const worded = columns.filter((column, index) => column.id !== 'tape' && index >= range.firstColumn);
  const named = block.length > 1 ? namedColumns(block[0] ?? [], columns) : undefined;
  const fields = (named ?? worded).map((column) => column?.edit);
  const rows = named === undefined ? block : block.slice(1);
  const [only, ...others] = rows;
  if (named === undefined && only?.length === 1 && others.length === 0)
    return { cells: filledCells(only[0] ?? '', range, columns), below: 0 };
  const below = Math.max(0, range.firstRow + rows.length - lines);
  const cells = rows.slice(0, rows.length - below).flatMap((row, index) => {
    const line = range.firstRow + index;
    return row.flatMap((text, at) => {
      const field = fields[at];
      return field === undefined ? [] : [{ first: line, last: line, field, text }];
    });
  });
  return { cells, below };
}

/** The columns that a row of titles names; undefined where it is no such row. */
function namedColumns(
  titles: readonly string[],
  columns: readonly GridColumn[],
): readonly (GridColumn | undefined)[] | undefined {
  const named = titles.map((title) => columns.find((column) => column.title === title));
  const isHeader = titles.every((title, index) => title === '' || named[index] !== undefined);
  return isHeader && named.some((column) => column !== undefined) ? named : undefined;
}

/** A pasted block as new rows, its columns being those of the grid from `column` on where it has no headers. */
export function newRows(
  block: Block,
  columns: readonly GridColumn[],
  column: number,
  like: Reading | undefined,
): NewRows {
  const worded = columns.filter((one, index) => one.id !== 'tape' && index >= column);
  return {
    rows: block,
    columns: worded.map(({ title, edit }) => ({ title, ...(edit && { field: edit }) })),
    ...(like && { like }),
  };
}

/** The texts of a selection's first row for all rows under it, in the columns that can be edited. */
export function filledDown(
  first: ReadingRow,
  range: GridRange,
  columns: readonly GridColumn[],
  mark: DecimalMark,
): readonly CellText[] {
  return columns.slice(range.firstColumn, range.lastColumn + 1).flatMap(({ edit }) => {
    const place = { first: range.firstRow + 1, last: range.lastRow };
    return edit === undefined ? [] : [{ ...place, field: edit, text: editText(edit, first, mark) }];
  });
}

/** One text for all cells of a selection that can be edited. */
export function filledCells(text: string, range: GridRange, columns: readonly GridColumn[]): readonly CellText[] {
  return columns.slice(range.firstColumn, range.lastColumn + 1).flatMap(({ edit }) => {
    return edit === undefined ? [] : [{ first: range.firstRow, last: range.lastRow, field: edit, text }];
  });
}
