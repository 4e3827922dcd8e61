import type { DecimalMark } from '../../domain/quantity.ts';
import type { DerivedField, ReadingRow } from '../../session/answers.ts';
import { amountText, numberText } from './computed-text.ts';

const RATIO_DIGITS = 3;

/** What a derived column says of a reading: a difference in its unit, a share or a multiple; empty where it has none. */
export function derivedText(field: DerivedField, row: ReadingRow, mark: DecimalMark): string {
  const value = row.derived?.[field] ?? NaN;
  if (Number.isNaN(value)) return '';
  switch (field) {
    case 'margin':
      return amountText(value, row, mark);
    case 'margin-in-u':
      return `${numberText(value.toFixed(1), mark)}\u00a0U`;
    case 'deviation':
      return `${plus(value)}${numberText(value.toFixed(1), mark)}\u00a0%`;
    case 'change':
      return `${plus(value)}${amountText(value, row, mark)}`;
    case 'ratio':
      return numberText(ratioDigits(value), mark);
    case 'robust-z':
      return `${plus(value)}${numberText(value.toFixed(1), mark)}`;
  }
}

/** A change says its direction, also where it goes up. */
function plus(value: number): string {
  return value > 0 ? '+' : '';
}

/** Three significant digits, without an exponent up to a million and down to a millionth. */
function ratioDigits(value: number): string {
  const text = value.toPrecision(RATIO_DIGITS);
  const magnitude = Math.abs(value);
  return text.includes('e') && magnitude >= 1e-6 && magnitude < 1e6 ? String(Number(text)) : text;
}
