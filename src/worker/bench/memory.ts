import { changesBetween } from '../../store/journal.ts';
import type { Keeper, Loaded } from '../../store/keeper.ts';
import type { Ledger } from '../../store/kept.ts';
import { readBackup } from '../../store/read-backup.ts';
import type { CallContext } from '../contract/calls.ts';
import type { WorkProgress } from '../contract/progress.ts';
import type { BackupContents, KeptAnswer } from '../contract/memory.ts';
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
  /** Keeps what changed; nothing where nothing is kept. */
  readonly keep: (data: BenchData, originals?: Originals, signal?: AbortSignal) => Promise<void>;
  /** What is kept, after a change could not be; undefined where nothing is kept. */
  readonly reload: () => Promise<BenchData | undefined>;
  readonly originalBytes: (hash: string) => Promise<Uint8Array<ArrayBuffer> | undefined>;
  readonly ledger: () => Promise<Ledger | undefined>;
  readonly backUp: (context: CallContext<WorkProgress>) => Promise<{ readonly file: Blob; readonly seal: string }>;
  readonly confirmBackup: (file: Blob, seal: string) => Promise<Ledger | undefined>;
  readonly lookInto: (file: Blob) => Promise<BackupContents>;
  readonly restore: (file: Blob, context: CallContext<WorkProgress>) => Promise<Opened>;
  readonly undoSwitch: () => Promise<Opened>;
}

const NOTHING_KEPT =
  'Nothing is kept here: this works on a bench of your own, where the browser gives the page storage.';

/** The memory of a bench that keeps nothing. */
export const NO_MEMORY: BenchMemory = {
  open: () => Promise.resolve({ answer: notKept('The page keeps nothing here.') }),
  startOwn: () => Promise.resolve(),
  pause: () => undefined,
  keep: () => Promise.resolve(),
  reload: () => Promise.resolve(undefined),
  originalBytes: () => Promise.resolve(undefined),
  ledger: () => Promise.resolve(undefined),
  backUp: () => Promise.reject(new Error(NOTHING_KEPT)),
  confirmBackup: () => Promise.reject(new Error(NOTHING_KEPT)),
  lookInto: () => Promise.reject(new Error(NOTHING_KEPT)),
  restore: () => Promise.reject(new Error(NOTHING_KEPT)),
  undoSwitch: () => Promise.reject(new Error(NOTHING_KEPT)),
};

/** @param openKeeper - opens the storage; fails with a sentence where there is none */
export function keptMemory(openKeeper: () => Promise<Keeper>): BenchMemory {
  let opening: Promise<Keeper> | undefined;
  let keeping: Keeping | undefined;
  let present: BenchData = EMPTY_BENCH;

  const keeperOf = (): Promise<Keeper> => {
    opening ??= openKeeper().catch((error: unknown) => {
      opening = undefined;
      throw error;
    });
    return opening;
  };
  const adopt = (keeper: Keeper, { bench, faults, ledger, canUndoSwitch }: Loaded): Opened => {
    const data = benchFromKept(bench);
    const found =
      data.imports.length > 0 ||
      Object.values<readonly unknown[]>({ ...stateOf(data) }).some((part) => part.length > 0);
    present = data;
    keeping = new Keeping(keeper, data);
    return { data, answer: { keeps: true, found, faults, ledger, canUndoSwitch } };
  };

  return {
    open: async (copy) => {
      try {
        const keeper = await keeperOf();
        // A bench that is kept already stays so, also where another tab has emptied it.
        const wasKept = keeping !== undefined;
        const opened = adopt(keeper, await keeper.load(undefined, copy));
        if (!opened.answer.found && !wasKept) {
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
    keep: async (data, originals, signal) => {
      await keeping?.keep(data, originals, signal);
      present = data;
    },
    reload: async () => {
      if (keeping === undefined) return undefined;
      const keeper = await keeperOf();
      return adopt(keeper, await keeper.load()).data;
    },
    originalBytes: async (hash) => (keeping === undefined ? undefined : (await keeperOf()).originalBytes(hash)),
    ledger: async () => (keeping === undefined ? undefined : (await keeperOf()).ledger()),
    backUp: async () => {
      const { file, seal } = await (await keeperOf()).backUp();
      return { file, seal };
    },
    confirmBackup: async (file, seal) => {
      const keeper = await keeperOf();
      await keeper.confirmBackup(file, seal);
      return keeper.ledger();
    },
    lookInto: async (file) => {
      const { header, state } = await readBackup(file);
      const bands = changesBetween(stateOf(present), state).filter(({ part }) => part === 'bands');
      return {
        imports: header.imports,
        readings: header.readings,
        repairs: state.repairs.length,
        bands: state.bands.length,
        families: state.families.length,
        present: { imports: present.imports.length, readings: present.log.count, bands: present.bands.length },
        bandsAdded: bands.filter((change) => change.old === undefined).length,
        bandsChanged: bands.filter((change) => change.old !== undefined && change.new !== undefined).length,
        bandsGone: bands.filter((change) => change.new === undefined).length,
      };
    },
    restore: async (file, { signal }) => {
      const keeper = await keeperOf();
      await keeper.load();
      await keeper.restore(file, { signal });
      return adopt(keeper, await keeper.load());
    },
    undoSwitch: async () => {
      const keeper = await keeperOf();
      await keeper.undoSwitch();
      return adopt(keeper, await keeper.load());
    },
  };
}

function notKept(reason: string): KeptAnswer {
  return { keeps: false, reason, found: false, faults: [], canUndoSwitch: false };
}

function sentenceOf(error: unknown): string {
  return error instanceof Error ? error.message : 'The browser gives this page no storage: nothing will be kept.';
}
