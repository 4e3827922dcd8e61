import { guardFormula } from '../../domain/formula-guard.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import type { GridLine } from '../../session/answers.ts';
import type { GridColumn } from './grid-columns.ts';
import { groupText, isGroup } from './group-text.ts';

/** How cells are copied: `spreadsheet` with an apostrophe before what another program would take for a formula, `exact` as they read. */
export type CopyManner = 'spreadsheet' | 'exact';

/**
 * Lines as tab-separated text for the clipboard. Columns that say nothing in words are left out; the line of a group fills its first cell.
 */
export function copyText(
  lines: readonly GridLine[],
  columns: readonly GridColumn[],
  mark: DecimalMark,
  manner: CopyManner = 'spreadsheet',
  hasHeaders = true,
): string {
  const worded = columns.filter((column) => column.id !== 'tape');
  const cell = manner === 'exact' ? exactCell : safeCell;
  const texts = lines.map((line) =>
    isGroup(line) ? [cell(groupText(line, mark))] : worded.map((column) => cell(column.text(line, mark))),
  );
  const headers = hasHeaders ? [worded.map((column) => column.title)] : [];
  return [...headers, ...texts].map((cells) => cells.join('\t')).join('\r\n');
}

/** A number with its unit, which may begin with a sign and is still no formula. */
const QUANTITY = /^[+-]?\d+(?:[.,]\d+)?\u00a0\S+$/;

function safeCell(text: string): string {
  const oneLine = text.replaceAll(/[\t\r\n]+/g, ' ');
  return QUANTITY.test(oneLine) ? oneLine : guardFormula(oneLine);
}

/** What would break the lines or the columns, or seem to be guarded, is put in quotes (RFC 4180, 2.6 and 2.7, with tabs for commas). */
function exactCell(text: string): string {
  return /[\t\r\n"]|^'/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
