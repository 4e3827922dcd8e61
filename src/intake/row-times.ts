import { DAY, dayOnly } from '../domain/day.ts';
import type { FilePlan, Given } from '../domain/file-plan.ts';
import { CLOCK_FOR_DAY, type Fault } from './fault.ts';
import { NumberScanner } from './number-scanner.ts';
import { stateOfWord } from './state-words.ts';
import { TimeScanner } from './time-scanner.ts';

const NO_DAY: Fault = {
  wrong: 'is a time without its day',
  remedy: 'State the day for the whole file, or for this line.',
};
const NO_CLOCK: Fault = {
  wrong: 'is no time of day',
  remedy: 'Write it as hours:minutes:seconds, such as 08:15:30.',
};
const NO_START: Fault = {
  wrong: 'counts from a start that is not known',
  remedy: 'State the start for the whole file, or for this line.',
};
const NO_ELAPSED: Fault = {
  wrong: 'is no time that has passed since the start',
  remedy: 'Write it as a number with one decimal mark, or as hours:minutes:seconds.',
};

/** Reads the moment of each row from its time, date, clock or elapsed column, and from the start that the plan states. */
export class RowTimes {
  /** What is wrong with the last row's time. */
  fault: Fault | undefined;
  /** The column and cell that are meant. */
  faultColumn = -1;
  /** Rows whose time names a zone, which is left off. */
  zoned = 0;
  readonly #plan: FilePlan;
  readonly #scanner = new TimeScanner();
  readonly #number = new NumberScanner();
  readonly #time: number;
  readonly #date: number;
  readonly #clock: number;
  readonly #elapsed: number;
  readonly #elapsedUnit: number;
  #start = NaN;
  #day = NaN;
  #lastClock = 0;
  #dated = NaN;
  #datedClock = 0;
  /** Rows without a date that were read on the day of the row above. */
  carried = 0;

  constructor(plan: FilePlan) {
    const place = (field: string): number => plan.columns.findIndex((column) => column.field === field);
    this.#plan = plan;
    this.#time = place('time');
    this.#date = place('date');
    this.#clock = place('clock');
    this.#elapsed = place('elapsed');
    this.#elapsedUnit = elapsedUnit(plan.columns[this.#elapsed]?.header ?? '');
  }

  /** States the day, or the start, of the rows from here on; where it is the same as before, a midnight passed stays passed. */
  useGiven({ start = NaN }: Given): void {
    if (Object.is(start, this.#start)) return;
    this.#start = start;
    this.#day = Math.floor(start / DAY) * DAY;
    this.#lastClock = 0;
  }

  /** The row's local wall time in milliseconds; `NaN` where it states none, or where `fault` tells why it cannot be read. */
  read(cells: readonly string[]): number {
    this.fault = undefined;
    if (this.#time >= 0) return this.#readTime(cells, this.#time);
    if (this.#date >= 0) return this.#readDate(cells);
    if (this.#clock >= 0) return this.#readTime(cells, this.#clock);
    if (this.#elapsed >= 0) return this.#readElapsed(cells);
    return this.#start % DAY === 0 ? dayOnly(this.#start) : this.#start;
  }

  #readTime(cells: readonly string[], column: number): number {
    const cell = cells[column] ?? '';
    const scanner = this.#scanner;
    if (column === this.#clock && scanner.scanClock(cell)) return this.#onStatedDay(scanner.time, column);
    const fault = scanner.scan(cell, this.#plan.dateOrder);
    if (fault !== undefined) return this.#isBlank(cell) ? NaN : this.#fail(column, fault);
    if (scanner.zoned) this.zoned += 1;
    if (scanner.parts === 'clock') return this.#onStatedDay(scanner.time, column);
    return scanner.parts === 'day' ? dayOnly(scanner.time) : scanner.time;
  }

  /** A clock on the stated day; where it runs back by half a day or more, midnight has passed. */
  #onStatedDay(clock: number, column: number): number {
    if (Number.isNaN(this.#day)) return this.#fail(column, NO_DAY);
    if (clock < this.#lastClock - DAY / 2) this.#day += DAY;
    this.#lastClock = clock;
    return this.#day + clock;
  }

  #readDate(cells: readonly string[]): number {
    const cell = cells[this.#date] ?? '';
    const fault = this.#scanner.scan(cell, this.#plan.dateOrder);
    if (fault !== undefined) return this.#isBlank(cell) ? this.#readUndated(cells) : this.#fail(this.#date, fault);
    if (this.#scanner.parts === 'clock') return this.#fail(this.#date, CLOCK_FOR_DAY);
    if (this.#scanner.parts === 'moment' && this.#clock < 0) return this.#scanner.time;
    const day = Math.floor(this.#scanner.time / DAY) * DAY;
    this.#dated = day;
    this.#datedClock = 0;
    if (this.#clock < 0) return dayOnly(day);
    const clock = cells[this.#clock] ?? '';
    if (this.#isBlank(clock)) return dayOnly(day);
    if (!this.#scanner.scanClock(clock)) return this.#fail(this.#clock, NO_CLOCK);
    if (this.#scanner.zoned) this.zoned += 1;
    this.#datedClock = this.#scanner.time;
    return day + this.#scanner.time;
  }

  /** A clock without its date under a dated row: the day stands for the rows below it, and midnight passes where the clock runs back. */
  #readUndated(cells: readonly string[]): number {
    const clock = this.#clock < 0 ? '' : (cells[this.#clock] ?? '');
    if (Number.isNaN(this.#dated) || this.#isBlank(clock)) return NaN;
    if (!this.#scanner.scanClock(clock)) return this.#fail(this.#clock, NO_CLOCK);
    if (this.#scanner.time < this.#datedClock - DAY / 2) this.#dated += DAY;
    this.#datedClock = this.#scanner.time;
    this.carried += 1;
    return this.#dated + this.#scanner.time;
  }

  #readElapsed(cells: readonly string[]): number {
    const cell = (cells[this.#elapsed] ?? '').trim();
    if (this.#isBlank(cell)) return NaN;
    const start = this.#start;
    if (Number.isNaN(start)) return this.#fail(this.#elapsed, NO_START);
    if (cell.includes(':') && this.#scanner.scanClock(cell)) return start + this.#scanner.time;
    const read = this.#number.scan(cell, 0, this.#plan.decimalMark) && this.#number.end === cell.length;
    if (!read) return this.#fail(this.#elapsed, NO_ELAPSED);
    return start + Math.round(this.#number.value(0) * this.#elapsedUnit);
  }

  #isBlank(cell: string): boolean {
    return stateOfWord(cell) === 'blank';
  }

  #fail(column: number, fault: Fault): number {
    this.fault = fault;
    this.faultColumn = column;
    return NaN;
  }
}

/** Milliseconds of the unit that a header of elapsed time names; seconds where it names none. */
function elapsedUnit(header: string): number {
  if (/\bms\b|millisec/i.test(header)) return 1;
  if (/\bmin(ute)?s?\b/i.test(header)) return 60_000;
  return /\bh(ou)?rs?\b|\bh\b/i.test(header) ? 3_600_000 : 1000;
}
