import type { Encoding, FilePlan, Given, Preview, Separator } from '../../domain/file-plan.ts';
import type { ImportRecord, SetAside } from '../../domain/import-record.ts';
import type { NameAnswer, NameKind } from '../../domain/name-answer.ts';
import type { Reading } from '../../domain/reading.ts';
import type { BenchSummary } from './memory.ts';

/** Encoding and separator where the technician has chosen them. */
export interface PlanChoices {
  readonly encoding?: Encoding;
  readonly separator?: Separator;
}

export interface ShiftOverview {
  readonly imports: readonly ImportRecord[];
  readonly setAside: readonly SetAside[];
}

/** What became of the files of one drop, in their order. */
export interface ImportOutcome {
  readonly records: readonly ImportRecord[];
  readonly setAside: readonly SetAside[];
  /** Files that could not be read at all. */
  readonly refused: readonly { readonly file: string; readonly reason: string }[];
}

/** A name that the readings brought and nothing else knows. */
export interface UnknownName {
  readonly kind: NameKind;
  readonly name: string;
  /** The family of a point. */
  readonly family?: string;
  readonly readings: number;
  /** Names that it may be another spelling of, likeliest first. */
  readonly alike: readonly string[];
  /** The known name from which it differs in case, blanks and punctuation alone, where there is just one. */
  readonly same?: string;
}

/** A row that was set aside, by where it stood. */
export interface RowPlace {
  readonly file: string;
  readonly line: number;
}

/** What is done to rows that were set aside, to all of them alike: what they lack is stated, or one text in them gives way to another. */
export type Mend = { readonly given: Given } | { readonly text: string; readonly by: string };

/** What a mend does to the rows that it is tried on. */
export interface MendOutcome {
  /** Rows that are read. */
  readonly admitted: number;
  /** Rows that stay set aside, and what is still wrong with the first of them. */
  readonly left: number;
  readonly fault?: string;
  /** The first readings that come of it. */
  readonly readings: readonly Reading[];
}

/** What the page may ask about files brought in. */
export interface IntakeCalls {
  /** How a file would be read; a map remembered for its header is used, and leaves no question about columns. */
  planFile(file: File, choices?: PlanChoices): FilePlan | { readonly refused: string };
  previewFile(file: File, plan: FilePlan): Preview;
  /** Reads files in, each whole or not at all; a plan may be given for a file by its place. */
  bringIn(files: readonly File[], plans?: readonly (FilePlan | undefined)[]): ImportOutcome;
  /** The bytes of an import as they were brought in; undefined where they are not kept. */
  original(hash: string): Uint8Array<ArrayBuffer> | undefined;
  /** Takes a whole import back. */
  takeBack(hash: string): BenchSummary;
  /** Reads a mended row again in place of the one that was set aside; undefined where it was admitted, else what is still wrong with it. */
  mendRow(file: string, line: number, content: string): string | undefined;
  /** What a mend of rows of one file would do; nothing is changed. */
  tryMend(rows: readonly RowPlace[], mend: Mend): MendOutcome;
  /** Admits the rows of one file that a mend makes readable; the others stay set aside as they were. */
  mendRows(rows: readonly RowPlace[], mend: Mend): MendOutcome;
  /** Lets rows that were set aside go. */
  letGo(rows: readonly RowPlace[]): ShiftOverview;
  /**
   * The rows that were set aside, with their reasons, as CSV with commas.
   * @param isForSpreadsheet - with an apostrophe before what a spreadsheet program would take for a formula
   */
  setAsideText(isForSpreadsheet?: boolean): string;
  /** Names that readings brought and nothing knows, until somebody answers for them. */
  unknownNames(): readonly UnknownName[];
  /** Remembers what names are, all of them at once. */
  answerNames(answers: readonly NameAnswer[]): BenchSummary;
  shift(): ShiftOverview;
}
