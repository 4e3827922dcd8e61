/**
 * One record as RFC 4180 text without its line end: a cell with a separator, a quotation mark, a line end or outer blanks is quoted.
 * A record of one empty cell is written as `""`, for an empty line would be no record.
 */
export function writeRow(cells: readonly string[], separator: string): string {
  if (cells.length === 1 && cells[0] === '') return '""';
  return cells.map((cell) => (needsQuotes(cell, separator) ? `"${cell.replaceAll('"', '""')}"` : cell)).join(separator);
}

function needsQuotes(cell: string, separator: string): boolean {
  return cell.includes(separator) || /["\r\n]|^\s|\s$/.test(cell);
}
