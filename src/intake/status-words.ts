import type { State } from '../domain/reading.ts';
import { stateOfWord } from './state-words.ts';
import { plainWords, readYesNo } from './words.ts';

/** What a status beside a value can say: that the value stands, or the state that takes its place. */
export const STATUSES = ['ok', 'over-range', 'below-range', 'beep', 'no beep', 'blank'] as const satisfies readonly (
  State | 'ok'
)[];
export type Status = (typeof STATUSES)[number];

const STANDS = new Set([
  'ok', 'good', 'normal', 'valid', 'stable', 'in range', 'inrange', 'within range', 'pass', 'passed', 'fail', 'failed', 'ready', 'done',
  'auto', 'manual', 'auto range', 'autorange', 'hold', 'value',
]); // prettier-ignore
const OPEN = new Set(['open', 'open circuit', 'open loop', 'out of range', 'overrange', 'range over']);
const OVER_FLAG = /^(?:ol|o l|over|overload|over range|overrange|overflow|overloaded|is over range|out of range)\b/;

/** Whether a header names flags of over-range, so that its cells may hold yes and no. */
export function namesOverRange(header: string): boolean {
  return OVER_FLAG.test(plainWords(header));
}

/** Reads the cells of a column of statuses. @param header - its name, which may say what a yes means */
export function statusReader(header: string): (cell: string) => Status | undefined {
  const isFlag = namesOverRange(header);
  return (cell) => {
    const word = plainWords(cell);
    const state = stateOfWord(cell);
    if (isFlag) {
      const flag = readYesNo(cell);
      if (flag !== undefined) return flag ? 'over-range' : 'ok';
    }
    if (state === 'blank' || STANDS.has(word)) return 'ok';
    if (OPEN.has(word)) return 'over-range';
    return state === 'value' ? undefined : state;
  };
}
