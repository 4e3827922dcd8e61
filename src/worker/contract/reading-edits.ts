import type { ReadingsQuery } from '../../columns/query.ts';
import type { Field, Given } from '../../domain/file-plan.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import type { EditField, ReadingPatch, RowIdentity } from '../../domain/reading-edit.ts';
import type { Reading } from '../../domain/reading.ts';

/** A text for one field of the readings on the lines from `first` to `last`, both included. */
export interface CellText {
  readonly first: number;
  readonly last: number;
  readonly field: EditField;
  readonly text: string;
}

/** Why a text cannot be a field of the reading on a line, as sentences. */
export interface EditFault {
  readonly line: number;
  readonly field: EditField;
  readonly fault: string;
}

/** What an edit changes, or would; where there are faults it changes nothing. Faults and examples are told up to 200. */
export interface EditAnswer {
  readonly changed: number;
  readonly faults: readonly EditFault[];
  readonly examples: readonly {
    readonly line: number;
    readonly field: EditField;
    readonly before: Reading;
    readonly after: Reading;
  }[];
}

/** A block of cells that shall become readings of their own. */
export interface NewRows {
  readonly rows: readonly (readonly string[])[];
  /** Columns as they stand in the grid from the block's first cell on, for a block without headers of its own. */
  readonly columns: readonly { readonly title: string; readonly field?: EditField }[];
  /** The reading that says what the block has no column for. */
  readonly like?: Reading;
}

/** What a block of new rows comes to. Faults are told up to 200, examples up to 12. */
export interface AddAnswer {
  /** Readings that are added, or would be. */
  readonly added: number;
  /** Rows that cannot be read, and are set aside with their reasons. */
  readonly setAside: number;
  /** Whether the first row names the columns. */
  readonly hasHeader: boolean;
  /** What the columns are read as; columns that are left out are not named. */
  readonly columns: readonly { readonly header: string; readonly field: Field }[];
  /** What every row has from the reading that the block is added beside. */
  readonly given: Given;
  /** What the block leaves open, and how it is read then, as sentences. */
  readonly doubts: readonly string[];
  /** The number of the block's row, the first being 1, and the header of the column. */
  readonly faults: readonly { readonly row: number; readonly column: string; readonly fault: string }[];
  readonly examples: readonly Reading[];
}

/** What a person did to readings at once, in numbers of readings. */
export interface StepNote {
  /** Milliseconds since 1970, UTC. */
  readonly when: number;
  readonly who?: string;
  readonly why?: string;
  readonly edited: number;
  readonly deleted: number;
  /** Readings that were deleted, and came back. */
  readonly returned: number;
  readonly added: number;
}

/** One edit of one reading; `old` is absent where it came back by it, `new` where it was deleted by it. */
export interface ReadingHistoryEntry extends Pick<StepNote, 'when' | 'who' | 'why'> {
  /** `added` stands for the reading itself, which was added by hand. */
  readonly does: 'added' | 'edited' | 'deleted' | 'returned';
  readonly old?: ReadingPatch;
  readonly new?: ReadingPatch;
}

/** What was edited by hand so far. */
export interface EditsSoFar {
  /** Readings that are not as they were brought in. */
  readonly changed: number;
  readonly deleted: number;
  /** Edits that can be taken back, and done again. */
  readonly steps: number;
  readonly undone: number;
  /** The edit that would be taken back, and the one that would be done again. */
  readonly last?: StepNote;
  readonly next?: StepNote;
}

/** Edits of readings by hand. */
export interface ReadingEditCalls {
  /** What `editReadings` would change. */
  tryEdit(query: ReadingsQuery, cells: readonly CellText[], mark: DecimalMark): EditAnswer;
  /** Edits readings by hand, all cells or none, and judges them anew. @throws where they are more than can be edited at once */
  editReadings(query: ReadingsQuery, cells: readonly CellText[], mark: DecimalMark): EditAnswer;
  /** Gives the readings on some lines the values back with which they were brought in. */
  restoreReadings(query: ReadingsQuery, first: number, last: number): EditsSoFar;
  deleteReadings(query: ReadingsQuery, first: number, last: number): EditsSoFar;
  /** Brings all deleted readings back. */
  returnReadings(): EditsSoFar;
  /** Takes the last edit of readings back; nothing where there is none. */
  undoEdit(): EditsSoFar;
  redoEdit(): EditsSoFar;
  editsSoFar(): EditsSoFar;
  /** What `addReadings` would add. @throws where the block holds no table */
  tryAdd(rows: NewRows, mark: DecimalMark): AddAnswer;
  /**
   * Adds readings by hand: an import of their own, which one undo takes back. Rows that cannot be read are set aside.
   * @param isWhole - whether nothing is added where some row cannot be read
   */
  addReadings(rows: NewRows, mark: DecimalMark, isWhole?: boolean): AddAnswer;
  /** Adds the readings on some lines once more, as they are now. */
  copyReadings(query: ReadingsQuery, first: number, last: number): EditsSoFar;
  /** Says why the last edit was made; an empty text takes that back. */
  explainEdit(why: string): EditsSoFar;
  /** The edits of one reading, oldest first. */
  readingHistory(reading: RowIdentity): readonly ReadingHistoryEntry[];
}
