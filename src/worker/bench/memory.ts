import { changesBetween } from '../../store/journal.ts';
import type { Keeper, Loaded } from '../../store/keeper.ts';
import { isAllowed } from '../../store/backup-file.ts';
import type { Edit, EditNote, Ledger, ReportProgress } from '../../store/kept.ts';
import { readBackup } from '../../store/read-backup.ts';
import type { CallContext } from '../contract/calls.ts';
import type { WorkProgress } from '../contract/progress.ts';
import { BACKUP_PARTS, type BackupContents, type BackupFileState, type KeptAnswer } from '../contract/memory.ts';
import { EMPTY_BENCH, type BenchData } from './bench-data.ts';
import { benchFromKept, Keeping, stateOf, type Originals } from './keeping.ts';

/** A bench as it was opened from memory; without data where the bench in hand stays. */
export interface Opened {
  readonly data?: BenchData;
  readonly answer: KeptAnswer;
}

/** What outlasts the page. Every failure is an Error with a sentence. */
export interface BenchMemory {
  readonly open: (copy?: Ledger) => Promise<Opened>;
  readonly startOwn: () => Promise<void>;
  /** Stops keeping changes until `open` or `startOwn`. */
  readonly pause: () => void;
  /** Keeps what changed; nothing where nothing is kept. @returns hashes of new imports that another tab had kept already */
  readonly keep: (
    data: BenchData,
    originals?: Originals,
    signal?: AbortSignal,
    note?: EditNote,
  ) => Promise<ReadonlySet<string>>;
  /** All changes that were kept, oldest first. */
  readonly journal: () => Promise<readonly Edit[]>;
  /** The number of the entry in the journal that the last change made; undefined where nothing is kept. */
  readonly lastEntry: () => number | undefined;
  /** Says why an entry of the journal was made. */
  readonly explain: (step: number, why: string) => Promise<void>;
  /** What is kept, after a change could not be; undefined where nothing is kept. */
  readonly reload: () => Promise<BenchData | undefined>;
  readonly originalBytes: (hash: string) => Promise<Uint8Array<ArrayBuffer> | undefined>;
  readonly ledger: () => Promise<Ledger | undefined>;
  readonly backUp: (context: CallContext<WorkProgress>) => Promise<{ readonly file: Blob; readonly seal: string }>;
  readonly confirmBackup: (file: Blob, seal: string, context: CallContext<WorkProgress>) => Promise<Ledger | undefined>;
  readonly backupFile: () => Promise<BackupFileState | undefined>;
  readonly chooseBackupFile: (handle: FileSystemFileHandle | undefined) => Promise<BackupFileState | undefined>;
  readonly backupHandle: () => Promise<FileSystemFileHandle | undefined>;
  readonly writeBackupFile: (context: CallContext<WorkProgress>) => Promise<BackupFileState | undefined>;
  readonly lookInto: (file: Blob, context: CallContext<WorkProgress>) => Promise<BackupContents>;
  readonly restore: (file: Blob, context: CallContext<WorkProgress>) => Promise<Opened>;
  readonly undoSwitch: () => Promise<Opened>;
  readonly takeOver: () => Promise<void>;
  readonly beginImport: (files: readonly string[]) => Promise<void>;
  readonly endImport: () => Promise<void>;
  readonly importsElsewhere: () => Promise<readonly string[]>;
}

const NOTHING_KEPT =
  'Nothing is kept here: this works on a bench of your own, where the browser gives the page storage.';

/** The memory of a bench that keeps nothing. */
export const NO_MEMORY: BenchMemory = {
  open: () => Promise.resolve({ answer: notKept('The page keeps nothing here.') }),
  startOwn: () => Promise.resolve(),
  pause: () => undefined,
  keep: () => Promise.resolve(new Set()),
  journal: () => Promise.resolve([]),
  lastEntry: () => undefined,
  explain: () => Promise.resolve(),
  reload: () => Promise.resolve(undefined),
  originalBytes: () => Promise.resolve(undefined),
  ledger: () => Promise.resolve(undefined),
  backUp: () => Promise.reject(new Error(NOTHING_KEPT)),
  confirmBackup: () => Promise.reject(new Error(NOTHING_KEPT)),
  backupFile: () => Promise.resolve(undefined),
  chooseBackupFile: () => Promise.reject(new Error(NOTHING_KEPT)),
  backupHandle: () => Promise.resolve(undefined),
  writeBackupFile: () => Promise.reject(new Error(NOTHING_KEPT)),
  lookInto: () => Promise.reject(new Error(NOTHING_KEPT)),
  restore: () => Promise.reject(new Error(NOTHING_KEPT)),
  undoSwitch: () => Promise.reject(new Error(NOTHING_KEPT)),
  takeOver: () => Promise.resolve(),
  beginImport: () => Promise.resolve(),
  endImport: () => Promise.resolve(),
  importsElsewhere: () => Promise.resolve([]),
};

