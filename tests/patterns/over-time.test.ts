import fc from '../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { partsOverTime } from '../../src/patterns/over-time.ts';
import { shareChange } from '../../src/patterns/share-change.ts';
import { DAY, failing, MONDAY, record, times } from './examined.ts';

/** Ten repairs in each week, so many of them with a failed C1. */
function weeks(...failed: readonly number[]) {
  return failed.flatMap((count, week) =>
    times(10, (at) =>
      failing(at < count ? ['C1'] : [], { started: MONDAY + (7 * week + (at % 5)) * DAY + 36_000_000 }),
    ),
  );
}

describe('partsOverTime(repairs)', () => {
  test('counts by weeks from Monday, with the limits of the p chart for their size', () => {
    const [c1] = partsOverTime(weeks(1, 2, 0));
    expect(c1).toMatchObject({ part: 'C1', failed: 3, repairs: 30, centre: 0.1 });
    expect(c1?.weeks.map(({ week, failed, repairs }) => [week, failed, repairs])).toEqual([
      [MONDAY, 1, 10],
      [MONDAY + 7 * DAY, 2, 10],
      [MONDAY + 14 * DAY, 0, 10],
    ]);
    // NIST/SEMATECH e-Handbook 6.3.3.2: centre plus three times the root of p (1 - p) / n.
    expect(c1?.weeks[0]?.upper).toBeCloseTo(0.1 + 3 * Math.sqrt(0.009), 12);
    expect(c1?.weeks[0]?.lower).toBe(0);
  });

  test('says nothing of trend or change in fewer than six weeks', () => {
    const [c1] = partsOverTime(weeks(1, 2, 3, 4, 5));
    expect(c1?.trend).toBeUndefined();
    expect(c1?.change).toBeUndefined();
  });

  test('finds the week in which a share began to be higher', () => {
    const [c1] = partsOverTime(weeks(1, 0, 1, 1, 0, 5, 4, 6, 5, 4));
    expect(c1?.change).toMatchObject({
      week: MONDAY + 5 * 7 * DAY,
      before: { count: 3, size: 50 },
      after: { count: 24, size: 50 },
    });
    expect(c1?.change?.adjusted).toBeLessThan(0.001);
  });

  test('finds a steady rise, with its slope in share per week', () => {
    const [c1] = partsOverTime(weeks(0, 1, 1, 2, 3, 3, 4, 5, 5, 6));
    expect(c1?.trend?.test.p).toBeLessThan(0.001);
    expect(c1?.trend?.slope).toBeCloseTo(0.0667, 3);
    expect(c1!.trend!.low).toBeGreaterThan(0.05);
    expect(c1!.trend!.high).toBeLessThan(0.08);
  });

  test('finds none where the share stays as it was', () => {
    const [c1] = partsOverTime(weeks(2, 1, 2, 3, 2, 1, 2, 3));
    expect(c1?.change?.adjusted).toBeGreaterThan(0.2);
  });

  test('leaves weeks without repairs out, and takes the day received where there are no readings', () => {
    const found = partsOverTime([
      failing(['Q1'], { record: record({ received: MONDAY + 2 * DAY }) }),
      failing([], { record: record({ received: MONDAY + 22 * DAY }) }),
      failing(['Q1'], { record: record({ received: NaN }) }),
      failing(['Q1']),
    ]);
    expect(found[0]).toMatchObject({ failed: 1, repairs: 2 });
    expect(found[0]?.weeks.map(({ week }) => week)).toEqual([MONDAY, MONDAY + 21 * DAY]);
    expect(partsOverTime([])).toEqual([]);
  });
});

describe('shareChange(counts, sizes)', () => {
  test('is the split at which before and after differ most by likelihood', () => {
    const sample = fc
      .integer({ min: 1, max: 12 })
      .chain((size) => fc.tuple(fc.integer({ min: 0, max: size }), fc.constant(size)));
    fc.assert(
      fc.property(fc.array(sample, { minLength: 4, maxLength: 12 }), (samples) => {
        const [counts, sizes] = [samples.map(([count]) => count), samples.map(([, size]) => size)];
        const change = shareChange(counts, sizes);
        const total = counts.reduce((a, b) => a + b, 0);
        if (total === 0 || total === sizes.reduce((a, b) => a + b, 0)) {
          expect(change).toBeUndefined();
          return;
        }
        const gains = times(counts.length - 3, (at) => logLikelihood(counts, sizes, 0, at + 2) + logLikelihood(counts, sizes, at + 2));
        expect(gains[change!.at - 2]).toBeCloseTo(Math.max(...gains), 9);
        expect(change!.p).toBeGreaterThan(0);
        expect(change!.p).toBeLessThanOrEqual(1);
      }),
    ); // prettier-ignore
  });
});

function logLikelihood(counts: readonly number[], sizes: readonly number[], from: number, to?: number): number {
  const sum = (values: readonly number[]) => values.slice(from, to).reduce((a, b) => a + b, 0);
  const [k, n] = [sum(counts), sum(sizes)];
  const term = (part: number) => (part === 0 ? 0 : part * Math.log(part / n));
  return term(k) + term(n - k);
}
