import type { DateOrder } from '../domain/file-plan.ts';
import { dayStart, fullYear, isDay } from './calendar.ts';
import type { Fault } from './fault.ts';
import { monthOfWord } from './month-names.ts';

const LONGEST = 64;
const REMEDY = 'Write it as year-month-day hours:minutes:seconds, such as 2026-03-01 08:15:30.';
const NO_TIME: Fault = { wrong: 'is no time that can be read', remedy: REMEDY };
const OPEN_ORDER: Fault = {
  wrong: 'has day and month in an order that this file does not settle',
  remedy: 'Choose their order for the file, or write the year first, such as 2026-03-01.',
};
/** Lengths of `2026-03-01T08:15` and `2026-03-01T08:15:30.250`. */
const MINUTE_LENGTH = 16;
const LONGEST_ISO = 23;

/** What a cell gives of a moment. */
export type TimeParts = 'moment' | 'day' | 'clock';

/**
 * Reads local wall times: ISO 8601 and its cousins, day-month-year and month-day-year, 12-hour clocks.
 *
 * A wall time becomes milliseconds counted as if it were UTC, so that no zone and no clock change ever shifts it. Nothing is known of the
 * bench's zone: the hour that a clock change repeats keeps the file's order, and one that it leaves out is kept as written.
 * A zone stated behind a time is left off, the wall time stays; `zoned` tells.
 * Fields hold the answer until the next scan.
 */
export class TimeScanner {
  /** Milliseconds: since 1970 for a moment or a day, since midnight for a clock. */
  time = NaN;
  parts: TimeParts = 'moment';
  zoned = false;
  readonly #minute = new Uint16Array(MINUTE_LENGTH);
  #minuteStart = 0;

  /** Reads `cell`. @returns what is wrong, or undefined where it was read */
  scan(cell: string, order: DateOrder): Fault | undefined {
    this.zoned = false;
    if (this.#scanIso(cell)) return undefined;
    return this.#scanLoose(plainBlanks(cell), order);
  }

  /** Reads a cell of a column of clocks. @param expected - whether `10.39` and `1039` are clocks too. @returns whether it is one */
  scanClock(cell: string, expected = true): boolean {
    const clock = readClock(plainBlanks(cell), expected);
    if (!clock) return false;
    this.parts = 'clock';
    this.time = clock.millis;
    this.zoned = clock.zoned;
    return true;
  }

  /** The usual form, without an object made: `2026-03-01T08:15:30.250`, T or a blank between, seconds and fraction optional. */
  #scanIso(cell: string): boolean {
    const length = cell.length;
    if (length < MINUTE_LENGTH || length > LONGEST_ISO) return false;
    if (!this.#isSameMinute(cell) && !this.#scanMinute(cell)) return false;
    let millis = 0;
    if (length > MINUTE_LENGTH) {
      const second = pair(cell, 17);
      if (length < 19 || cell.charCodeAt(16) !== 58 || !(second < 60)) return false;
      millis = second * 1000;
      if (length > 19) {
        const mark = cell.charCodeAt(19);
        if ((mark !== 46 && mark !== 44) || length === 20) return false;
        for (let at = 20, weight = 100; at < length; at += 1, weight /= 10) {
          const digit = cell.charCodeAt(at) - 48;
          if (!(digit >= 0 && digit <= 9)) return false;
          millis += digit * weight;
        }
      }
    }
    this.parts = 'moment';
    this.time = this.#minuteStart + millis;
    return true;
  }

  /** Compared from the end, where neighbouring rows differ first; by characters, which costs less than `startsWith`. */
  #isSameMinute(cell: string): boolean {
    let at = MINUTE_LENGTH - 1;
    while (at >= 0 && cell.charCodeAt(at) === this.#minute[at]) at -= 1;
    return at < 0;
  }

  /** Reads day, hour and minute at the start of a cell, and remembers them: neighbouring rows mostly share them. */
  #scanMinute(cell: string): boolean {
    const between = cell.charCodeAt(10);
    if (cell.charCodeAt(4) !== 45 || cell.charCodeAt(7) !== 45 || cell.charCodeAt(13) !== 58) return false;
    if (between !== 84 && between !== 32) return false;
    const year = pair(cell, 0) * 100 + pair(cell, 2);
    const month = pair(cell, 5);
    const day = pair(cell, 8);
    const hour = pair(cell, 11);
    const minute = pair(cell, 14);
    if (!(year >= 0 && hour < 24 && minute < 60) || !isDay(year, month, day)) return false;
    this.#minuteStart = dayStart(year, month, day) + (hour * 60 + minute) * 60_000;
    for (let at = 0; at < MINUTE_LENGTH; at += 1) this.#minute[at] = cell.charCodeAt(at);
    return true;
  }

  #scanLoose(cell: string, order: DateOrder): Fault | undefined {
    if (cell.length > LONGEST) return NO_TIME;
    if (this.scanClock(cell, false)) return undefined;
    const date = readDate(cell, order);
    if ('wrong' in date) return date;
    const rest = cell.slice(date.end).replace(/^(?:[T ]|, ?)\s*/, '');
    if (rest === '') {
      this.parts = 'day';
      this.time = date.day;
      return undefined;
    }
    const time = rest.length < cell.length - date.end ? readClock(rest, true) : undefined;
    if (!time) return { wrong: `has “${rest}” behind its day, which is no time of day`, remedy: REMEDY };
    this.parts = 'moment';
    this.time = date.day + time.millis;
    this.zoned = time.zoned;
    return undefined;
  }
}

