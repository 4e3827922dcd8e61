import type { DecimalMark } from '../domain/quantity.ts';
import { fieldOfHeader } from './field-names.ts';
import { isBlankRecord, isComment, type HeadRecord } from './head-table.ts';
import { QuantityScanner } from './quantity-scanner.ts';
import { TimeScanner } from './time-scanner.ts';
import { parseUnit } from './unit-text.ts';
import { stateOfWord } from './state-words.ts';

/** Where a file's table stands: its header, its line of units, its rows. */
export interface TablePlace {
  /** Physical line of the header; 0 where there is none. */
  readonly headerLine: number;
  readonly header: readonly string[];
  readonly units: readonly string[] | undefined;
  readonly rows: readonly HeadRecord[];
}

const OTHER_UNITS = new Set([
  's',
  'ms',
  'min',
  'h',
  'sec',
  'hz',
  'khz',
  '°c',
  '°f',
  'k',
  '%',
  'date',
  'time',
  '-',
  'hh:mm:ss',
  'yyyy-mm-dd',
]);

/** Finds the table: its header is the last row of words above the first row that holds a number or a time. */
export function findTable(records: readonly HeadRecord[], width: number, stated: boolean): TablePlace {
  const filled = records.slice(stated ? 1 : 0).filter(({ cells }) => !isBlankRecord(cells));
  const lines = filled.filter(({ cells }) => !isComment(cells));
  const wide = lines.filter(({ cells }) => cells.length >= width);
  const firstData = wide.findIndex(({ cells }) => isData(cells));
  const above = wide.slice(0, firstData < 0 ? Math.min(1, wide.length) : firstData);
  const units = above.length > 1 && isUnits(above.at(-1)!.cells) ? above.at(-1) : undefined;
  const header = named(above.slice(0, units ? -1 : undefined), wide) ?? commentHeader(filled, wide[0], width);
  if (!header) return { headerLine: 0, header: [], units: undefined, rows: lines };
  const start = units?.line ?? header.line;
  return {
    headerLine: header.line,
    header: header.cells.map((cell) => cell.replace(/^#\s*/, '').trim()),
    units: units?.cells,
    rows: lines.filter(({ line }) => line > start),
  };
}

/** The row among those above the data that names the columns: the last one with names of fields, else simply the last. */
function named(above: readonly HeadRecord[], wide: readonly HeadRecord[]): HeadRecord | undefined {
  const fields = above.findLast(({ cells }) => fieldNames(cells) >= 2);
  const last = fields ?? above.at(-1);
  if (last) return isText(last.cells) || fields ? last : undefined;
  const [first, second] = wide;
  return first && second && isUnlike(first.cells, second.cells) ? first : undefined;
}

/** Whether most columns hold a number in one row and words in the other: a header of numbers above rows of words. */
function isUnlike(first: readonly string[], second: readonly string[]): boolean {
  const compared = first.slice(0, 200);
  const unlike = compared.filter((cell, at) => isValue(cell.trim()) !== isValue((second[at] ?? '').trim()));
  return unlike.length > compared.length / 2;
}

/** The last comment line above the rows, where it has as many cells as they. */
function commentHeader(
  filled: readonly HeadRecord[],
  first: HeadRecord | undefined,
  width: number,
): HeadRecord | undefined {
  const last = filled.slice(0, first ? filled.indexOf(first) : 0).at(-1);
  return last && width > 1 && isComment(last.cells) && last.cells.length === width ? last : undefined;
}

function fieldNames(cells: readonly string[]): number {
  return cells.filter((cell) => fieldOfHeader(cell) !== undefined).length;
}

/** Words that can head columns: letters in every cell that is filled, no name twice unless it is a field's. */
function isText(cells: readonly string[]): boolean {
  const words = cells.filter((cell) => cell.trim() !== '');
  if (words.length === 0) return true;
  return new Set(words).size > words.length / 2 && words.every((word) => !isValue(word));
}

/** A row with a number or a time in it; one with two names of fields is a header, whatever else it holds (`12 V`). */
function isData(cells: readonly string[]): boolean {
  if (fieldNames(cells) >= 2) return false;
  return cells.some((cell) => cell.length < 100 && isValue(cell.trim()));
}

const quantity = new QuantityScanner();
const times = new TimeScanner();

/** Whether a cell holds a number, a quantity or a time. */
function isValue(cell: string): boolean {
  if (cell === '' || !/[0-9]/.test(cell) || stateOfWord(cell) === 'blank') return false;
  if (times.scan(cell, 'day-month-year') === undefined || times.scan(cell, 'month-day-year') === undefined) return true;
  return (['.', ','] as const).some(
    (mark: DecimalMark) => quantity.scan(cell, mark, 0) === undefined && !/^[A-Za-z]/.test(cell),
  );
}

function isUnits(cells: readonly string[]): boolean {
  const words = cells.map((cell) => cell.trim()).filter((cell) => cell !== '');
  const known = words.filter((word) => parseUnit(word)?.unit !== undefined).length;
  const others = words.filter((word) => OTHER_UNITS.has(word.replace(/^[[(]|[\])]$/g, '').toLowerCase())).length;
  return known > 0 && known + others >= words.length;
}
