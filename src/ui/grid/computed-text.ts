import { engineeringPrefix } from '../../domain/prefix.ts';
import {
  formatComputed,
  joinQuantity,
  lastDigit,
  type DecimalMark,
  type QuantityText,
  type Unit,
} from '../../domain/quantity.ts';
import { MODE_UNITS, type Reading } from '../../domain/reading.ts';

/** A difference or an uncertainty of a reading, to the meter's last digit, with two digits at least. */
export function amountText(value: number, reading: Reading, mark: DecimalMark): string {
  const unit = MODE_UNITS[reading.mode];
  const last = lastDigit(reading);
  const own = value === 0 ? last : Math.floor(Math.log10(Math.abs(value)) + 1e-9) - 1;
  const finest = Math.min(last, Math.max(own, engineeringPrefix(value) - 3));
  return joinQuantity(formatComputed(value, unit, finest, mark));
}

/** What several readings come to; small numbers beside large ones keep two digits, although the large ones were measured more coarsely. */
export function computedText(value: number, unit: Unit, last: number, mark: DecimalMark): QuantityText {
  const magnitude = Math.abs(value);
  const isSmall = magnitude > 0 && Number.isFinite(magnitude);
  const finest = isSmall ? Math.min(last, Math.floor(Math.log10(magnitude)) - 1) : last;
  return formatComputed(value, unit, finest, mark);
}

/** A plain number with the decimal mark and the minus sign of the page. */
export function numberText(text: string, mark: DecimalMark): string {
  const signed = text.replace('-', '\u2212');
  return mark === ',' ? signed.replace('.', ',') : signed;
}
