import { isDayOnly } from '../domain/day.ts';
import type { DecimalMark } from '../domain/quantity.ts';

export { countOf, countText } from '../domain/count-text.ts';
export { listText } from '../domain/list-text.ts';

/** The day of a local wall time counted as if UTC, as ISO 8601 writes it; empty where unknown. */
export function dayText(time: number): string {
  return Number.isNaN(time) ? '' : new Date(time).toISOString().slice(0, 10);
}

/** Day, hour and minute of a local wall time counted as if UTC; empty where unknown. */
export function minuteText(time: number): string {
  return Number.isNaN(time)
    ? ''
    : new Date(time)
        .toISOString()
        .slice(0, isDayOnly(time) ? 10 : 16)
        .replace('T', ' ');
}

/** Day, hour and minute of a moment in the time of this place. @param at - milliseconds since 1970, UTC */
export function momentText(at: number): string {
  return minuteText(at - new Date(at).getTimezoneOffset() * 60_000);
}

/** Seconds, minutes or hours with two significant digits, which is all that a computed time is worth: `1.7 s`, `89 s`, `4.2 min`. */
export function durationText(seconds: number, mark: DecimalMark): string {
  if (seconds === Infinity) return 'for ever';
  const [amount, unit] =
    seconds < 120 ? [seconds, 's'] : seconds < 7200 ? [seconds / 60, 'min'] : [seconds / 3600, 'h'];
  const text = amount >= 10 ? String(Math.round(amount)) : String(Number(amount.toPrecision(2)));
  return `${mark === ',' ? text.replace('.', ',') : text}\u00a0${unit}`;
}
