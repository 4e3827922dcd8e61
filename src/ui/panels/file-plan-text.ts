import type { DateOrder, Encoding, FilePlan, Given, Question, Separator } from '../../domain/file-plan.ts';
import type { Shape } from '../../domain/import-record.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import { MODES, SPECIMENS, STAGES } from '../../domain/reading.ts';
import type { FileLine } from '../../session/waiting-file.ts';

export const ENCODING_NAMES: Readonly<Record<Encoding, string>> = {
  'utf-8': 'UTF-8',
  'utf-16le': 'UTF-16 LE',
  'utf-16be': 'UTF-16 BE',
  'windows-1252': 'Western, Windows-1252',
  'iso-8859-15': 'Western, ISO 8859-15',
  macintosh: 'Western, Mac Roman',
  'windows-1250': 'Central European, Windows-1250',
  'iso-8859-2': 'Central European, ISO 8859-2',
  'windows-1257': 'Baltic, Windows-1257',
  'windows-1251': 'Cyrillic, Windows-1251',
  'iso-8859-5': 'Cyrillic, ISO 8859-5',
  'koi8-r': 'Cyrillic, KOI8-R',
  ibm866: 'Cyrillic, DOS 866',
  'windows-1253': 'Greek, Windows-1253',
  'iso-8859-7': 'Greek, ISO 8859-7',
  'windows-1254': 'Turkish, Windows-1254',
  'windows-1255': 'Hebrew, Windows-1255',
  'windows-1256': 'Arabic, Windows-1256',
  gb18030: 'Chinese, GB 18030',
  big5: 'Chinese, Big5',
  shift_jis: 'Japanese, Shift JIS',
  'euc-jp': 'Japanese, EUC-JP',
  'euc-kr': 'Korean, EUC-KR',
};

export const SEPARATOR_NAMES: Readonly<Record<Separator, string>> = {
  ',': 'comma',
  ';': 'semicolon',
  '\t': 'tab',
  '|': 'bar',
};

export const SHAPE_NAMES: Readonly<Record<Shape, string>> = {
  readings: 'readings',
  repairs: 'repairs',
  bands: 'bands',
  meters: 'meters',
  unknown: 'nothing known',
};

export const MARK_NAMES: Readonly<Record<DecimalMark, string>> = { '.': 'point, 12.5', ',': 'comma, 12,5' };

export const ORDER_NAMES: Readonly<Record<DateOrder, string>> = {
  'year-month-day': 'year, month, day',
  'day-month-year': 'day, month, year',
  'month-day-year': 'month, day, year',
};

export const GIVEN_NAMES: Readonly<Record<keyof Given, string>> = {
  repair: 'repair',
  family: 'family',
  point: 'point',
  stage: 'stage',
  mode: 'mode',
  specimen: 'specimen',
  meter: 'meter',
  start: 'start',
};

/** The words that may be stated, where they are few. */
export const GIVEN_LISTS: Partial<Readonly<Record<keyof Given, readonly string[]>>> = {
  stage: STAGES,
  mode: MODES,
  specimen: SPECIMENS,
};

const MONTHS = [
  'January', 'February', 'March', 'April', 'May', 'June', 'July', 'August', 'September', 'October', 'November', 'December',
]; // prettier-ignore

/** One of the plain answers to a question, and what it settles. */
export interface Choice {
  readonly text: string;
  readonly marks: Partial<Pick<FilePlan, 'decimalMark' | 'dateOrder'>>;
}

/** The answers to a question that has exactly two; none for the others, which are answered by filling in. */
export function choicesOf({ about, text }: Question): readonly Choice[] {
  const example = /“([^”]+)”/.exec(text)?.[1];
  if (about === 'decimal mark') {
    return (['.', ','] as const).map((mark) => ({
      text: markChoice(mark, example),
      marks: { decimalMark: mark },
    }));
  }
  if (about === 'date order') {
    return (['day-month-year', 'month-day-year'] as const).map((order) => ({
      text: orderChoice(order, example),
      marks: { dateOrder: order },
    }));
  }
  return [];
}

function markChoice(mark: DecimalMark, example: string | undefined): string {
  const name = mark === ',' ? 'comma' : 'point';
  if (example === undefined) return `The ${name} starts the decimals.`;
  const other = mark === ',' ? '.' : ',';
  const number = Number(
    example
      .replaceAll(/[\s’']/gu, '')
      .replaceAll(other, '')
      .replace(mark, '.'),
  );
  const meaning = Number.isNaN(number) ? '' : ` ${example} is ${String(number).replace('.', mark)}.`;
  return example.includes(mark) ? `The ${name} starts the decimals:${meaning}` : `It groups thousands:${meaning}`;
}

function orderChoice(order: DateOrder, example: string | undefined): string {
  const isDayFirst = order === 'day-month-year';
  const first = isDayFirst ? 'day' : 'month';
  const numbers = /^\D*(\d{1,2})\D+(\d{1,2})/.exec(example ?? '');
  if (numbers === null) return `The ${first} comes first.`;
  const [day, month] = isDayFirst ? [numbers[1], numbers[2]] : [numbers[2], numbers[1]];
  const name = MONTHS[Number(month) - 1];
  return name === undefined ? `The ${first} comes first.` : `The ${first} comes first: ${Number(day)} ${name}.`;
}

const LONGEST_LINE = 70;

/** A line of a file as one of those among which the header is chosen. */
export function lineText({ line, cells }: FileLine): string {
  const text = cells.map((cell) => cell.trim()).join(' · ');
  return `line ${line}: ${text.length > LONGEST_LINE ? `${text.slice(0, LONGEST_LINE)}…` : text}`;
}

/** A moment of local wall time as its input writes it; a day alone where `isDay`. */
export function startText(start: number | undefined, isDay: boolean): string {
  return start === undefined ? '' : new Date(start).toISOString().slice(0, isDay ? 10 : 16);
}

/** What such an input says, in milliseconds counted as if UTC; undefined where it is empty. */
export function readStart(text: string): number | undefined {
  const time = Date.parse(text.length === 10 ? `${text}T00:00Z` : `${text}Z`);
  return Number.isNaN(time) ? undefined : time;
}
