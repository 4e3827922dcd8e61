import { describe, expect, test } from 'vitest';
import { activityPeriod, type Activity } from '../../src/patterns/activity-period.ts';

const DAY = 86_400_000;
const day = (number: number): number => Date.UTC(2026, 0, 5) + number * DAY;
/** A repair a day, each an hour's work. */
const work = (days: number): Activity[] =>
  Array.from({ length: days }, (_, at) => ({ repair: `T-${at}`, time: day(at) + 9 * 3_600_000 }));

describe('activityPeriod(activities)', () => {
  test('runs from the first day with work to the last', () => {
    expect(activityPeriod(work(12))).toEqual({ first: day(0), last: day(11) });
    expect(activityPeriod([{ repair: 'T-1', time: NaN }])).toBeUndefined();
    expect(activityPeriod([])).toBeUndefined();
  });

  test('does not believe what one repair alone says of a time far from all others, in the future or the past', () => {
    const mistyped = [
      { repair: 'T-3', time: Date.UTC(2062, 2, 1) },
      { repair: 'T-3', time: Date.UTC(2062, 2, 4) },
      { repair: 'T-5', time: Date.UTC(2027, 2, 4) },
      { repair: 'T-6', time: Date.UTC(1926, 2, 4) },
    ];
    expect(activityPeriod([...work(12), ...mistyped])).toEqual({ first: day(0), last: day(11) });
  });

  test('believes it where a second repair says so too, or where it is near', () => {
    const again = ['T-3', 'T-4'].map((repair, at) => ({ repair, time: day(100 + at) }));
    expect(activityPeriod([...work(12), ...again])?.last).toBe(day(101));
    expect(activityPeriod([...work(12), { repair: 'T-3', time: day(60) }])?.last).toBe(day(60));
  });

  test('believes everything where there are too few repairs to tell', () => {
    expect(activityPeriod([...work(5), { repair: 'T-3', time: day(400) }])?.last).toBe(day(400));
  });
});
