import type { ColumnUse, Encoding, FilePlan, Question, Separator } from '../domain/file-plan.ts';
import type { Shape } from '../domain/import-record.ts';
import { MAX_COLUMNS, MAX_HEADER } from './caps.ts';
import { columnValues } from './column-values.ts';
import { findTable, type TablePlace } from './find-header.ts';
import { guessColumns } from './guess-columns.ts';
import { guessDateOrder, guessDecimalMark } from './guess-marks.ts';
import { guessSeparator } from './guess-separator.ts';
import { headRecords } from './head-table.ts';
import { headerSignature } from './header-signature.ts';
import { oddWord } from './odd-word.ts';
import { questionsOf } from './questions.ts';
import { refusalOf } from './refuse-file.ts';
import { sniffEncoding } from './sniff-encoding.ts';
import { FileDecoder } from './text-decoder.ts';

export { headerSignature };

/** Why a file cannot be read, as a sentence that names what it is and what to do. */
export interface Refusal {
  readonly refused: string;
}

/** Rows whose numbers and days are looked at, and records among which the table is looked for. */
const MOST_ROWS = 1000;
const MOST_RECORDS = 2000;

/** Choices of the technician that stand in place of guesses. */
export interface Choices {
  readonly encoding?: Encoding;
  readonly separator?: Separator;
}

/**
 * Guesses how a file is to be read from its beginning.
 * @param head - the first 256 kB of its bytes, or all of them
 * @param atEnd - whether `head` is the whole file
 * @param remembered - the columns that the technician chose for an earlier file with the same header
 * @param choices - encoding and separator where the technician has chosen them
 */
export function planFile(
  name: string,
  head: Uint8Array,
  atEnd: boolean,
  remembered?: (signature: string) => readonly ColumnUse[] | undefined,
  choices: Choices = {},
): FilePlan | Refusal {
  const encoding = choices.encoding ?? sniffEncoding(head, atEnd).encoding;
  const text = new FileDecoder(encoding).decode(head);
  const refused = refusalOf(name, head, text);
  if (refused !== undefined) return { refused };
  const guess = guessSeparator(text, atEnd);
  const separator = choices.separator ?? guess.separator;
  const records = headRecords(text, separator, atEnd);
  const size = sizeFault(name, text, separator, records.length);
  if (size !== undefined) return { refused: size };
  const width = choices.separator === undefined ? guess.width : commonWidth(records.map(({ cells }) => cells.length));
  const table = findTable(records.slice(0, MOST_RECORDS), width, guess.stated);
  if (table.rows.length === 0 && table.headerLine === 0)
    return { refused: `“${name}” holds no table: it has no rows. Save the table in it as CSV, and choose that file.` };
  if (table.header.length > MAX_COLUMNS) return { refused: manyColumns(name, table.header.length) };
  const odd = encoding === 'windows-1252' && choices.encoding === undefined ? oddWord(text) : undefined;
  return planTable(encoding, separator, table, width, odd, remembered);
}

function planTable(
  encoding: Encoding,
  separator: Separator,
  table: TablePlace,
  width: number,
  odd: string | undefined,
  remembered: ((signature: string) => readonly ColumnUse[] | undefined) | undefined,
): FilePlan {
  const header = table.headerLine > 0 ? table.header : Array.from({ length: width }, () => '');
  const guess = guessColumns(header, table.units, columnValues(table.rows, header.length));
  const known = remembered?.(headerSignature(guess.columns));
  const columns = known?.length === guess.columns.length ? known : guess.columns;
  const shape = columns === known ? shapeOf(columns) : guess.shape;
  const cellsOf = (fields: readonly string[]): string[] =>
    table.rows
      .slice(0, MOST_ROWS)
      .flatMap(({ cells }) => columns.flatMap((use, at) => (fields.includes(use.field) ? [cells[at] ?? ''] : [])));
  const mark = guessDecimalMark(
    cellsOf(
      shape === 'unknown'
        ? ['ignored']
        : ['reading', 'elapsed', 'low', 'high', 'nominal', 'percent', 'range limit', 'resolution'],
    ),
    separator,
  );
  const order = guessDateOrder(
    cellsOf(
      shape === 'unknown'
        ? ['time', 'date', 'ignored']
        : ['time', 'date', 'received', 'returned', 'set on', 'calibration due'],
    ),
  );
  const plan = {
    encoding,
    separator,
    shape,
    headerLine: table.headerLine,
    unitsLine: table.units !== undefined,
    columns,
    decimalMark: mark.choice,
    dateOrder: order.choice,
    given: {},
  };
  const questions: Question[] = questionsOf(plan, mark, order, columns === known, odd);
  return { ...plan, questions };
}

/** The shape that chosen columns make. */
function shapeOf(columns: readonly ColumnUse[]): Shape {
  const has = (...fields: string[]): boolean => columns.some((use) => fields.includes(use.field));
  if (has('kind', 'low', 'high', 'nominal')) return 'bands';
  if (has('reading')) return 'readings';
  if (has('range limit', 'calibration due')) return 'meters';
  if (has('percent')) return 'bands';
  return has('repair') && has('complaint', 'received', 'returned', 'outcome', 'replaced', 'comeback of')
    ? 'repairs'
    : 'unknown';
}

/** Why the first row is too large; the head may end within it. */
function sizeFault(name: string, text: string, separator: Separator, records: number): string | undefined {
  const firstLine = /^[^\r\n]*/.exec(text)![0];
  const columns = firstLine.split(separator).length;
  if (columns > MAX_COLUMNS) return manyColumns(name, columns);
  if (firstLine.length > MAX_HEADER || (records === 0 && firstLine.length === text.length)) {
    return `“${name}” starts with a line of more than ${firstLine.length.toLocaleString('en')} characters, which no header is. Look for missing line ends, or save it again as CSV.`;
  }
  return undefined;
}

function manyColumns(name: string, columns: number): string {
  return `“${name}” has ${columns.toLocaleString('en')} columns or more, and at most ${MAX_COLUMNS.toLocaleString('en')} are read. Take out the columns that are not needed, and choose it again.`;
}

function commonWidth(counts: readonly number[]): number {
  const uses = new Map<number, number>();
  for (const count of counts) uses.set(count, (uses.get(count) ?? 0) + 1);
  return [...uses].reduce((first, second) => (second[1] > first[1] ? second : first), [1, 0])[0];
}
