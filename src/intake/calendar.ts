import { DAY } from '../domain/day.ts';

/** Days from the first of March of the year 0 to 1970-01-01. */
const DAYS_TO_1970 = 719_468;

/** Whether the Gregorian calendar has this day. */
export function isDay(year: number, month: number, day: number): boolean {
  return month >= 1 && month <= 12 && day >= 1 && day <= daysInMonth(year, month) && year >= 0 && year <= 9999;
}

function daysInMonth(year: number, month: number): number {
  if (month === 2) return (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0 ? 29 : 28;
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
}

/**
 * Milliseconds from 1970-01-01 to a day, counted as if UTC. Every reading asks for one, so no date object is made:
 * years are counted from March, so that a leap day ends its year, and months of 30 and 31 days follow one line.
 */
export function dayStart(year: number, month: number, day: number): number {
  const fromMarch = month > 2 ? year : year - 1;
  const leapDays = Math.floor(fromMarch / 4) - Math.floor(fromMarch / 100) + Math.floor(fromMarch / 400);
  const dayOfYear = Math.floor((153 * ((month + 9) % 12) + 2) / 5) + day - 1;
  return (365 * fromMarch + leapDays + dayOfYear - DAYS_TO_1970) * DAY;
}

/** A two-digit year in full: 69 to 99 mean 1969 to 1999, 00 to 68 mean 2000 to 2068. Source: POSIX.1-2017, strptime, %y. */
export function fullYear(twoDigits: number): number {
  return twoDigits + (twoDigits >= 69 ? 1900 : 2000);
}
