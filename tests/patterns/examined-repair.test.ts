import { describe, expect, test } from 'vitest';
import { compareParts, mondayOf, weekNumber } from '../../src/patterns/examined-repair.ts';
import { CONTRADICTORY, DAY, examined, GOOD, MONDAY, record, SHORTED, SUSPECTED } from './examined.ts';

describe('an examined repair', () => {
  test('has failed parts only where they are proved failed', () => {
    const repair = examined({ Q1: SHORTED, Q2: SUSPECTED, Q3: GOOD, Q4: CONTRADICTORY, F1: SHORTED });
    expect(repair.failed).toEqual(['Q1', 'F1']);
    expect(repair.contradictory).toEqual(['Q4']);
  });

  test('needs the parts that failed and those that are suspected', () => {
    expect(examined({ Q1: SHORTED, Q2: SUSPECTED, Q3: GOOD }).needed).toEqual(['Q1', 'Q2']);
  });

  test('begins at its first reading, else on the day received, else at no known time', () => {
    const received = record({ received: MONDAY });
    expect(examined({}, { started: MONDAY + 5, record: received }).begun).toBe(MONDAY + 5);
    expect(examined({}, { record: received }).begun).toBe(MONDAY);
    expect(examined({}, { record: record({ received: NaN }) }).begun).toBeNaN();
    expect(examined({}).begun).toBeNaN();
  });

  test('falls into a week from Monday to Sunday, before 1970 too', () => {
    const week = weekNumber(MONDAY);
    expect(mondayOf(week)).toBe(MONDAY);
    expect(weekNumber(MONDAY + 7 * DAY - 1)).toBe(week);
    expect(weekNumber(MONDAY - 1)).toBe(week - 1);
    expect(mondayOf(weekNumber(Date.UTC(1969, 11, 31)))).toBe(Date.UTC(1969, 11, 29));
  });
});

describe('compareParts(a, b)', () => {
  test('puts D2 before D11', () => {
    expect(['D11', 'BR1', 'D2'].sort(compareParts)).toEqual(['BR1', 'D2', 'D11']);
  });
});
