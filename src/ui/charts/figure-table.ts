import { guardFormula } from '../../domain/formula-guard.ts';

/** A cell: its text, the number behind it where it is one, and where it leads. */
export interface FigureCell {
  readonly text: string;
  readonly value?: number;
  readonly href?: string | undefined;
}

/** The numbers of a figure. */
export interface FigureTable {
  /** What the rows are and of how many. */
  readonly caption: string;
  readonly columns: readonly { readonly title: string; readonly number?: boolean }[];
  /** The first cell of each row names it. */
  readonly rows: readonly (readonly (string | FigureCell)[])[];
}

const NEEDS_QUOTES = /[",\r\n]/;

/** A table as CSV: commas, decimal points, numbers unrounded; a text that a spreadsheet would take for a formula gets an apostrophe. */
export function csvText({ columns, rows }: FigureTable): string {
  const lines = [columns.map(({ title }) => textCell(title)), ...rows.map((row) => row.map(csvCell))];
  return `${lines.map((cells) => cells.join(',')).join('\r\n')}\r\n`;
}

function csvCell(cell: string | FigureCell): string {
  if (typeof cell === 'string') return textCell(cell);
  return cell.value !== undefined && Number.isFinite(cell.value) ? String(cell.value) : textCell(cell.text);
}

function textCell(text: string): string {
  const safe = guardFormula(text);
  return NEEDS_QUOTES.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
