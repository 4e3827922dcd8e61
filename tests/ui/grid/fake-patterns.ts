import type { PartFailureCount } from '../../../src/patterns/part-failures.ts';

type WithShare = PartFailureCount & {
  readonly read: number;
  readonly share: { readonly low: number; readonly high: number };
};

/** Parts of an invented family, most failed first. */
export const f1: WithShare = {
  part: 'F1',
  failed: 50,
  shorted: 0,
  leaky: 0,
  open: 50,
  suspected: 0,
  replaced: 50,
  replacedGood: 0,
  read: 89,
  share: { low: 0.464, high: 0.668 },
};

export const q1: WithShare = {
  part: 'Q1',
  failed: 41,
  shorted: 30,
  leaky: 8,
  open: 3,
  suspected: 9,
  replaced: 58,
  replacedGood: 12,
  read: 80,
  share: { low: 0.364, high: 0.569 },
};

export const d3: WithShare = {
  part: 'D3',
  failed: 11,
  shorted: 9,
  leaky: 2,
  open: 0,
  suspected: 3,
  replaced: 46,
  replacedGood: 30,
  read: 86,
  share: { low: 0.071, high: 0.21 },
};
