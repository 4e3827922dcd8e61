/** A longer gap means that the board was put aside, in minutes (common practice, no source). */
const LONGEST_GAP = 60;

/**
 * How long a board was worked on, in minutes: the gaps between its readings, in order of time, without those over an hour.
 * What was done before the first reading and after the last does not show.
 * @param times - times of one repair's readings in milliseconds, ascending; `NaN` where unknown
 * @returns undefined where fewer than two readings have a time
 */
export function minutesAtBench(times: ArrayLike<number>): number | undefined {
  const known = Array.from(times).filter((time) => !Number.isNaN(time));
  if (known.length < 2) return undefined;
  const gaps = known.slice(1).map((time, place) => (time - known[place]!) / 60_000);
  return gaps.filter((gap) => gap <= LONGEST_GAP).reduce((sum, gap) => sum + gap, 0);
}
