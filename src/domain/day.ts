/** Milliseconds of a day. */
export const DAY = 86_400_000;

/** No clock shows half a millisecond: it marks a day of which no time is known, and is kept, sorted and sent like any other time. */
const DAY_ONLY = 0.5;

/**
 * A day whose time of day is not known, as a reading's time: its start and half a millisecond, which stands for no time of day at all.
 * @param day - local wall time in milliseconds counted as if UTC, at any time of that day
 */
export function dayOnly(day: number): number {
  return Math.floor(day / DAY) * DAY + DAY_ONLY;
}

/** Whether a reading's time tells its day alone, so that nothing may order it within the day. */
export function isDayOnly(time: number): boolean {
  return time % 1 !== 0 && time === dayOnly(time);
}
