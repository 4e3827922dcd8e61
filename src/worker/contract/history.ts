import type { Band } from '../../domain/band.ts';
import type { Change } from '../../store/kept.ts';
import type { Rejudged } from './bands.ts';
import type { StepNote } from './reading-edits.ts';

export type { Change } from '../../store/kept.ts';

/** What a change may be of. */
export const HISTORY_KINDS = [
  'bands',
  'repairs',
  'families',
  'meters',
  'settings',
  'views',
  'names',
  'readings',
] as const;
export type HistoryKind = (typeof HISTORY_KINDS)[number];

/** What was changed at once, by whom and why. */
export interface HistoryLine {
  /** Number of its entry in the journal; absent for edits of readings, which have a journal of their own. */
  readonly step?: number;
  /** Milliseconds since 1970, UTC. */
  readonly at: number;
  readonly who?: string;
  readonly why?: string;
  /** `brought`: by the file named in `file`, or with its going. */
  readonly does: 'changed' | 'brought' | 'taken back' | 'done again';
  readonly file?: string;
  /** Items that were added, changed or taken away, first a few of them. */
  readonly changes: readonly Change[];
  /** Items beyond those. */
  readonly more: number;
  /** In numbers, where readings were edited. */
  readonly readings?: StepNote;
}

/** The one thing whose history is asked for. */
export type HistorySubject =
  | { readonly kind: 'repair'; readonly repair: string }
  | { readonly kind: 'family'; readonly family: string }
  | { readonly kind: 'meter'; readonly meter: string }
  | { readonly kind: 'settings' }
  | { readonly kind: 'band'; readonly band: Pick<Band, 'family' | 'point' | 'mode' | 'stage'> };

/** What was changed by hand and by files: bands, repairs, families, meters, settings, views and names. */
export interface HistoryCalls {
  /** Changes, latest first. @param kind - of this kind alone */
  history(
    kind: HistoryKind | undefined,
    first: number,
    count: number,
  ): {
    readonly total: number;
    readonly lines: readonly HistoryLine[];
  };
  /** All changes of one thing, latest first, each with what it changed of that thing alone. */
  historyOf(subject: HistorySubject): readonly HistoryLine[];
  /** The change that `undo` would take back, and the one that `redo` would do again. */
  undoable(): { readonly undo?: HistoryLine; readonly redo?: HistoryLine };
  /** Does the change taken back last again; undefined where there is none. */
  redo(): Rejudged | undefined;
  /** Says why a change was made; an empty text takes that back. @param step - of a line */
  explain(step: number, why: string): void;
}
