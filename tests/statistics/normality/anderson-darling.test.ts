import { describe, expect, test } from 'vitest';
import { normalCdf, normalQuantile } from '../../../src/statistics/distributions/normal.ts';
import { andersonDarling } from '../../../src/statistics/normality/anderson-darling.ts';
import { heatFlowZarr13 } from '../../support/published/heat-flow-zarr13.ts';
import { expectWithin } from '../expect-within.ts';

describe('andersonDarling', () => {
  test('heat flow data ZARR13.DAT, NIST/SEMATECH e-Handbook 1.4.2.8', () => {
    const result = andersonDarling(Object.freeze([...heatFlowZarr13]));
    expectWithin(result.statistic, 0.126478783109832, 1e-9);
    expectWithin(result.adjusted, 0.12697272391961, 1e-9);
    expectWithin(result.p, 0.985018961985652, 1e-9);
    // The page prints 0.129 (from memory), which is the same statistic under Stephens' older factor.
    expect(result.statistic * (1 + 4 / 195 - 25 / 195 ** 2)).toBeCloseTo(0.129, 3);
  });

  test("weights of 20 chicks, D'Agostino and Stephens 1986, ch. 4 (data from memory)", () => {
    const weights = [
      156, 162, 168, 182, 186, 190, 190, 196, 202, 210, 214, 220, 226, 230, 230, 236, 236, 242, 246, 270,
    ];
    const result = andersonDarling(Object.freeze(weights));
    expectWithin(result.statistic, 0.214174258231196, 1e-12);
    expectWithin(result.p, 0.825976408009947, 1e-12);
  });

  test('is its defining sum', () => {
    const sorted = [1, 2, 2.5, 4, 4.5, 7, 8, 15];
    const centre = 5.5;
    const spread = Math.sqrt(sorted.reduce((sum, x) => sum + (x - centre) ** 2, 0) / 7);
    const f = sorted.map((x) => normalCdf((x - centre) / spread));
    const sum = f.reduce((total, p, i) => total + (2 * i + 1) * (Math.log(p) + Math.log(1 - f[7 - i]!)), 0);
    expectWithin(andersonDarling(sorted).statistic, -8 - sum / 8, 1e-12);
  });

  test('the p-value falls piece by piece as the readings bend away from a normal', () => {
    const pValues = [0, 0.2, 0.4, 0.6, 0.8, 1, 1.5, 3].map((bend) => {
      const readings = Array.from({ length: 60 }, (_, i) => normalQuantile((i + 0.5) / 60));
      return andersonDarling(readings.map((z) => z + bend * z * z)).p;
    });
    expect(pValues).toEqual([...pValues].sort((a, b) => b - a));
    expect(pValues[0]).toBeGreaterThan(0.99);
    expect(pValues.at(-1)).toBeLessThan(1e-6);
  });

  test('stays a number where one reading is thousands of deviations off', () => {
    const readings = Array.from({ length: 5000 }, (_, i) => (i === 0 ? 1e9 : i % 7));
    const { statistic, p } = andersonDarling(readings);
    expect(Number.isFinite(statistic)).toBe(true);
    expect(p).toBeLessThan(1e-20);
    expect(p).toBeGreaterThan(0);
  });

  test('refuses fewer than 8 readings, equal ones, and those that are not finite', () => {
    expect(() => andersonDarling([1, 2, 3, 4, 5, 6, 7])).toThrow(
      'Anderson-Darling test needs at least 8 readings, got 7',
    );
    expect(() => andersonDarling(new Array(9).fill(3) as number[])).toThrow('readings that differ');
    expect(() => andersonDarling([1, 2, 3, 4, 5, 6, 7, NaN])).toThrow('finite');
  });
});
