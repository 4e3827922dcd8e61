import Papa from 'papaparse';
import type { Separator } from '../domain/file-plan.ts';

/** papaparse's low-level parser: exported, though its types leave it out. */
interface RowParser {
  parse(input: string, baseIndex: number, ignoreLastRow: boolean): { data: string[][] };
}

const { Parser } = Papa as unknown as { Parser: new (config: { delimiter: string; newline: string }) => RowParser };

/** Splits text without quotation marks into lines and cells. */
export class CellSplitter {
  readonly #parser: RowParser;

  constructor(separator: Separator) {
    this.#parser = new Parser({ delimiter: separator, newline: '\n' });
  }

  /** The cells of each line; CR, LF and CRLF each end a line, and a final line end opens no further one. */
  split(text: string): string[][] {
    if (text === '') return [];
    const lines = text.includes('\r') ? text.replace(/\r\n?/g, '\n') : text;
    return this.#parser.parse(lines, 0, lines.endsWith('\n')).data;
  }
}
