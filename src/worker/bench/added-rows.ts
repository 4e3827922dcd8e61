import { LogBuilder } from '../../columns/log-builder.ts';
import { readingAt, type ReadingLog } from '../../columns/reading-log.ts';
import { DAY, isDayOnly } from '../../domain/day.ts';
import type { ColumnUse, FilePlan, Given } from '../../domain/file-plan.ts';
import type { ImportRecord, SetAside } from '../../domain/import-record.ts';
import { formatShown, type DecimalMark } from '../../domain/quantity.ts';
import { MODE_UNITS, type Reading } from '../../domain/reading.ts';
import { fieldOfHeader } from '../../intake/field-names.ts';
import { readFile } from '../../intake/read-file.ts';
import { writeRow } from '../../intake/write-row.ts';
import type { AddAnswer, NewRows } from '../contract/reading-edits.ts';
import type { BenchData } from './bench-data.ts';
import { pieces } from './pieces.ts';
import { planWith } from './plans.ts';
import { NEW_PART } from './reading-edits-cells.ts';

/** Faults and examples told of one block. */
const FAULTS = 200;
const EXAMPLES = 12;
/** The name of the rows' import stands on the first line of their text, so that no two of them are the same bytes. */
const NAME_LINES = 1;
const ROW_NUMBER: ColumnUse = {
  header: 'row',
  field: 'ignored',
  reason: 'counts the rows of the block',
  doubtful: false,
};

/** Rows that were added by hand, as an import of their own. */
export interface AddedRows {
  readonly record: Omit<ImportRecord, 'hash'>;
  readonly plan: FilePlan;
  readonly log: ReadingLog;
  readonly setAside: readonly SetAside[];
  /** The text of the rows, which is their original. */
  readonly bytes: Uint8Array<ArrayBuffer>;
}

/**
 * Reads a block of cells as a file of readings is read. Its first row names the columns where it can; else they are
 * those of the grid, and what has no column is that of the reading beside which it is added.
 * @param name - of the import
 * @param mark - the decimal mark where the block does not show its own
 * @throws Error where the block holds no table
 */
export async function readNewRows(
  data: BenchData,
  name: string,
  rows: NewRows,
  mark: DecimalMark,
): Promise<{ readonly rows: AddedRows; readonly answer: AddAnswer }> {
  const hasHeader = namesColumns(rows);
  const { cells, columns } = withSpecimens(padded(hasHeader ? rows.rows : headed(rows)), rows.columns);
  const guess = planWith(data, name, textOf(cells), true, { encoding: 'utf-8', separator: '\t' });
  if ('refused' in guess) throw new Error(guess.refused);
  const uses = hasHeader ? guess.columns : columns.map(gridColumn);
  if (!uses.some(({ field }) => field === 'reading'))
    throw new Error('No column of the block holds readings: paste it from the column of readings on, or with its headers.'); // prettier-ignore
  const given = givenBy(rows.like, uses);
  const open = (about: string): string | undefined => guess.questions.find((one) => one.about === about)?.text;
  const marks = open('decimal mark');
  const days = open('date order');
  const plan: FilePlan = {
    ...guess,
    shape: 'readings',
    headerLine: NAME_LINES + (hasHeader ? guess.headerLine : 1),
    unitsLine: hasHeader && guess.unitsLine,
    columns: [ROW_NUMBER, ...uses.map((use) => (given.mode === undefined ? use : withPrefix(use, rows.like!)))],
    decimalMark: marks === undefined ? guess.decimalMark : mark,
    dateOrder: days === undefined ? guess.dateOrder : 'year-month-day',
    given,
    questions: [],
  };
  const { lines, numbers } = numbered(cells, hasHeader ? 1 : 0);
  const bytes = named(name, textOf(lines));
  const contents = await readFile({ name, size: bytes.length, bytes: pieces(bytes) }, plan);
  if (contents.shape !== 'readings') throw new Error('The block holds no readings.');
  const { log, setAside, setAsideRows, taken, noData, rows: count } = contents;
  const record = { ...recordOf(name, plan), rows: count, taken, setAside: setAsideRows, noData, notices: [] };
  return {
    rows: { record, plan, log, setAside, bytes },
    answer: {
      added: log.count,
      setAside: setAsideRows,
      hasHeader,
      columns: uses.filter(({ field }) => field !== 'ignored').map(({ header, field }) => ({ header, field })),
      given,
      doubts: [
        ...(marks === undefined ? [] : [`${marks} It is read with the decimal mark “${mark}”.`]),
        ...(days === undefined ? [] : [`${days} Only days written as year-month-day are read here.`]),
      ],
      faults: setAside.slice(0, FAULTS).map(({ line, column, reason }) => {
        return { row: numbers[line - NAME_LINES - 1] ?? 0, column, fault: reason };
      }),
      examples: Array.from({ length: Math.min(EXAMPLES, log.count) }, (_, row) => readingAt(log, row)),
    },
  };
}

