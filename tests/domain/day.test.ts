import { expect, test } from 'vitest';
import { DAY, dayOnly, isDayOnly } from '../../src/domain/day.ts';

test('a day alone is told from every moment of it, midnight too, and stays within its day', () => {
  const start = Date.UTC(2026, 2, 1);
  const day = dayOnly(start + 5 * 3_600_000);
  expect(isDayOnly(day)).toBe(true);
  expect([start, start + 1, start + DAY - 1, NaN].some(isDayOnly)).toBe(false);
  expect(Math.floor(day / DAY) * DAY).toBe(start);
  expect(isDayOnly(dayOnly(Date.UTC(1969, 6, 20, 20)))).toBe(true);
});
