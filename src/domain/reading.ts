import type { Unit } from './quantity.ts';

/** When in a repair a reading was taken, in the order of the work. */
export const STAGES = ['as received', 'part out', 'refitted', 'live', 'run-in'] as const;
export type Stage = (typeof STAGES)[number];

/** What the meter was set to. */
export const MODES = [
  'continuity',
  'resistance',
  'diode',
  'capacitance',
  'ESR',
  'DC volts',
  'AC volts',
  'current',
] as const;
export type Mode = (typeof MODES)[number];

/** The unit in which each mode is kept. */
export const MODE_UNITS: Readonly<Record<Mode, Unit>> = {
  continuity: 'Ω',
  resistance: 'Ω',
  diode: 'V',
  capacitance: 'F',
  ESR: 'Ω',
  'DC volts': 'V',
  'AC volts': 'V',
  current: 'A',
};

/** What kind of answer the meter gave. A number exists for `value` only; `over-range` carries the range limit where it is known. */
export const STATES = ['value', 'over-range', 'below-range', 'beep', 'no beep', 'blank'] as const;
export type State = (typeof STATES)[number];

/** Whether the board's own part was measured, or a new one of the same type beside it. */
export const SPECIMENS = ['board', 'new part'] as const;
export type Specimen = (typeof SPECIMENS)[number];

/** Stages in which the board is under power. */
export function isPowered(stage: Stage): boolean {
  return stage === 'live' || stage === 'run-in';
}

/** Stages in which a part is still, or again, joined to its neighbours, so that they can mask it. */
export function isInCircuit(stage: Stage): boolean {
  return stage !== 'part out';
}

/** Where in which file a reading stood. */
export interface Origin {
  readonly file: string;
  /** Physical line, the first being 1. */
  readonly line: number;
}

/** One measured quantity. */
export interface Reading {
  /** Local wall time in milliseconds, counted as if it were UTC, so that no zone or clock change ever shifts it; `dayOnly` where its day alone is known; `NaN` where unknown. */
  readonly time: number;
  readonly repair: string;
  readonly family: string;
  readonly point: string;
  readonly stage: Stage;
  readonly mode: Mode;
  readonly specimen: Specimen;
  readonly state: State;
  /** In the mode's SI unit; the range limit for `over-range` where known; else `NaN`. */
  readonly value: number;
  /** Power of ten of the prefix that the meter showed. */
  readonly prefix: number;
  /** Digits that the meter showed after its decimal mark. */
  readonly decimals: number;
  readonly meter: string;
  readonly origin: Origin;
}
