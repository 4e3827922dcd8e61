import type { LogCase } from './log-case.ts';
import { times } from './times.ts';
import { states } from './states.ts';
import { wide } from './wide.ts';

/** All logs by what they try. */
export const LOGS: readonly { readonly theme: string; readonly logs: readonly LogCase[] }[] = [
  { theme: 'times', logs: times },
  { theme: 'states', logs: states },
  { theme: 'wide', logs: wide },
];
