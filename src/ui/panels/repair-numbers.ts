import type { DecimalMark } from '../../domain/quantity.ts';

/** A number as it is typed, with either decimal mark; `NaN` where it is none. */
export function typedNumber(text: string): number {
  return /^\s*\d+(?:[.,]\d+)?\s*$/.test(text) ? Number(text.replace(',', '.')) : NaN;
}

/** Seconds, minutes or hours with two significant digits, which is all that a computed time is worth: `1.7 s`, `89 s`, `4.2 min`. */
export function durationText(seconds: number, mark: DecimalMark): string {
  if (seconds === Infinity) return 'for ever';
  const [amount, unit] =
    seconds < 120 ? [seconds, 's'] : seconds < 7200 ? [seconds / 60, 'min'] : [seconds / 3600, 'h'];
  const text = amount >= 10 ? String(Math.round(amount)) : String(Number(amount.toPrecision(2)));
  return `${mark === ',' ? text.replace('.', ',') : text}\u00a0${unit}`;
}

const DAY = 86_400_000;

/** A day as it is typed or chosen, `2026-03-14`, in local wall milliseconds counted as if UTC; `NaN` for none, undefined for no such day. */
export function typedDay(text: string): number | undefined {
  if (text.trim() === '') return NaN;
  const day = Date.parse(`${text.trim()}T00:00:00Z`);
  const isWhole = /^\d{4}-\d{2}-\d{2}$/.test(text.trim()) && new Date(day).toISOString().startsWith(text.trim());
  return isWhole ? day : undefined;
}

/** What the clock on the wall shows, in milliseconds counted as if UTC. */
export function wallTime(date: Date): number {
  return Date.UTC(date.getFullYear(), date.getMonth(), date.getDate(), date.getHours(), date.getMinutes());
}

/** Whole days from one day to another, both included: a board that came and went on one day was one day on the bench. */
export function daysBetween(from: number, to: number): number {
  return Math.floor(to / DAY) - Math.floor(from / DAY) + 1;
}
