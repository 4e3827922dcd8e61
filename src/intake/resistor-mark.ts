import type { Unit } from '../domain/quantity.ts';

/** What a letter in the place of the decimal mark says. */
export interface MarkLetter {
  readonly unit: Unit;
  readonly prefix: number;
}

/**
 * Letters that stand in for the decimal mark of resistors and capacitors: `4K7`, `R47`, `2M2`, `n33`.
 * Source: IEC 60062, 4 (marking code for values). The lower-case `k` and the `V` of `4V7` are common practice, no source.
 */
export const MARK_LETTERS: ReadonlyMap<string, MarkLetter> = new Map<string, MarkLetter>([
  ['L', { unit: 'Ω', prefix: -3 }],
  ['R', { unit: 'Ω', prefix: 0 }],
  ['K', { unit: 'Ω', prefix: 3 }],
  ['k', { unit: 'Ω', prefix: 3 }],
  ['\u212a', { unit: 'Ω', prefix: 3 }],
  ['M', { unit: 'Ω', prefix: 6 }],
  ['G', { unit: 'Ω', prefix: 9 }],
  ['T', { unit: 'Ω', prefix: 12 }],
  ['p', { unit: 'F', prefix: -12 }],
  ['n', { unit: 'F', prefix: -9 }],
  ['µ', { unit: 'F', prefix: -6 }],
  ['\u03bc', { unit: 'F', prefix: -6 }],
  ['u', { unit: 'F', prefix: -6 }],
  ['m', { unit: 'F', prefix: -3 }],
  ['F', { unit: 'F', prefix: 0 }],
  ['V', { unit: 'V', prefix: 0 }],
]);
