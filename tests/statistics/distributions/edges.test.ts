import { describe, expect, test } from 'vitest';
import { chiSquareQuantile, chiSquareUpperTail } from '../../../src/statistics/distributions/chi-square.ts';
import { noncentralTCdf } from '../../../src/statistics/distributions/noncentral-t.ts';
import { normalCdf, normalLogCdf } from '../../../src/statistics/distributions/normal.ts';
import { studentTCdf, studentTQuantile } from '../../../src/statistics/distributions/student-t.ts';

describe('at the edges of their domain the distributions', () => {
  test('give NaN for NaN, and come back at all', () => {
    for (const value of [normalCdf(NaN), normalLogCdf(NaN), chiSquareUpperTail(NaN, 3), studentTCdf(NaN, 3)]) {
      expect(value).toBeNaN();
    }
    expect(noncentralTCdf(NaN, 3, 1)).toBeNaN();
  });

  test('reach 0 and 1 at infinity', () => {
    expect([normalCdf(-Infinity), normalCdf(Infinity)]).toEqual([0, 1]);
    expect([studentTCdf(-Infinity, 3), studentTCdf(Infinity, 3)]).toEqual([0, 1]);
    expect(chiSquareUpperTail(Infinity, 3)).toBe(0);
  });

  test('throw where a quantile has no value', () => {
    expect(() => chiSquareQuantile(NaN, 3)).toThrow('no sign change');
    expect(() => studentTQuantile(2, 3)).toThrow('no sign change');
  });
});
