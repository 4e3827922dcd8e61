import type { DecimalMark } from '../../domain/quantity.ts';
import type { Reading } from '../../domain/reading.ts';
import type { CellText, EditField, ReadingPatch, ReadingRow } from '../../session/answers.ts';
import { timeText } from './grid-cells.ts';
import type { GridColumn } from './grid-columns.ts';
import type { GridRange } from './grid-cursor.ts';
import { readBlock } from './read-block.ts';
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
 * The cells of a pasted block, from the first cell of the selection on. One cell alone fills the selection; a line of the
 * grid's own headers is passed over, and so is what would fall on columns that nobody can edit, or below the last line.
 */
export function pastedCells(
  text: string,
  range: GridRange,
  columns: readonly GridColumn[],
  lines: number,
): readonly CellText[] {
  const block = readBlock(text);
  const worded = columns.filter((column, index) => column.id !== 'tape' && index >= range.firstColumn);
  const isHeader = block.length > 1 && (block[0] ?? []).every((cell, index) => cell === worded[index]?.title);
  const rows = isHeader ? block.slice(1) : block;
  const [only, ...others] = rows;
  if (only?.length === 1 && others.length === 0) return filledCells(only[0] ?? '', range, columns);
  return rows.flatMap((cells, row) => {
    const line = range.firstRow + row;
    if (line >= lines) return [];
    return cells.flatMap((cell, index) => {
      const field = worded[index]?.edit;
      return field === undefined ? [] : [{ first: line, last: line, field, text: cell }];
    });
  });
}

/** One text for all cells of a selection that can be edited. */
export function filledCells(text: string, range: GridRange, columns: readonly GridColumn[]): readonly CellText[] {
  return columns.slice(range.firstColumn, range.lastColumn + 1).flatMap(({ edit }) => {
    return edit === undefined ? [] : [{ first: range.firstRow, last: range.lastRow, field: edit, text }];
  });
}
