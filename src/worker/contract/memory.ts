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
  /** Whether something that was kept is missing or damaged. */
  readonly misses: boolean;
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
  /** How many items of each part it would add, change and take away; parts that would stay as they are are left out. */
  readonly changes: readonly {
    readonly part: (typeof BACKUP_PARTS)[number];
    readonly added: number;
    readonly changed: number;
    readonly gone: number;
  }[];
}

/** The parts of a bench beside its readings that a restore is told of to change. */
export const BACKUP_PARTS = ['bands', 'families', 'repairs', 'meters', 'settings', 'views'] as const;

/** The file outside the browser that is kept up to date as a backup. */
export interface BackupFileState {
  readonly name: string;
  /**
   * `current`: holds all that is kept, read back whole; `behind`: something was changed since; `other bench`: holds a bench that the present one
   * took the place of; `damaged bench`: something of the present one is missing. The last two are not written over unasked.
   */
  readonly holds: 'current' | 'behind' | 'other bench' | 'damaged bench';
  /** Whether the browser lets the page write into it without asking. */
  readonly isAllowed: boolean;
  /** When it was last read back whole, in milliseconds since 1970, UTC. */
  readonly at?: number;
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
  /** The chosen backup file; undefined where none was chosen or nothing is kept. */
  backupFile(): BackupFileState | undefined;
  /** Chooses the file that is kept up to date; undefined for none. @throws where it cannot be remembered, with a sentence */
  chooseBackupFile(handle: FileSystemFileHandle | undefined): BackupFileState | undefined;
  /** The chosen file itself, for the page to ask for permission. */
  backupHandle(): FileSystemFileHandle | undefined;
  /** Writes the chosen file and reads it back. @throws where that cannot be done, with a sentence; the file is whole also then */
  writeBackupFile(): BackupFileState | undefined;
  /** What a backup holds, checked whole; nothing is changed. @throws where it is refused, with the reason */
  lookIntoBackup(file: Blob): BackupContents;
  /** Puts a backup in place of what is kept, which `undoSwitch` brings back once. */
  restore(file: Blob): KeptAnswer;
  /** Goes on with storing although another tab, which has fallen silent, was at it: that tab stores nothing more of it. */
  takeOver(): void;
  /** Notes durably which files are going to be brought in; where the tab does not live to `endImport`, the next `openKept` tells of it. */
  beginImport(files: readonly string[]): void;
  endImport(): void;
  /** Files that other tabs are bringing in. @throws where there is no storage */
  importsElsewhere(): readonly string[];
  /** Goes back to what was kept before the last restore or clearing. */
  undoSwitch(): KeptAnswer;
  /** Empties the bench in memory alone, for the sample; what is kept stays, and nothing is kept until `openKept`. */
  clear(): BenchSummary;
}
