import type { CallName } from '../worker/contract/calls.ts';

/** Calls that change what the bench holds: after each of them all that is shown is asked for anew. */
const CHANGING = [
  'takeBack',
  'mendRow',
  'mendRows',
  'letGo',
  'answerNames',
  'setBands',
  'removeBand',
  'setFamily',
  'setMeters',
  'overruleLine',
  'setRepair',
  'changeSettings',
  'setView',
  'removeView',
  'undo',
  'redo',
  'explain',
  'editReadings',
  'restoreReadings',
  'deleteReadings',
  'returnReadings',
  'undoEdit',
  'redoEdit',
  'addReadings',
  'copyReadings',
  'explainEdit',
] as const satisfies readonly CallName[];
export type ChangingCall = (typeof CHANGING)[number];
export const CHANGING_CALLS: ReadonlySet<CallName> = new Set(CHANGING);

/** Those that put a thing in place of one that somebody looked at: not made over one that nobody here has seen. */
export const LOOKED_AT_CALLS: ReadonlySet<CallName> = new Set([
  'setBands',
  'removeBand',
  'setFamily',
  'setMeters',
  'setRepair',
]);
