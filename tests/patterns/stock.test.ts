import { describe, expect, test } from 'vitest';
import { stockFor } from '../../src/patterns/stock.ts';
import { DAY, examined, MONDAY, times } from './examined.ts';

/** So many repairs that renew Q1 in each week. */
function weeks(...counts: readonly number[]) {
  return counts.flatMap((count, week) =>
    times(count, () => examined({}, { started: MONDAY + (7 * week + 1) * DAY, replaced: new Set(['Q1']) })),
  );
}

describe('stockFor(repairs, weeks, enough)', () => {
  // Poisson with mean 4: P(X <= 7) = 0.9489, P(X <= 8) = 0.9786 (tables of the Poisson distribution).
  test('keeps the Poisson quantile where use is even', () => {
    const [q1] = stockFor(weeks(1, 1, 1, 1, 1, 1, 1, 1), 4, 0.95)!;
    expect(q1).toMatchObject({ part: 'Q1', used: 8, weeksSeen: 8, expected: 4, keep: 8, law: 'Poisson' });
    expect(q1!.low).toBeLessThan(4);
    expect(q1!.high).toBeGreaterThan(4);
  });

  // Garwood 1936: 95 % limits for 8 events are 3.4538 and 15.7632.
  test('has the exact limits of a Poisson mean where use is even', () => {
    const [q1] = stockFor(weeks(1, 1, 1, 1, 1, 1, 1, 1), 8, 0.95)!;
    expect(q1?.low).toBeCloseTo(3.4538, 4);
    expect(q1?.high).toBeCloseTo(15.7632, 4);
  });

  test('keeps more where use comes in batches', () => {
    const [q1] = stockFor(weeks(4, 0, 0, 0, 0, 4, 0, 0, 0, 0, 0, 4), 4, 0.95)!;
    expect(q1).toMatchObject({ expected: 4, law: 'negative binomial' });
    expect(q1!.keep).toBeGreaterThan(8);
  });

  test('counts weeks without repairs, and is undefined with fewer than eight', () => {
    expect(stockFor(weeks(1, 0, 0, 0, 0, 0, 0, 0, 0, 1), 10, 0.9)?.[0]?.expected).toBeCloseTo(2, 12);
    expect(stockFor(weeks(1, 1, 1, 1, 1, 1, 1), 4, 0.95)).toBeUndefined();
    expect(stockFor([examined({}, { replaced: new Set(['Q1']) })], 4, 0.95)).toBeUndefined();
    expect(stockFor([], 4, 0.95)).toBeUndefined();
  });
});
