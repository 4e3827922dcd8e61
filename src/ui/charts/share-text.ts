import type { DecimalMark } from '../../domain/quantity.ts';
import { countText } from '../words.ts';

/** A share in whole percent, below one with a decimal: `36 %`, `0.4 %`. */
export function percentText(share: number, mark: DecimalMark): string {
  return `${percentDigits(share, mark)}\u00a0%`;
}

/** An interval of a share in whole percent: `36 to 57 %`. */
export function shareText({ low, high }: { readonly low: number; readonly high: number }, mark: DecimalMark): string {
  return `${percentDigits(low, mark)} to ${percentDigits(high, mark)}\u00a0%`;
}

/** A number with so many decimals, and a true minus sign. */
export function fixedText(value: number, decimals: number, mark: DecimalMark): string {
  const text = Math.abs(value).toFixed(decimals);
  const minus = value < 0 && Number(text) !== 0 ? '\u2212' : '';
  return minus + (mark === ',' ? text.replace('.', ',') : text);
}

/** A probability as it is read: `p = 0.03`, `p < 0.001`. */
export function chanceText(p: number, mark: DecimalMark): string {
  if (p < 0.001) return `p < ${fixedText(0.001, 3, mark)}`;
  return `p = ${fixedText(p, p < 0.01 ? 3 : 2, mark)}`;
}

function percentDigits(share: number, mark: DecimalMark): string {
  const percent = share * 100;
  return percent >= 0.05 && percent < 0.95 ? fixedText(percent, 1, mark) : countText(Math.round(percent), mark);
}
