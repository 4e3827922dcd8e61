import type { CallName } from './calls.ts';
import type { ImportProgress, WorkProgress } from './progress.ts';

export type ToWorker =
  | { readonly id: number; readonly call: CallName; readonly args: readonly unknown[] }
  | { readonly id: number; readonly cancel: true };

export type FromWorker =
  | { readonly ready: true }
  /** Another tab changed what is kept, and the bench is as that has it now. */
  | { readonly changed: true }
  | { readonly id: number; readonly result: unknown }
  | { readonly id: number; readonly error: string; readonly cancelled: boolean }
  | { readonly id: number; readonly progress: ImportProgress | WorkProgress };
