import fc from '../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { emptyLog } from '../../src/columns/append.ts';
import type { Reading } from '../../src/domain/reading.ts';
import { medianInterval } from '../../src/patterns/median-interval.ts';
import { medianPolish } from '../../src/patterns/median-polish.ts';
import { mayHaveTurned, meterOffsets } from '../../src/patterns/meter-offsets.ts';
import { rankChange } from '../../src/patterns/rank-change.ts';
import { normalCdf } from '../../src/statistics/distributions/normal.ts';
import { Random } from '../support/bench/random.ts';
import { examineBench } from '../support/examined-bench.ts';
import { logOf } from '../support/readings.ts';
import { DAY, MONDAY, times } from './examined.ts';

/** A repair a day by each meter, whose readings scatter by ±0.1 % about its own gain. */
function daily(meter: string, days: number, gainOn: (day: number) => number): readonly Partial<Reading>[] {
  return times(days, (day) => {
    const scatter = 1 + 0.001 * Math.sin(7 * day + meter.charCodeAt(0));
    const value = (volts: number) => volts * gainOn(day) * scatter;
    const own = { meter, repair: `${meter} ${day}`, time: MONDAY + day * DAY };
    return [{ ...own, point: '12V main', value: value(12) }, { ...own, point: '5V standby', value: value(5) }];
  }).flat(); // prettier-ignore
}

describe('meterOffsets(log)', () => {
  test('names the meter that reads high, against the one in the middle', () => {
    const {
      periods,
      test: differ,
      onlyDifference,
    } = meterOffsets(
      logOf(...daily('M1', 30, () => 1), ...daily('M2', 30, () => 1.016), ...daily('M3', 30, () => 0.999)),
    );
    expect(periods.map(({ meter }) => meter)).toEqual(['M1', 'M2', 'M3']);
    expect(periods[1]?.percent).toBeCloseTo(1.6, 1);
    expect(periods[1]!.low).toBeGreaterThan(1.4);
    expect(periods[0]?.percent).toBeCloseTo(0, 1);
    expect(differ?.p).toBeLessThan(1e-6);
    expect(onlyDifference).toBe(false);
  });

  test('says that of two steady meters only the difference is known', () => {
    const { periods, onlyDifference } = meterOffsets(
      logOf(...daily('M1', 20, () => 1), ...daily('M2', 20, () => 1.02)),
    );
    expect(onlyDifference).toBe(true);
    expect(periods[1]!.percent - periods[0]!.percent).toBeCloseTo(2, 1);
  });

  test('tells the day on which a meter began to drift', () => {
    const log = logOf(
      ...daily('M1', 60, () => 1),
      ...daily('M2', 60, (day) => (day < 20 ? 1 : 1.016)),
      ...daily('M3', 60, () => 1),
    );
    const drifted = meterOffsets(log).periods.filter(({ meter }) => meter === 'M2');
    expect(drifted.map(({ since, repairs }) => [since, repairs])).toEqual([[MONDAY, 20], [MONDAY + 20 * DAY, 40]]); // prettier-ignore
    expect(drifted[1]?.percent).toBeCloseTo(1.6, 1);
  });

  test('counts meters with too few repairs, and stands an empty log', () => {
    const { periods, tooFew } = meterOffsets(logOf(...daily('M1', 30, () => 1), ...daily('M9', 4, () => 1.5)));
    expect(tooFew).toEqual([{ meter: 'M9', repairs: 4 }]);
    expect(periods.map(({ meter }) => meter)).toEqual(['M1']);
    expect(meterOffsets(emptyLog())).toEqual({ periods: [], test: undefined, onlyDifference: true, tooFew: [] });
  });

  test('on the simulated bench finds M2 1.6 % high from 16 February on, within 0.2 %', () => {
    const { periods } = meterOffsets(examineBench({ seed: 1, repairs: 300 }).log);
    const drifted = periods.filter(({ meter }) => meter === 'M2');
    expect(drifted).toHaveLength(2);
    expect(Math.abs(drifted[1]!.percent - 1.6)).toBeLessThan(0.2);
    expect(Math.abs(drifted[1]!.since - Date.UTC(2026, 1, 16))).toBeLessThan(7 * DAY);
    for (const { percent } of periods.filter((period) => period !== drifted[1]))
      expect(Math.abs(percent)).toBeLessThan(0.3);
  });
});

describe('mayHaveTurned(value, limits, percent)', () => {
  const limits = { low: 11.4, high: 12.6 };

  test('says whether the offset moved a reading over a limit', () => {
    expect(mayHaveTurned(12.7, limits, 1.6)).toBe(true);
    expect(mayHaveTurned(11.5, limits, 1.6)).toBe(true);
    expect(mayHaveTurned(12, limits, 1.6)).toBe(false);
    expect(mayHaveTurned(14, limits, 1.6)).toBe(false);
  });
});

describe('medianInterval(values, confidence)', () => {
  // Ranks of the 95 % interval by the binomial law of the sign test: 1 and 6 of 6, 2 and 9 of 10, 6 and 15 of 20 (tables, from memory).
  test.each([
    [6, 1, 6],
    [10, 2, 9],
    [20, 6, 15],
  ])('of %i values lies between those of rank %i and %i', (n, low, high) => {
    expect(medianInterval(times(n, (at) => at + 1), 0.95)).toEqual({ n, median: (n + 1) / 2, low, high }); // prettier-ignore
  });

  test('is undefined with too few values for the confidence', () => {
    expect(medianInterval([1, 2, 3, 4, 5], 0.95)).toBeUndefined();
    expect(medianInterval([], 0.95)).toBeUndefined();
  });
});

describe('medianPolish(table)', () => {
  test('finds the effects of a table that is additive but for one wild value', () => {
    const cells = times(15, (at) => ({ row: at % 5, column: Math.floor(at / 5) }));
    const { rows, columns } = medianPolish({
      row: Uint32Array.from(cells, ({ row }) => row),
      column: Uint32Array.from(cells, ({ column }) => column),
      value: Float64Array.from(cells, ({ row, column }, at) => (at === 7 ? 900 : 10 * row + [0, 3, -2][column]!)),
    });
    expect([...rows]).toEqual([0, 10, 20, 30, 40]);
    expect([...columns]).toEqual([0, 3, -2]);
  });
});

describe('rankChange(values, margin)', () => {
  test('is at the clearest split by the count of Mann and Whitney over all pairs', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 4, maxLength: 25 }), (values) => {
        const n = values.length;
        const scores = times(n - 1, (at) => {
          const [before, after] = [values.slice(0, at + 1), values.slice(at + 1)];
          const sum = before.reduce((all, a) => all + after.reduce((own, b) => own + Math.sign(a - b), 0), 0);
          return Math.abs(sum) / Math.sqrt((before.length * after.length * (n + 1)) / 3);
        });
        const change = rankChange(values, 1)!;
        expect(scores[change.at - 1]).toBeCloseTo(Math.max(...scores), 9);
        expect(change.p).toBeCloseTo(Math.min(1, 2 * (n - 1) * normalCdf(-Math.max(...scores))), 9);
      }),
    );
  });

  test('cries wolf at the level, at most, where nothing changed', () => {
    const random = new Random(3);
    const alarms = times(
      400,
      () =>
        rankChange(
          times(60, () => random.uniform()),
          10,
        )!.p,
    ).filter((p) => p <= 0.05);
    expect(alarms.length).toBeLessThanOrEqual(20);
  });

  test('is undefined with fewer values than two margins', () => {
    expect(rankChange([1, 2, 3], 2)).toBeUndefined();
  });
});
