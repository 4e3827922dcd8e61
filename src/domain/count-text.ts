import type { DecimalMark } from './quantity.ts';

const COUNTS = { '.': new Intl.NumberFormat('en'), ',': new Intl.NumberFormat('de') } as const;

/** A whole number with its thousands apart, in the manner that goes with the decimal mark. */
export function countText(count: number, mark: DecimalMark): string {
  // The formatter is slow, and most counts have no thousands.
  return Number.isInteger(count) && count >= 0 && count < 1000 ? String(count) : COUNTS[mark].format(count);
}

/** A count and what is counted: `1 reading`, `4,012 readings`. */
export function countOf(count: number, noun: string, mark: DecimalMark): string {
  return `${countText(count, mark)} ${count === 1 ? noun : `${noun}s`}`;
}
