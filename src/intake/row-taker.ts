import type { SetAsideList } from './set-aside-list.ts';

/** What turns the rows of one shape of table into its records. */
export interface RowTaker {
  /** Why the last row was not taken, and what to do, as sentences. */
  readonly fault: string;
  /** The header of the column that is meant, or empty where the row as a whole is. */
  readonly faultColumn: string;
  /** Hears the line of units under the header, before any row. */
  useUnits?(cells: readonly string[]): void;
  /** Takes a row that is as long as the header, whole or not at all. */
  take(cells: readonly string[], line: number): boolean;
  /** Settles rows that only the whole file decides, before the counts are final. */
  finish?(setAside: SetAsideList): void;
  /** What the technician should know of the rows taken. */
  notices?(): string[];
}
