import type { ReadingLog } from '../columns/reading-log.ts';
import type { Band } from '../domain/band.ts';
import type { BenchSettings } from '../domain/bench-settings.ts';
import type { Family } from '../domain/family.ts';
import type { FilePlan } from '../domain/file-plan.ts';
import type { ImportRecord, SetAside } from '../domain/import-record.ts';
import type { KeptView } from '../domain/kept-view.ts';
import type { Meter } from '../domain/meter.ts';
import type { NameAnswer } from '../domain/name-answer.ts';
import type { ReadingEdit } from '../domain/reading-edit.ts';
import type { Repair } from '../domain/repair.ts';

/** One import as it comes back. */
export interface KeptImport {
  readonly record: ImportRecord;
  /** Readings of this import alone, with names of their own; absent where the file held none. */
  readonly log?: ReadingLog;
  readonly setAside: readonly SetAside[];
  readonly plan?: FilePlan;
}

/** One import to be kept, with the file's own bytes. */
export interface NewImport extends KeptImport {
  readonly bytes: Uint8Array;
}

/** How files of one header are read; `header` names the header, as the intake's signature does. */
export interface ColumnMap {
  readonly header: string;
  readonly plan: FilePlan;
}

/** A line of a repair's go-back list that a technician let pass, with the reason. */
export interface KeptOverrule {
  readonly repair: string;
  readonly rule: string;
  readonly reason: string;
}

/** All that can be edited. */
export interface BenchState {
  readonly families: readonly Family[];
  readonly bands: readonly Band[];
  /** Bands that others took the place of, oldest first. */
  readonly earlierBands: readonly Band[];
  readonly repairs: readonly Repair[];
  readonly meters: readonly Meter[];
  readonly maps: readonly ColumnMap[];
  readonly names: readonly NameAnswer[];
  readonly overrules: readonly KeptOverrule[];
  /** Edits of readings, oldest first; the readings themselves stay as they were brought in. */
  readonly edits: readonly ReadingEdit[];
  /** One item, or none where nothing was stated. */
  readonly settings: readonly BenchSettings[];
  /** In order of their names. */
  readonly views: readonly KeptView[];
}

export const STATE_PARTS = [
  'families',
  'bands',
  'earlierBands',
  'repairs',
  'meters',
  'maps',
  'names',
  'overrules',
  'edits',
  'settings',
  'views',
] as const;
export type StatePart = (typeof STATE_PARTS)[number];
export type StateItem = BenchState[StatePart][number];

export const EMPTY_STATE: BenchState = {
  families: [],
  bands: [],
  earlierBands: [],
  repairs: [],
  meters: [],
  maps: [],
  names: [],
  overrules: [],
  edits: [],
  settings: [],
  views: [],
};

/** All that is kept, imports in the order in which they came. */
export interface KeptBench extends BenchState {
  readonly imports: readonly KeptImport[];
}

/** One item of the state that was added (`new` alone), changed (both) or taken away (`old` alone). */
export interface Change {
  readonly part: StatePart;
  readonly old?: StateItem;
  readonly new?: StateItem;
}

/** One entry of the journal: what was changed together. */
export interface Edit extends EditNote {
  /** Number of the entry, the first being 1. */
  readonly step: number;
  /** Milliseconds since 1970, UTC. */
  readonly at: number;
  readonly changes: readonly Change[];
}

/** Who made a change, why, and by what, as far as that is known. */
export interface EditNote {
  readonly who?: string;
  readonly why?: string;
  /** The file that brought it, or whose going took it along. */
  readonly file?: string;
  /** The entry that it took back. */
  readonly undoes?: number;
  /** The entry, taken back before, that it did again. */
  readonly redoes?: number;
}

/** When the last backup was verified, and what it held. */
export interface LastBackup {
  /** Milliseconds since 1970, UTC. */
  readonly at: number;
  readonly seal: string;
  readonly imports: number;
  /** Whether it holds all that is kept by now. */
  readonly holdsAll: boolean;
}

/** What should be here: small enough to be kept apart from the database, and compared with it at the next start. */
export interface Ledger {
  /** Names this very database; one that was emptied and made anew has another. */
  readonly database: string;
  readonly generation: number;
  readonly imports: readonly LedgerLine[];
  /** Entries of the journal. */
  readonly edits: number;
  readonly lastBackup?: LastBackup;
}

export interface LedgerLine {
  readonly hash: string;
  /** Readings. */
  readonly rows: number;
  /** CRC-32 over the sums of all that is stored of it but the file's own bytes. */
  readonly crc: number;
}

/** How far a long piece of work has come, in readings or bytes. */
export type ReportProgress = (done: number, total: number) => void;
