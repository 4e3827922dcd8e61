import type { ReadingLog } from '../columns/reading-log.ts';
import type { Band } from '../domain/band.ts';
import type { DeclaredFamily } from '../domain/family.ts';
import type { SetAside } from '../domain/import-record.ts';
import type { Meter } from '../domain/meter.ts';
import type { Repair } from '../domain/repair.ts';

/** Kinds of lines that are no data. */
export type NoDataKind = 'blank' | 'preamble' | 'header' | 'repeated header' | 'units' | 'comment' | 'footer';

/** How the records of a file add up: `rows = taken + setAsideRows`, and `noData` is the sum of its kinds. */
export interface FileCounts {
  /** Rows of data found. */
  readonly rows: number;
  readonly taken: number;
  readonly setAsideRows: number;
  readonly noData: number;
  readonly noDataKinds: Readonly<Record<NoDataKind, number>>;
  /** The rows set aside, the first ten thousand of them. */
  readonly setAside: SetAside[];
  /** What the technician should know, each a sentence. */
  readonly notices: string[];
}

/** All that a file held. A file of unknown shape is read as readings, none of which can be taken. */
export type FileContents = FileCounts &
  (
    | { readonly shape: 'readings'; readonly log: ReadingLog }
    | { readonly shape: 'repairs'; readonly repairs: Repair[] }
    | { readonly shape: 'bands'; readonly families: DeclaredFamily[]; readonly bands: Band[] }
    | { readonly shape: 'meters'; readonly meters: Meter[] }
  );
