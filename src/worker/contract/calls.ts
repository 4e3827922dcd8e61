import type { BandCalls } from './bands.ts';
import type { FamilyCalls } from './families.ts';
import type { HistoryCalls } from './history.ts';
import type { IntakeCalls } from './intake.ts';
import type { MemoryCalls } from './memory.ts';
import type { ImportProgress, WorkProgress } from './progress.ts';
import type { ReadingEditCalls } from './reading-edits.ts';
import type { ReadingCalls } from './readings.ts';
import type { RepairCalls } from './repairs.ts';
import type { SettingsCalls } from './settings.ts';

/** Everything that the page can ask of the worker. */
export interface BenchCalls
  extends
    IntakeCalls,
    ReadingCalls,
    ReadingEditCalls,
    RepairCalls,
    BandCalls,
    FamilyCalls,
    MemoryCalls,
    SettingsCalls,
    HistoryCalls {}

export type CallName = keyof BenchCalls;

/** What a call tells while it works. */
export type ProgressOf<Name extends CallName> = Name extends 'bringIn' ? ImportProgress : WorkProgress;

/** What a long call is given to report through and to be stopped by. */
export interface CallContext<Progress = ImportProgress | WorkProgress> {
  readonly signal: AbortSignal;
  readonly report: (progress: Progress) => void;
}

/** The worker's side of the contract: the same calls, each with its context last, at once or later. */
export type BenchHandlers = {
  readonly [Call in CallName]: (
    context: CallContext<ProgressOf<Call>>,
    ...args: Parameters<BenchCalls[Call]>
  ) => ReturnType<BenchCalls[Call]> | Promise<ReturnType<BenchCalls[Call]>>;
};
