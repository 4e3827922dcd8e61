import { DAY } from '../../domain/day.ts';

/** A number as it is typed, with either decimal mark; `NaN` where it is none. */
export function typedNumber(text: string): number {
  return /^\s*\d+(?:[.,]\d+)?\s*$/.test(text) ? Number(text.replace(',', '.')) : NaN;
}

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
