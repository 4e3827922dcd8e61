import type { Mode } from './reading.ts';

/**
 * What a reading proves against its band. The four that weigh the meter's uncertainty are those of ILAC-G8:09/2019, 4.2;
 * `not judged` is for an answer that no limit can be held against (blank, or a beep where a number is needed).
 */
export const VERDICTS = ['no band', 'not judged', 'pass', 'conditional pass', 'conditional fail', 'fail'] as const;
export type Verdict = (typeof VERDICTS)[number];

/** The side of the band on which a doubtful or failing reading lies. */
export const SIDES = ['none', 'low', 'high'] as const;
export type Side = (typeof SIDES)[number];

/** Verdict and side in one small number, as a column holds them: `verdict + 8 · side`. */
export const VERDICT_MASK = 7;
export const SIDE_SHIFT = 3;

export const NO_BAND = 0;
export const NOT_JUDGED = 1;
export const PASS = 2;
export const CONDITIONAL_PASS = 3;
export const CONDITIONAL_FAIL = 4;
export const FAIL = 5;
export const LOW = 1 << SIDE_SHIFT;
export const HIGH = 2 << SIDE_SHIFT;

/** The verdict in a column's code. */
export function verdictOf(code: number): Verdict {
  return VERDICTS[code & VERDICT_MASK] ?? 'no band';
}

/** The side in a column's code. */
export function sideOf(code: number): Side {
  return SIDES[code >> SIDE_SHIFT] ?? 'none';
}

/** Whether a code counts as out of band: *conditional fail* and *fail*. */
export function isOutOfBand(code: number): boolean {
  return (code & VERDICT_MASK) >= CONDITIONAL_FAIL;
}

/** Below this a part's resistance is a short, in ohms (common practice, no source). */
export const SHORT_BELOW_OHMS = 10;
/** Below this a junction's voltage in diode mode is a short, in volts (common practice, no source). */
export const SHORT_BELOW_VOLTS = 0.1;

/** A part's condition in the bench's words. */
export type PartWord = 'good' | 'shorted' | 'leaky' | 'open';

/**
 * The plain word for a part's reading; undefined where the verdict says nothing about the part.
 * A capacitor that has lost its capacitance counts as open, one that reads too much as leaky.
 * @param value - in the mode's SI unit; `NaN` for beep and over-range
 */
export function partWord(code: number, mode: Mode, value: number): PartWord | undefined {
  const verdict = code & VERDICT_MASK;
  const isLive = mode === 'DC volts' || mode === 'AC volts' || mode === 'current';
  if (verdict < PASS || isLive) return undefined;
  if (verdict < CONDITIONAL_FAIL) return 'good';
  const isHigh = sideOf(code) === 'high';
  if (mode === 'capacitance') return isHigh ? 'leaky' : 'open';
  if (isHigh) return 'open';
  const shortBelow = mode === 'diode' ? SHORT_BELOW_VOLTS : SHORT_BELOW_OHMS;
  return Number.isNaN(value) || Math.abs(value) < shortBelow ? 'shorted' : 'leaky';
}
