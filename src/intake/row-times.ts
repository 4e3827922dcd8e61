import type { FilePlan } from '../domain/file-plan.ts';
import { DAY } from './calendar.ts';
import { NumberScanner } from './number-scanner.ts';
import { stateOfWord } from './state-words.ts';
import { TimeScanner } from './time-scanner.ts';

/** Reads the moment of each row from its time, date, clock or elapsed column, and from the start that the plan states. */
export class RowTimes {
  /** What is wrong with the last row's time, as the end of a sentence. */
  fault: string | undefined;
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
  #day: number;
  #lastClock = 0;

  constructor(plan: FilePlan) {
    const place = (field: string): number => plan.columns.findIndex((column) => column.field === field);
    this.#plan = plan;
    this.#time = place('time');
    this.#date = place('date');
    this.#clock = place('clock');
    this.#elapsed = place('elapsed');
    this.#elapsedUnit = elapsedUnit(plan.columns[this.#elapsed]?.header ?? '');
    this.#day = Math.floor((plan.given.start ?? NaN) / DAY) * DAY;
  }

  /** The row's local wall time in milliseconds; `NaN` where it states none, or where `fault` tells why it cannot be read. */
  read(cells: readonly string[]): number {
    this.fault = undefined;
    if (this.#time >= 0) return this.#readTime(cells, this.#time);
    if (this.#date >= 0) return this.#readDate(cells);
    if (this.#clock >= 0) return this.#readTime(cells, this.#clock);
    if (this.#elapsed >= 0) return this.#readElapsed(cells);
    return this.#plan.given.start ?? NaN;
  }

  #readTime(cells: readonly string[], column: number): number {
    const cell = cells[column] ?? '';
    const scanner = this.#scanner;
    if (column === this.#clock && scanner.scanClock(cell)) return this.#onStatedDay(scanner.time, column);
    const fault = scanner.scan(cell, this.#plan.dateOrder);
    if (fault !== undefined) return this.#isBlank(cell) ? NaN : this.#fail(column, fault);
    if (scanner.zoned) this.zoned += 1;
    return scanner.parts === 'clock' ? this.#onStatedDay(scanner.time, column) : scanner.time;
  }

  /** A clock on the stated day; where it runs back by half a day or more, midnight has passed. */
  #onStatedDay(clock: number, column: number): number {
    if (Number.isNaN(this.#day)) return this.#fail(column, 'is a time without its day: state the day for the file');
    if (clock < this.#lastClock - DAY / 2) this.#day += DAY;
    this.#lastClock = clock;
    return this.#day + clock;
  }

  #readDate(cells: readonly string[]): number {
    const cell = cells[this.#date] ?? '';
    const fault = this.#scanner.scan(cell, this.#plan.dateOrder);
    if (fault !== undefined) return this.#isBlank(cell) ? NaN : this.#fail(this.#date, fault);
    if (this.#scanner.parts === 'clock')
      return this.#fail(this.#date, 'is a time of day where a day is expected: correct it');
    if (this.#scanner.parts === 'moment' && this.#clock < 0) return this.#scanner.time;
    const day = Math.floor(this.#scanner.time / DAY) * DAY;
    if (this.#clock < 0) return day;
    const clock = cells[this.#clock] ?? '';
    if (this.#isBlank(clock)) return day;
    if (!this.#scanner.scanClock(clock))
      return this.#fail(this.#clock, 'is no time of day: write it as hours:minutes:seconds');
    if (this.#scanner.zoned) this.zoned += 1;
    return day + this.#scanner.time;
  }

  #readElapsed(cells: readonly string[]): number {
    const cell = (cells[this.#elapsed] ?? '').trim();
    if (this.#isBlank(cell)) return NaN;
    const start = this.#plan.given.start;
    if (start === undefined)
      return this.#fail(this.#elapsed, 'counts from a start that is not known: state it for the file');
    if (cell.includes(':') && this.#scanner.scanClock(cell)) return start + this.#scanner.time;
    const read = this.#number.scan(cell, 0, this.#plan.decimalMark) && this.#number.end === cell.length;
    if (!read) return this.#fail(this.#elapsed, 'is no number of seconds: write digits only');
    return start + Math.round(this.#number.value(0) * this.#elapsedUnit);
  }

  #isBlank(cell: string): boolean {
    return stateOfWord(cell) === 'blank';
  }

  #fail(column: number, fault: string): number {
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