/** Some readings of a log once more, exactly as they are there. */
export function copiedRows(name: string, log: ReadingLog, rows: Uint32Array): AddedRows {
  const builder = new LogBuilder(undefined, rows.length);
  const texts: (readonly string[])[] = [COPIED.map(([header]) => header)];
  rows.forEach((row, index) => {
    const reading = readingAt(log, row);
    builder.add({ ...reading, origin: { file: name, line: NAME_LINES + 2 + index } });
    texts.push(COPIED.map(([, textOfField]) => textOfField(reading)));
  });
  const plan: FilePlan = {
    encoding: 'utf-8',
    separator: '\t',
    shape: 'readings',
    headerLine: NAME_LINES + 1,
    unitsLine: false,
    columns: COPIED.map(([title]) => gridColumn({ title, field: title })),
    decimalMark: '.',
    dateOrder: 'year-month-day',
    given: {},
    questions: [],
  };
  const count = rows.length;
  const notices = ['Copies of readings that were here already.'];
  const record = { ...recordOf(name, plan), rows: count, taken: count, setAside: 0, noData: NAME_LINES + 1, notices };
  return { record, plan, log: builder.finish(), setAside: [], bytes: named(name, textOf(texts)) };
}

/** A name for rows added at a moment that no import has yet. @param when - local wall time in milliseconds, counted as if UTC */
export function addedName(data: BenchData, when: number): string {
  const name = `added by hand ${new Date(when).toISOString().slice(0, 19).replace('T', ' ').replaceAll(':', '.')}`;
  const taken = new Set([...data.imports.map(({ file }) => file), ...data.withheld.keys()]);
  let free = name;
  for (let number = 2; taken.has(free); number += 1) free = `${name} (${number})`;
  return free;
}

/** The fields of a copy's text. */
const COPIED = [
  ['time', ({ time }) => (Number.isNaN(time) ? '' : new Date(time).toISOString().slice(0, isDayOnly(time) ? 10 : -1))],
  ['repair', ({ repair }) => repair],
  ['family', ({ family }) => family],
  ['point', ({ point }) => point],
  ['stage', ({ stage }) => stage],
  ['mode', ({ mode }) => mode],
  ['specimen', ({ specimen }) => specimen],
  ['reading', readingText],
  ['meter', ({ meter }) => meter],
] as const satisfies readonly (readonly [string, (reading: Reading) => string])[];

function readingText(reading: Reading): string {
  const { state, value, mode } = reading;
  if (state !== 'value') return state === 'over-range' ? 'OL' : state === 'blank' ? '' : state;
  const { number, unit } = formatShown(value, MODE_UNITS[mode], reading, '.');
  return `${number} ${unit}`;
}

/** Whether the first row of a block names its columns: by the grid's own titles, or by two names of fields or more. */
function namesColumns({ rows, columns }: NewRows): boolean {
  const [first = [], ...others] = rows;
  if (others.length === 0) return false;
  const filled = first.filter((cell) => cell.trim() !== '');
  const titles = columns.map(({ title }) => title);
  if (filled.length > 0 && first.every((cell, index) => cell === (titles[index] ?? ''))) return true;
  const fields = filled.filter((cell) => fieldOfHeader(cell) !== undefined);
  return fields.length >= 2 || (fields.length === 1 && filled.length === 1);
}