/** Two digits as a number, `NaN` where they are none. */
function pair(text: string, at: number): number {
  const tens = text.charCodeAt(at) - 48;
  const ones = text.charCodeAt(at + 1) - 48;
  return tens >= 0 && tens <= 9 && ones >= 0 && ones <= 9 ? 10 * tens + ones : NaN;
}

const HALF_AND_ZONE = / ?([aApP]\.? ?[mM]\.?)? ?(Z|[+-]\d\d(?::?\d\d)?|[A-Z]{2,5})?$/.source;
/** With colons: a clock wherever it stands. */
const CLOCK = new RegExp(`^(\\d{1,2})(?::([0-5]\\d)(?::([0-5]\\d|60)(?:[.,:](\\d{1,9}))?)?)?${HALF_AND_ZONE}`);
/** With points, or digits alone (ISO 8601 basic): a clock only where one is expected, for `12.03.26` may be a day. */
const LOOSE_CLOCK = new RegExp(`^(\\d{1,2})\\.?([0-5]\\d)(?:\\.?([0-5]\\d|60)(?:[.,](\\d{1,9}))?)?${HALF_AND_ZONE}`);

/** The text with a plain blank for each that does not break, which many languages set before AM and PM. */
function plainBlanks(text: string): string {
  return text.replace(/[\u00a0\u2009\u202f]/g, ' ').trim();
}

/** A time of day in milliseconds since midnight. @param expected - whether nothing but a clock can stand here */
function readClock(text: string, expected: boolean): { millis: number; zoned: boolean } | undefined {
  const found = CLOCK.exec(text) ?? (expected ? LOOSE_CLOCK.exec(text) : null);
  if (!found) return undefined;
  const [, hourText, minute, second, fraction, half, zone] = found;
  if (minute === undefined && half === undefined) return undefined;
  let hour = Number(hourText);
  if (half !== undefined) {
    if (hour < 1 || hour > 12) return undefined;
    hour = (hour % 12) + (/^p/i.test(half) ? 12 : 0);
  }
  const minutes = Number(minute ?? 0);
  const seconds = Number(second ?? 0) + Number(`0.${fraction ?? 0}`);
  // ISO 8601 lets a day end at 24:00.
  if (hour > 24 || (hour === 24 && minutes + seconds > 0)) return undefined;
  return { millis: (hour * 60 + minutes) * 60_000 + Math.floor(seconds * 1000 + 1e-6), zoned: zone !== undefined };
}

interface DateFound {
  readonly day: number;
  readonly end: number;
}

/** The day that a text starts with, or what is wrong with it. */
function readDate(text: string, order: DateOrder): DateFound | Fault {
  const found =
    /^(\d{4})([-/.])(\d{1,2})\2(\d{1,2})(?!\d)/.exec(text) ?? /^(\d{4})()(\d{2})(\d{2})(?=$|[T ])/.exec(text);
  if (found) return dayOf(text, Number(found[1]), Number(found[3]), Number(found[4]), found[0].length);
  const named = namedDate(text);
  if (named) return named;
  const numeric = /^(\d{1,2})([-/.])(\d{1,2})\2(\d{4}|\d{2})(?!\d)/.exec(text);
  if (!numeric) return NO_TIME;
  if (order === 'year-month-day') return OPEN_ORDER;
  const [whole, first, , second, yearText] = numeric;
  const year = yearText!.length === 2 ? fullYear(Number(yearText)) : Number(yearText);
  const [day, month] = order === 'day-month-year' ? [first, second] : [second, first];
  return dayOf(text, year, Number(month), Number(day), whole.length);
}

/** `24 October 2011`, `1-Jan-26`, `Oct 24, 2011`, `3 de marzo de 2026`, in any language. */
function namedDate(text: string): DateFound | Fault | undefined {
  const dayFirst = /^(\d{1,2})[ .-]{1,2}(?:de )?([\p{L}\p{M}]{3,14})\.?[ -]{1,2}(?:de )?(\d{4}|\d{2})(?!\d)/u.exec(
    text,
  );
  const monthFirst = dayFirst ? null : /^([\p{L}\p{M}]{3,14})\.? (\d{1,2}),? (\d{4})(?!\d)/u.exec(text);
  const found = dayFirst ?? monthFirst;
  if (!found) return undefined;
  const [day, name] = dayFirst ? [found[1], found[2]] : [found[2], found[1]];
  const month = monthOfWord(name!);
  const year = found[3]!.length === 2 ? fullYear(Number(found[3])) : Number(found[3]);
  if (month === 'several')
    return { wrong: `has the month “${name!}”, which is another one in another language`, remedy: REMEDY };
  if (month === undefined) return { wrong: `has the month “${name!}”, which is none that is known`, remedy: REMEDY };
  return dayOf(text, year, month, Number(day), found[0].length);
}

function dayOf(text: string, year: number, month: number, day: number, end: number): DateFound | Fault {
  if (!isDay(year, month, day)) {
    return { wrong: `names the day ${text.slice(0, end)}, which no calendar has`, remedy: 'Correct the day.' };
  }
  return { day: dayStart(year, month, day), end };
}
