import type { DecimalMark } from '../../domain/quantity.ts';
import type { ReadingRow } from '../../session/answers.ts';
import type { GridColumn } from './grid-columns.ts';

/**
 * Rows as tab-separated text with a line of headers, for the clipboard. Columns that say nothing in words are left out.
 * Cells that a spreadsheet program would take for a formula get an apostrophe before them.
 * Source of the first characters: OWASP, CSV Injection.
 */
export function copyText(rows: readonly ReadingRow[], columns: readonly GridColumn[], mark: DecimalMark): string {
  const worded = columns.filter((column) => column.id !== 'tape');
  const lines = rows.map((row) => worded.map((column) => safeCell(column.text(row, mark))));
  return [worded.map((column) => column.title), ...lines].map((cells) => cells.join('\t')).join('\r\n');
}

const FORMULA_START = /^\s*[=+\-@\t\r\n\0＝＋－＠]/;
/** A number with its unit, which may begin with a sign and is still no formula. */
const QUANTITY = /^[+-]?\d+(?:[.,]\d+)?(?:\u00a0\S+)?$/;

function safeCell(text: string): string {
  const oneLine = text.replaceAll(/[\t\r\n]+/g, ' ');
  return FORMULA_START.test(text) && !QUANTITY.test(oneLine) ? `'${oneLine}` : oneLine;
}