/** A block under the titles of the grid. */
function headed({ rows, columns }: NewRows): readonly (readonly string[])[] {
  return [columns.map(({ title }) => title), ...rows];
}

/** Rows of one length. Cells are kept on one line each, so that a row of the block is a line of the text. */
function padded(rows: readonly (readonly string[])[]): string[][] {
  const width = rows.slice(1).reduce((most, row) => Math.max(most, row.length), 0);
  return rows.map((row) => Array.from({ length: width }, (_, index) => (row[index] ?? '').replaceAll(/[\r\n]+/g, ' ')));
}

/**
 * Rows with the number that each has in its block before it, so that none passes for a note or a footer; blank ones are
 * left out. `numbers` holds those of all lines.
 */
function numbered(cells: readonly (readonly string[])[], first: number) {
  const [header = [], ...rows] = cells;
  const filled = [...rows.entries()].filter(([, row]) => row.some((cell) => cell.trim() !== ''));
  const numbers = [first, ...filled.map(([index]) => first + index + 1)];
  return { lines: [[ROW_NUMBER.header, ...header], ...filled.map(([index, row]) => [`${first + index + 1}`, ...row])], numbers }; // prettier-ignore
}

/** The grid says of a new part in the cell of its point that it is one: that becomes a column of its own. */
function withSpecimens(cells: readonly string[][], columns: NewRows['columns']) {
  const [header = [], ...rows] = cells;
  const fields = header.map((title) => fieldOfHeader(title));
  const point = fields.indexOf('point');
  const kept = header.map((title, index) => columns[index] ?? { title });
  if (point < 0 || fields.includes('specimen') || !rows.some((row) => NEW_PART.test(row[point] ?? '')))
    return { cells, columns: kept };
  const split = rows.map((row) => {
    const text = row[point] ?? '';
    return [...row.with(point, text.replace(NEW_PART, '')), NEW_PART.test(text) ? 'new part' : 'board'];
  });
  const specimen = { title: 'specimen', field: 'specimen' } as const;
  return { cells: [[...header, specimen.title], ...split], columns: [...kept, specimen] };
}

function gridColumn({ title, field }: NewRows['columns'][number]): ColumnUse {
  const use = { header: title, reason: 'stands in this column of the grid', doubtful: false };
  return { ...use, field: field ?? 'ignored' };
}

/** What the reading beside a block says for columns that the block does not have. */
function givenBy(like: Reading | undefined, columns: readonly ColumnUse[]): Given {
  if (like === undefined) return {};
  const has = (field: ColumnUse['field']): boolean => columns.some((use) => use.field === field);
  const day = Math.floor(like.time / DAY) * DAY;
  return {
    ...(!has('repair') && { repair: like.repair, ...(!has('family') && { family: like.family }) }),
    ...(!has('point') && { point: like.point, ...(!has('specimen') && { specimen: like.specimen }) }),
    ...(!has('point') && !has('mode') && !has('unit') && { mode: like.mode }),
    ...(!has('stage') && { stage: like.stage }),
    ...(!has('meter') && { meter: like.meter }),
    ...((has('time') || has('clock')) && !Number.isNaN(day) && { start: day }),
  };
}

/** A number without a unit has the prefix of the reading beside it, as in a cell that is edited. */
function withPrefix(use: ColumnUse, { state, prefix }: Reading): ColumnUse {
  return use.field === 'reading' && use.prefix === undefined && state === 'value' ? { ...use, prefix } : use;
}

function recordOf(file: string, { shape, encoding, separator }: FilePlan) {
  return { file, shape, encoding, separator, known: 0 };
}

function textOf(rows: readonly (readonly string[])[]): Uint8Array<ArrayBuffer> {
  return new TextEncoder().encode(rows.map((cells) => `${writeRow(cells, '\t')}\n`).join(''));
}

function named(name: string, text: Uint8Array): Uint8Array<ArrayBuffer> {
  const line = new TextEncoder().encode(`${name}\n`);
  const bytes = new Uint8Array(line.length + text.length);
  bytes.set(line);
  bytes.set(text, line.length);
  return bytes;
}
