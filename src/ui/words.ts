import type { DecimalMark } from '../domain/quantity.ts';

/** A whole number with its thousands apart, in the manner that goes with the decimal mark. */
export function countText(count: number, mark: DecimalMark): string {
  // The formatter is slow, and most counts have no thousands.
  return Number.isInteger(count) && count >= 0 && count < 1000 ? String(count) : COUNTS[mark].format(count);
}

const COUNTS = { '.': new Intl.NumberFormat('en'), ',': new Intl.NumberFormat('de') } as const;

/** A count and what is counted: `1 reading`, `4,012 readings`. */
export function countOf(count: number, noun: string, mark: DecimalMark): string {
  return `${countText(count, mark)} ${count === 1 ? noun : `${noun}s`}`;
}

/** The day of a local wall time counted as if UTC, as ISO 8601 writes it; empty where unknown. */
export function dayText(time: number): string {
  return Number.isNaN(time) ? '' : new Date(time).toISOString().slice(0, 10);
}

/** Day, hour and minute of a local wall time counted as if UTC; empty where unknown. */
export function minuteText(time: number): string {
  return Number.isNaN(time) ? '' : new Date(time).toISOString().slice(0, 16).replace('T', ' ');
}

/** Day, hour and minute of a moment in the time of this place. @param at - milliseconds since 1970, UTC */
export function momentText(at: number): string {
  return minuteText(at - new Date(at).getTimezoneOffset() * 60_000);
}

/** Texts as a list in a sentence: `a`, `a and b`, `a, b and c`. */
export function listText(texts: readonly string[]): string {
  const last = texts.at(-1) ?? '';
  return texts.length < 2 ? last : `${texts.slice(0, -1).join(', ')} and ${last}`;
}
