import { describe, expect, test } from 'vitest';
import { cChartLimits } from '../../../src/statistics/control-charts/c-chart-limits.ts';
import { individualsChartLimits } from '../../../src/statistics/control-charts/individuals-chart-limits.ts';
import { pChart } from '../../../src/statistics/control-charts/p-chart.ts';
import { tabularCusum } from '../../../src/statistics/control-charts/tabular-cusum.ts';
import { expectWithin } from '../expect-within.ts';

describe('pChart', () => {
  // NIST/SEMATECH e-Handbook 6.3.3.2: shares of 50 chips a wafer.
  const shares = [
    0.24, 0.3, 0.16, 0.2, 0.08, 0.14, 0.32, 0.18, 0.28, 0.2, 0.1, 0.12, 0.34, 0.24, 0.44, 0.16, 0.2, 0.1, 0.26, 0.22,
    0.4, 0.36, 0.48, 0.3, 0.18, 0.24, 0.14, 0.26, 0.18, 0.12,
  ];
  const counts = Object.freeze(shares.map((share) => Math.round(share * 50)));
  const sizes = Object.freeze(shares.map(() => 50));

  test('chips, e-Handbook 6.3.3.2: limits 0.0524 and 0.4102, wafers 15 and 23 outside', () => {
    const { centre, points } = pChart(counts, sizes);
    expectWithin(centre, 0.2313333333333333, 1e-14);
    expectWithin(points[0]!.upper, 0.4102391185947384, 1e-13);
    expectWithin(points[0]!.lower, 0.052427548071928204, 1e-13);
    expect(points.flatMap(({ outside }, i) => (outside ? [i + 1] : []))).toEqual([15, 23]);
  });

  test('a smaller sample has wider limits, cut at 0 and 1', () => {
    const { centre, points } = pChart([50, 1, 0], [100, 2, 1]);
    expectWithin(centre, 51 / 103, 1e-14);
    expect(points[1]).toMatchObject({ lower: 0, upper: 1, outside: false });
    expect(points[0]!.upper - centre).toBeLessThan(points[1]!.upper - centre);
  });

  test('refuses what has no meaning', () => {
    expect(() => pChart([], [])).toThrow('p chart needs at least 1 reading');
    expect(() => pChart([1], [2, 3])).toThrow('as many counts as sizes, got 1 and 2');
    expect(() => pChart([3], [2])).toThrow('counts within sizes, got 3 of 2');
    expect(() => pChart([0], [0])).toThrow('whole size of at least 1');
    expect(() => pChart([0.5], [2])).toThrow('whole count');
  });
});

describe('cChartLimits', () => {
  test('wafer defects, e-Handbook 6.3.3.1: limits 4 and 28, of which 28 itself is in control', () => {
    const counts = Object.freeze([
      16, 14, 28, 16, 12, 20, 10, 12, 10, 17, 19, 17, 14, 16, 15, 13, 14, 16, 11, 20, 11, 19, 16, 31, 13,
    ]);
    const limits = cChartLimits(counts);
    expect(limits).toEqual({ centre: 16, lower: 4, upper: 28 });
    expect(counts.flatMap((count, i) => (count > limits.upper || count < limits.lower ? [i + 1] : []))).toEqual([24]);
  });

  test('the lower limit is never below 0, and counts are whole', () => {
    expect(cChartLimits([1, 2, 3]).lower).toBe(0);
    expect(() => cChartLimits([1, 2.5])).toThrow('c chart needs a whole count');
    expect(() => cChartLimits([])).toThrow('at least 1 reading');
  });
});

describe('individualsChartLimits', () => {
  test('flow rates, e-Handbook 6.3.2.2: 50.81, 45.8159 and 55.8041', () => {
    const limits = individualsChartLimits(Object.freeze([49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1]));
    expectWithin(limits.centre, 50.81, 1e-12);
    expectWithin(limits.upper, 55.804089834515366, 1e-12);
    expectWithin(limits.lower, 45.81591016548464, 1e-12);
  });

  test('refuses a single reading', () => {
    expect(() => individualsChartLimits([1])).toThrow('individuals chart needs at least 2 readings, got 1');
  });
});

describe('tabularCusum', () => {
  // NIST/SEMATECH e-Handbook 6.3.2.3, where the columns are printed to two places.
  const data = Object.freeze([
    324.925, 324.675, 324.725, 324.35, 325.35, 325.225, 324.125, 324.525, 325.225, 324.6, 324.625, 325.15, 328.325,
    327.25, 327.825, 328.5, 326.675, 327.775, 326.875, 328.35,
  ]);
  const high = [0, 0, 0, 0, 0.0325, 0, 0, 0, 0, 0, 0, 0, 3.0075, 4.94, 7.4475, 10.63, 11.9875, 14.445, 16.0025, 19.035];
  const low = [0, 0.0075, 0, 0.3325, 0, 0, 0.5575, 0.715, 0.1725, 0.255, 0.3125, 0, 0, 0, 0, 0, 0, 0, 0, 0];

  test('e-Handbook 6.3.2.3: both columns, and the first signal in group 14', () => {
    const result = tabularCusum(data, 325, 0.3175, 4.1959);
    result.high.forEach((sum, i) => {
      expect(sum).toBeCloseTo(high[i]!, 9);
    });
    result.low.forEach((sum, i) => {
      expect(sum).toBeCloseTo(low[i]!, 9);
    });
    expect(result.signal).toEqual({ side: 'high', at: 13, onset: 12 });
  });

  test('the mirror image signals low', () => {
    const mirrored = data.map((value) => 650 - value);
    expect(tabularCusum(mirrored, 325, 0.3175, 4.1959).signal).toEqual({ side: 'low', at: 13, onset: 12 });
  });

  test('a shift from the first reading on has its onset there', () => {
    expect(tabularCusum([2, 2, 2], 0, 0.5, 4).signal).toEqual({ side: 'high', at: 2, onset: 0 });
  });

  test('readings on target do not signal', () => {
    expect(tabularCusum([1, -1, 1, -1], 0, 0.5, 4).signal).toBeUndefined();
  });

  test('refuses what has no meaning', () => {
    expect(() => tabularCusum([], 0, 1, 1)).toThrow('cusum needs at least 1 reading');
    expect(() => tabularCusum([1], NaN, 1, 1)).toThrow('finite target');
    expect(() => tabularCusum([1], 0, -1, 1)).toThrow('finite allowance of at least 0');
    expect(() => tabularCusum([1], 0, 1, -1)).toThrow('finite decision interval of at least 0');
  });
});
