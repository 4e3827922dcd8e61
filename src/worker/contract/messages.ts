import type { CallName } from './calls.ts';
import type { ImportProgress, WorkProgress } from './progress.ts';

export type ToWorker =
  | { readonly id: number; readonly call: CallName; readonly args: readonly unknown[] }
  | { readonly id: number; readonly cancel: true };

/** What the worker says unasked of what is kept. */
export type WorkerNews =
  /** Another tab changed it. */
  | { readonly changed: true }
  /** Another tab begins or ends to bring files in. */
  | { readonly begun: true }
  /** What another tab does, for which this one waits, as a sentence. */
  | {
      readonly waits: string;
      /** That tab gives no sign of life: `takeOver` goes on without it. */
      readonly silent?: true;
    }
  /** Why nothing can be kept from here any more, as a sentence. */
  | { readonly closed: string };

export type FromWorker =
  /** `life` names a lock that the worker holds as long as it lives. */
  | { readonly ready: true; readonly life?: string }
  | WorkerNews
  | { readonly id: number; readonly result: unknown }
  | { readonly id: number; readonly error: string; readonly cancelled: boolean }
  | { readonly id: number; readonly progress: ImportProgress | WorkProgress };