/** @param openKeeper - opens the storage; fails with a sentence where there is none */
export function keptMemory(openKeeper: () => Promise<Keeper>): BenchMemory {
  let opening: Promise<Keeper> | undefined;
  let keeping: Keeping | undefined;
  let present: BenchData = EMPTY_BENCH;
  /** Whether something that was kept is missing or damaged. */
  let misses = false;

  const keeperOf = (): Promise<Keeper> => {
    opening ??= openKeeper().catch((error: unknown) => {
      opening = undefined;
      throw error;
    });
    return opening;
  };
  const adopt = (keeper: Keeper, { bench, ...loaded }: Loaded): Opened => {
    ({ misses } = loaded);
    const data = benchFromKept(bench);
    const found =
      data.imports.length > 0 ||
      Object.values<readonly unknown[]>({ ...stateOf(data) }).some((part) => part.length > 0);
    present = data;
    keeping = new Keeping(keeper, data);
    return { data, answer: { ...loaded, keeps: true, found } };
  };
  const backupFile = async (): Promise<BackupFileState | undefined> => {
    const file = keeping === undefined ? undefined : await (await keeperOf()).backupFile();
    if (file === undefined) return undefined;
    const { handle, holds, at } = file;
    return {
      name: handle.name,
      holds: misses ? 'damaged bench' : holds,
      isAllowed: await isAllowed(handle),
      ...(at !== undefined && { at }),
    };
  };

  return {
    open: async (copy) => {
      try {
        const keeper = await keeperOf();
        // A bench that is kept already stays so, also where another tab has emptied it; one of which something is told was somebody's.
        const wasKept = keeping !== undefined;
        const loaded = await keeper.load(undefined, copy);
        const brokenOff = await keeper.begun.takeBrokenOff();
        const opened = adopt(keeper, { ...loaded, faults: [...loaded.faults, ...brokenOff] });
        if (!opened.answer.found && !wasKept && opened.answer.faults.length === 0) {
          keeping = undefined;
          return { answer: { ...opened.answer, keeps: false } };
        }
        void keeper.compressOriginals().catch(() => undefined);
        return opened;
      } catch (error) {
        return { answer: notKept(sentenceOf(error)) };
      }
    },
    startOwn: async () => {
      keeping = undefined;
      let keeper: Keeper;
      try {
        keeper = await keeperOf();
      } catch {
        // Without storage the bench is held by the page alone; `open` has said so.
        return;
      }
      const { answer } = adopt(keeper, await keeper.load());
      if (!answer.found) return;
      await keeper.clear();
      adopt(keeper, await keeper.load());
    },
    pause: () => {
      keeping = undefined;
    },
    keep: async (data, originals, signal, note) => {
      const known = (await keeping?.keep(data, originals, signal, note)) ?? new Set();
      present = data;
      return known;
    },
    journal: async () => (keeping === undefined ? [] : (await keeperOf()).journal()),
    lastEntry: () => keeping?.lastEntry,
    explain: async (step, why) => {
      if (keeping !== undefined) await (await keeperOf()).explain(step, why);
    },
    reload: async () => {
      if (keeping === undefined) return undefined;
      const keeper = await keeperOf();
      return adopt(keeper, await keeper.load()).data;
    },
    originalBytes: async (hash) => (keeping === undefined ? undefined : (await keeperOf()).originalBytes(hash)),
    ledger: async () => (keeping === undefined ? undefined : (await keeperOf()).ledger()),
    backUp: async ({ report }) => {
      const { file, seal } = await (await keeperOf()).backUp(reporting(report));
      return { file, seal };
    },
    confirmBackup: async (file, seal, { report }) => {
      const keeper = await keeperOf();
      await keeper.confirmBackup(file, seal, reporting(report));
      return keeper.ledger();
    },
    backupFile,
    chooseBackupFile: async (handle) => {
      await (await keeperOf()).chooseBackupFile(handle);
      return backupFile();
    },
    backupHandle: async () => (keeping === undefined ? undefined : (await (await keeperOf()).backupFile())?.handle),
    writeBackupFile: async ({ report }) => {
      if (keeping !== undefined) await (await keeperOf()).writeBackupFile(reporting(report));
      return backupFile();
    },
    lookInto: async (file, { report }) => {
      const { header, state } = await readBackup(file, reporting(report));
      const all = changesBetween(stateOf(present), state);
      return {
        imports: header.imports,
        readings: header.readings,
        repairs: state.repairs.length,
        bands: state.bands.length,
        families: state.families.length,
        present: { imports: present.imports.length, readings: present.log.count, bands: present.bands.length },
        changes: BACKUP_PARTS.map((part) => {
          const own = all.filter((change) => change.part === part);
          const added = own.filter((change) => change.old === undefined).length;
          const gone = own.filter((change) => change.new === undefined).length;
          return { part, added, changed: own.length - added - gone, gone };
        }).filter(({ added, changed, gone }) => added + changed + gone > 0),
      };
    },
    restore: async (file, { signal, report }) => {
      const keeper = await keeperOf();
      await keeper.load();
      await keeper.restore(file, { signal, report: reporting(report) });
      return adopt(keeper, await keeper.load());
    },
    undoSwitch: async () => {
      const keeper = await keeperOf();
      await keeper.undoSwitch();
      return adopt(keeper, await keeper.load());
    },
    takeOver: async () => {
      (await keeperOf()).takeOver();
    },
    beginImport: async (files) => {
      if (keeping !== undefined) await (await keeperOf()).begun.begin(files);
    },
    endImport: async () => {
      await (await opening)?.begun.end();
    },
    importsElsewhere: async () => (await keeperOf()).begun.elsewhere(),
  };
}

function reporting(report: (progress: WorkProgress) => void): ReportProgress {
  return (done, total) => {
    report({ done, total });
  };
}

function notKept(reason: string): KeptAnswer {
  return { keeps: false, reason, found: false, faults: [], misses: false, canUndoSwitch: false };
}

function sentenceOf(error: unknown): string {
  return error instanceof Error ? error.message : 'The browser gives this page no storage: nothing will be kept.';
}
