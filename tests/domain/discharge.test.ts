import { describe, expect, test } from 'vitest';
import { dischargeTime, TOUCH_LIMIT } from '../../src/domain/discharge.ts';

describe('dischargeTime(farads, ohms, start, end)', () => {
  // t = R·C·ln(V₀/V), the natural discharge of a first-order RC circuit; worked to nine digits with an independent calculator.
  test.each([
    [1e-6, 1e6, 325, 1.68948062],
    [470e-6, 100e3, 400, 89.16463929],
  ])('%d F through %d Ω falls from %d V to the touch limit in %d s', (farads, ohms, start, seconds) => {
    expect(dischargeTime(farads, ohms, start)).toBeCloseTo(seconds, 8);
  });

  test('an RC of 1.18379576 s is the largest that falls from 325 V to 60 V in 2 s', () => {
    expect(dischargeTime(1, 1.18379576, 325)).toBeCloseTo(2, 7);
  });

  // What is left after 1 to 5 time constants: e^-1 … e^-5.
  test.each([0.36787944, 0.13533528, 0.04978707, 0.01831564, 0.00673795])('leaves a share of %d after whole time constants', (share) => {
    const constants = dischargeTime(1, 1, 1, share);
    expect(constants).toBeCloseTo(Math.round(constants), 5);
    expect(Math.round(constants)).toBeGreaterThan(0);
  }); // prettier-ignore

  // Energy source class 1 ends at 60 V d.c.: IEC 62368-1, table 4, seen second-hand.
  test('the touch limit is 60 V', () => {
    expect(TOUCH_LIMIT).toBe(60);
  });

  test('takes no time at or below the limit, and for ever without a path or to zero volts', () => {
    expect(dischargeTime(1e-4, 1e5, 60)).toBe(0);
    expect(dischargeTime(1e-4, 1e5, 12)).toBe(0);
    expect(dischargeTime(1e-4, Infinity, 325)).toBe(Infinity);
    expect(dischargeTime(1e-4, 1e5, 325, 0)).toBe(Infinity);
  });

  test.each([
    [0, 1e5, 325],
    [-1e-4, 1e5, 325],
    [1e-4, 0, 325],
    [1e-4, 1e5, -325],
    [NaN, 1e5, 325],
  ])('refuses %d F, %d Ω and %d V', (farads, ohms, start) => {
    expect(() => dischargeTime(farads, ohms, start)).toThrow(RangeError);
  });
});
