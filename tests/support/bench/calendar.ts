const DAY = 86_400_000;
const OPENS = 8.5 * 3_600_000;
const CLOSES = 18.5 * 3_600_000;

/** Monday, 5 January 2026. */
export const startOfBench = Date.UTC(2026, 0, 5);

/** Days of work from Monday, 5 January 2026, Monday to Friday, at so many boards a day on average, which may change from day to day. */
export class Calendar {
  #day = startOfBench;
  #room: number;
  #taken = 0;
  #free: number;
  readonly #perDay: (day: number) => number;

  constructor(perDay: (day: number) => number) {
    this.#perDay = perDay;
    this.#room = perDay(this.#day);
    this.#free = this.#day + OPENS;
  }

  /** When the next board can be taken up, in milliseconds. */
  next(): number {
    while (this.#taken >= Math.floor(this.#room) || this.#free > this.#day + CLOSES) this.#nextDay();
    this.#taken++;
    return this.#free;
  }

  /** Keeps the bench busy until then. */
  busyUntil(time: number): void {
    this.#free = time;
  }

  #nextDay(): void {
    do this.#day += DAY;
    while (isWeekend(this.#day));
    this.#room += this.#perDay(this.#day);
    this.#free = Math.max(this.#free, this.#day + OPENS);
  }
}

/** The day of a time, at midnight. */
export function dayOf(time: number): number {
  return Math.floor(time / DAY) * DAY;
}

/** So many days later, or earlier where negative, and on from there in the same direction while it is a weekend. */
export function addDays(time: number, days: number): number {
  let day = time + days * DAY;
  while (isWeekend(day)) day += days < 0 ? -DAY : DAY;
  return day;
}

function isWeekend(time: number): boolean {
  return [0, 6].includes(new Date(time).getUTCDay());
}
