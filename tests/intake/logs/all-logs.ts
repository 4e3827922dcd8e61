import { layouts } from './layouts.ts';
import type { LogCase } from './log-case.ts';
import { marks } from './marks.ts';
import { moments } from './moments.ts';
import { shapes } from './shapes.ts';
import { states } from './states.ts';
import { tables } from './tables.ts';
import { times } from './times.ts';
import { units } from './units.ts';
import { wide } from './wide.ts';
import { writings } from './writings.ts';

/** All logs by what they try. */
export const LOGS: readonly { readonly theme: string; readonly logs: readonly LogCase[] }[] = [
  { theme: 'times', logs: times },
  { theme: 'moments', logs: moments },
  { theme: 'states', logs: states },
  { theme: 'units', logs: units },
  { theme: 'marks', logs: marks },
  { theme: 'wide', logs: wide },
  { theme: 'layouts', logs: layouts },
  { theme: 'shapes', logs: shapes },
  { theme: 'writings', logs: writings },
  { theme: 'tables', logs: tables },
];
