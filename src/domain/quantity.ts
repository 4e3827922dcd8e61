import { engineeringPrefix, prefixSymbol } from './prefix.ts';

/** The SI units that a bench meter shows. */
export const UNITS = ['V', 'Ω', 'F', 'A'] as const;
export type Unit = (typeof UNITS)[number];

/** The technician's decimal mark on screen and in typed text. */
export type DecimalMark = '.' | ',';

/** How a meter showed a number: the power of ten of its prefix, and how many digits stood after the decimal mark. */
export interface Shown {
  readonly prefix: number;
  readonly decimals: number;
}

/** A number apart from its unit, so that columns of numbers can align. */
export interface QuantityText {
  readonly number: string;
  readonly unit: string;
}

/** The power of ten of the last digit shown, in the SI unit: 0.640 MΩ → 3 (1 kΩ). */
export function lastDigit(shown: Shown): number {
  return shown.prefix - shown.decimals;
}

/** Writes `value` (in `unit`) with the very prefix and digits that the meter showed. */
export function formatShown(value: number, unit: Unit, shown: Shown, mark: DecimalMark): QuantityText {
  const scaled = scaleBy(value, -shown.prefix);
  return { number: writeNumber(scaled, shown.decimals, mark), unit: prefixSymbol(shown.prefix) + unit };
}

/**
 * Writes a computed `value` (in `unit`) with an engineering prefix and as many digits as end at the power of ten `last`
 * (`-2`: hundredths of the unit), so that no more is shown than was measured.
 */
export function formatComputed(value: number, unit: Unit, last: number, mark: DecimalMark): QuantityText {
  return formatShown(value, unit, shownFor(value, last), mark);
}

/** Joins number and unit with a no-break space, as the SI Brochure (section 5.4.3) sets them. */
export function joinQuantity(text: QuantityText): string {
  return `${text.number}\u00a0${text.unit}`;
}

/** The prefix and digits that write `value` down to the power of ten `last` without inventing a digit. */
export function shownFor(value: number, last: number): Shown {
  const prefix = Math.max(engineeringPrefix(value), 3 * Math.ceil(last / 3));
  return { prefix, decimals: Math.max(0, prefix - last) };
}

/** `value · 10^power` by one correctly rounded operation, where the power of ten is itself exact. */
export function scaleBy(value: number, power: number): number {
  return power < 0 ? value / 10 ** -power : value * 10 ** power;
}

function writeNumber(value: number, decimals: number, mark: DecimalMark): string {
  const text = Math.abs(value).toFixed(Math.min(decimals, 20));
  const negative = value < 0 && Number(text) !== 0;
  return (negative ? '\u2212' : '') + (mark === ',' ? text.replace('.', ',') : text);
}
