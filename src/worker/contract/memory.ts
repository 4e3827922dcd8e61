import type { Ledger } from '../../store/kept.ts';

export type { Ledger } from '../../store/kept.ts';

export interface BenchSummary {
  readonly readings: number;
  readonly repairs: number;
  readonly families: number;
  readonly bands: number;
}

/** What became of opening what is kept. */
export interface KeptAnswer {
  /** Whether changes are kept from now on; where not, `reason` says why. */
  readonly keeps: boolean;
  readonly reason?: string;
  /** Whether there was a bench of the technician's own. */
  readonly found: boolean;
  /** What is missing, damaged or was interrupted, each a sentence. */
  readonly faults: readonly string[];
  readonly ledger?: Ledger;
  readonly canUndoSwitch: boolean;
}

/** What a backup holds, beside what is kept now. */
export interface BackupContents {
  readonly imports: number;
  readonly readings: number;
  readonly repairs: number;
  readonly bands: number;
  readonly families: number;
  readonly present: { readonly imports: number; readonly readings: number; readonly bands: number };
  /** Bands that it would add, change and take away. */
  readonly bandsAdded: number;
  readonly bandsChanged: number;
  readonly bandsGone: number;
}

/** What is kept. */
export interface MemoryCalls {
  summary(): BenchSummary;
  /**
   * Opens what is kept of the technician's own bench, and from then on keeps every change.
   * @param copy - the ledger as the page kept it apart, to find what the browser has lost
   */
  openKept(copy?: Ledger): KeptAnswer;
  /** Empties the bench and from then on keeps every change; what was kept before can be brought back once by `undoSwitch`. */
  startOwn(): BenchSummary;
  /** What is kept, small enough to keep a copy apart; undefined where nothing is kept. */
  ledger(): Ledger | undefined;
  /** Writes everything that is kept into one file. */
  backUp(): { readonly file: Blob; readonly seal: string };
  /** Reads a backup back; only then does it count as saved. @throws where it is damaged, with a sentence */
  confirmBackup(file: Blob, seal: string): Ledger | undefined;
  /** What a backup holds, checked whole; nothing is changed. @throws where it is refused, with the reason */
  lookIntoBackup(file: Blob): BackupContents;
  /** Puts a backup in place of what is kept, which `undoSwitch` brings back once. */
  restore(file: Blob): KeptAnswer;
  /** Goes back to what was kept before the last restore or clearing. */
  undoSwitch(): KeptAnswer;
  /** Empties the bench in memory alone, for the sample; what is kept stays, and nothing is kept until `openKept`. */
  clear(): BenchSummary;
}
