import type { DecimalMark } from './quantity.ts';
import type { Mode, Specimen, Stage } from './reading.ts';
import type { SetAside, Shape } from './import-record.ts';

/** What a file's column can be read as. `reading` may come from several columns of one row; `ignored` is read as nothing. */
export const FIELDS = [
  'ignored',
  'time',
  'date',
  'clock',
  'elapsed',
  'repair',
  'family',
  'point',
  'stage',
  'mode',
  'specimen',
  'reading',
  'unit',
  'prefix',
  'status',
  'meter',
  'complaint',
  'received',
  'returned',
  'outcome',
  'replaced',
  'comeback of',
  'bench',
  'boost',
  'role',
  'rail',
  'part',
  'nodes',
  'kind',
  'low',
  'high',
  'nominal',
  'percent',
  'basis',
  'author',
  'set on',
  'range limit',
  'resolution',
  'counts',
  'over-range mark',
  'calibration due',
] as const;
export type Field = (typeof FIELDS)[number];

/** How one column of a file is read. */
export interface ColumnUse {
  /** The header's own text; empty where the file has none. */
  readonly header: string;
  readonly field: Field;
  /** Why it is read so, as a short phrase: "named time", "holds SI units". */
  readonly reason: string;
  /** Whether the guess deserves a look. */
  readonly doubtful: boolean;
  /** For `reading`: what its header says of the mode, the power of ten of its unit's prefix, the test point, the stage. */
  readonly mode?: Mode;
  readonly prefix?: number;
  readonly point?: string;
  readonly stage?: Stage;
  /** For `reading`: the place of the column that holds its units, where each value has one of its own. */
  readonly unitColumn?: number;
}

/**
 * Encodings by their names in the WHATWG Encoding Standard, where `windows-1252` stands for ISO 8859-1 too,
 * `windows-1254` for ISO 8859-9 and `gb18030` for GBK. Only the first four are ever guessed.
 */
export const ENCODINGS = [
  'utf-8',
  'utf-16le',
  'utf-16be',
  'windows-1252',
  'iso-8859-15',
  'macintosh',
  'windows-1250',
  'iso-8859-2',
  'windows-1257',
  'windows-1251',
  'iso-8859-5',
  'koi8-r',
  'ibm866',
  'windows-1253',
  'iso-8859-7',
  'windows-1254',
  'windows-1255',
  'windows-1256',
  'gb18030',
  'big5',
  'shift_jis',
  'euc-jp',
  'euc-kr',
] as const;
export type Encoding = (typeof ENCODINGS)[number];

export const SEPARATORS = [',', ';', '\t', '|'] as const;
export type Separator = (typeof SEPARATORS)[number];

export const DATE_ORDERS = ['year-month-day', 'day-month-year', 'month-day-year'] as const;
export type DateOrder = (typeof DATE_ORDERS)[number];

/** What the technician states for a whole file where its rows do not say it. */
export interface Given {
  readonly repair?: string;
  readonly family?: string;
  readonly point?: string;
  readonly stage?: Stage;
  readonly mode?: Mode;
  readonly specimen?: Specimen;
  readonly meter?: string;
  /** Day of times without a date, or start of elapsed seconds: local wall milliseconds counted as if UTC. */
  readonly start?: number;
}

/** What the technician states for some lines of a file. */
export interface GivenRange {
  /** First and last physical line, both included. */
  readonly from: number;
  readonly to: number;
  readonly given: Given;
}

/** Something that the file alone cannot settle. */
export interface Question {
  readonly about: 'encoding' | 'decimal mark' | 'date order' | 'columns' | 'given';
  /** The question as a sentence, with an example from the file. */
  readonly text: string;
  /** Places of the columns that are meant. */
  readonly columns?: readonly number[];
  /** Physical lines that show what is meant, the first few. */
  readonly lines?: readonly number[];
}

/** Everything that turns a file's bytes into rows and its rows into fields; guessed from the head, shown, and changeable. */
export interface FilePlan {
  readonly encoding: Encoding;
  readonly separator: Separator;
  readonly shape: Shape;
  /** Physical line of the header, the first being 1; 0 where there is none. */
  readonly headerLine: number;
  /** Whether the line under the header holds units. */
  readonly unitsLine: boolean;
  readonly columns: readonly ColumnUse[];
  readonly decimalMark: DecimalMark;
  readonly dateOrder: DateOrder;
  readonly given: Given;
  /** What the bench's meters show for over-range beside the usual marks. */
  readonly overRangeMarks?: readonly string[];
  /** Stated in place of `given` for ranges of lines; where ranges overlap, the later one holds. */
  readonly givenRanges?: readonly GivenRange[];
  readonly questions: readonly Question[];
}

/** One cell of the preview: its own text, how it will be read, and whether it deserves a look. */
export interface PreviewCell {
  readonly text: string;
  readonly read: string;
  readonly doubtful: boolean;
}

/** What a plan would do with the rows of a file's beginning. */
export interface HeadCount {
  readonly rows: number;
  readonly taken: number;
  /** Rows set aside, by reason without the cell's own text, the most frequent first. */
  readonly setAside: readonly { readonly reason: string; readonly rows: number }[];
  /** First and last moment that results, local wall milliseconds; undefined where none does. */
  readonly times: readonly [number, number] | undefined;
  /** Whether the rows are all of the file's. */
  readonly isWhole: boolean;
}

/** Some rows of a file as a plan reads them. */
export interface Preview {
  readonly plan: FilePlan;
  readonly rows: readonly { readonly line: number; readonly cells: readonly PreviewCell[] }[];
  readonly problems: readonly SetAside[];
  readonly count: HeadCount;
}
