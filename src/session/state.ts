import type { DecimalMark } from '../domain/quantity.ts';
import type { ImportOutcome } from '../worker/contract/intake.ts';
import type { BenchSummary } from '../worker/contract/memory.ts';
import type { WorkProgress } from '../worker/contract/progress.ts';
import type { BackupFileView } from './backup-file.ts';
import type { KeptState } from './kept-bench.ts';
import type { ImportPace } from './import-pace.ts';
import type { WaitingFile } from './waiting-file.ts';

/** A backup that was handed to the browser, and the seal that its file must have. */
export interface UnseenBackup {
  readonly name: string;
  readonly seal: string;
}

/** What the page shows of the bench as a whole. Replaced, never changed in place. */
export interface SessionState {
  /** What the bench holds; undefined until the worker has first answered. */
  readonly summary?: BenchSummary;
  /** Grows with each change of what the bench holds: an answer of an older revision is out of date. */
  readonly revision: number;
  /** Whether the invented sample is open, and whether files of one's own were added to it. */
  readonly bench: 'own' | 'sample' | 'sample and own';
  /** How far the import in progress has come; undefined when there is none. */
  readonly importing?: ImportPace;
  /** Files whose turn comes after the import in progress. */
  readonly queued: number;
  /** Files that cannot be read without an answer, in the order in which they are asked about. */
  readonly waiting: readonly WaitingFile[];
  /** What became of the files brought in last. */
  readonly outcome?: ImportOutcome;
  /** What another tab does, for which this one waits, as a sentence. */
  readonly waits?: string;
  /** That tab gives no sign of life, and can be gone on without. */
  readonly canTakeOver?: true;
  /** Files that another tab is bringing in. */
  readonly elsewhere?: readonly string[];
  /** What went wrong last, as a sentence. */
  readonly problem?: string;
  readonly decimalMark: DecimalMark;
  /** What outlasts the page. */
  readonly kept: KeptState;
  /** A backup that the browser took to its downloads: it counts once its file was shown and read back. */
  readonly unseenBackup?: UnseenBackup;
  /** The file outside the browser that is kept up to date as a backup; absent where none was chosen. */
  readonly backupFile?: BackupFileView;
  /** How far a backup or a restore in progress has come. */
  readonly working?: WorkProgress & { readonly what: string };
}

/** Changes of state; `undefined` takes an entry away. */
export type Changes = { readonly [Key in keyof SessionState]?: SessionState[Key] | undefined };

/** The state with some entries changed or taken away. */
export function withChanges(state: SessionState, changes: Changes): SessionState {
  const entries = Object.entries({ ...state, ...changes }).filter(([, value]) => value !== undefined);
  return Object.fromEntries(entries) as unknown as SessionState;
}
