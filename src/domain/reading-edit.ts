import type { Reading } from './reading.ts';

/** A field of a reading that can be edited by hand. */
export const EDIT_FIELDS = [
  'time',
  'repair',
  'family',
  'point',
  'stage',
  'mode',
  'specimen',
  'reading',
  'meter',
] as const;
export type EditField = (typeof EDIT_FIELDS)[number];

/** Some fields of a reading, as they are or shall be. */
export type ReadingPatch = Partial<Omit<Reading, 'origin'>>;

/** What names a reading whatever else comes and goes: where it stood, and which of the readings of that line it is, from 0. */
export interface RowIdentity {
  readonly file: string;
  readonly line: number;
  readonly nth: number;
}

/** One reading before and after an edit; `old` is absent where it was deleted before, `new` where it is deleted after. */
export interface RowChange {
  readonly row: RowIdentity;
  /** The field that was edited; absent where the whole row went or came back. */
  readonly field?: EditField;
  readonly old?: ReadingPatch;
  readonly new?: ReadingPatch;
}

/** What a person did at once. */
export interface ReadingEdit {
  /** Milliseconds since 1970, UTC. */
  readonly when: number;
  /** Who did it and why, where that is known; an empty reason is none. */
  readonly who?: string;
  readonly why?: string;
  readonly changes: readonly RowChange[];
  /** The import that holds the rows which were added by hand, by its file's name. */
  readonly added?: string;
  /** Whether it was taken back, and can be done again. */
  readonly undone?: boolean;
}
