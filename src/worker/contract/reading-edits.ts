import type { ReadingsQuery } from '../../columns/query.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import type { EditField } from '../../domain/reading-edit.ts';
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

/** What was edited by hand so far. */
export interface EditsSoFar {
  /** Readings that are not as they were brought in. */
  readonly changed: number;
  readonly deleted: number;
  /** Edits that can be taken back, and done again. */
  readonly steps: number;
  readonly undone: number;
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
}
