/** Rows of cells. */
export type Block = readonly (readonly string[])[];

/**
 * Reads what another program put on the clipboard as rows of cells: lines, parted by tabs; a cell in quotes may hold both
 * (RFC 4180, 2.6 and 2.7, with tabs for commas). An apostrophe before what looks like a formula is taken off again.
 */
export function readBlock(text: string): Block {
  // Without quotes, which most blocks are, this is far quicker.
  if (!text.includes('"')) {
    const lines = text.split(/\r\n|\n|\r/);
    if (lines.length > 1 && lines.at(-1) === '') lines.pop();
    return lines.map((line) => line.split('\t').map(withoutGuard));
  }
  const rows: string[][] = [[]];
  const cell = /"((?:[^"]|"")*)"(?=\t|\r?\n|$)|[^\t\r\n]*/y;
  let at = 0;
  while (at <= text.length) {
    cell.lastIndex = at;
    const found = cell.exec(text);
    if (found === null) break;
    const [whole, quoted] = found;
    rows.at(-1)?.push(quoted === undefined ? withoutGuard(whole) : quoted.replaceAll('""', '"'));
    at = cell.lastIndex;
    if (text[at] === '\t') at += 1;
    else {
      const end = /\r\n|\n|\r/y;
      end.lastIndex = at;
      const line = end.exec(text);
      if (line === null) break;
      at = end.lastIndex;
      // What ends in a line's end has no line behind it.
      if (at === text.length) break;
      rows.push([]);
    }
  }
  return rows;
}

function withoutGuard(cell: string): string {
  return cell.startsWith("'") && /^'+\s*[=+\-@\0＝＋－＠]/.test(cell) ? cell.slice(1) : cell;
}
