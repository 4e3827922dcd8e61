import { describe, expect, test } from 'vitest';
import { DEFAULT_SETTINGS, proposeBand, type GoodReadings } from '../../src/learning/propose-band.ts';
import { andersonDarling } from '../../src/statistics/normality/anderson-darling.ts';
import { Random } from '../support/bench/random.ts';

const good = (values: readonly number[], given: Partial<GoodReadings> = {}): GoodReadings => ({
  values: Object.freeze([...values]),
  overRange: 0,
  lastDigit: -2,
  ...given,
});

function normals(count: number, seed: number, centre = 12, spread = 0.1): number[] {
  const random = new Random(seed);
  return Array.from({ length: count }, () => Math.round(100 * random.normal(centre, spread)) / 100);
}

describe('proposeBand(good, settings)', () => {
  // The exact two-sided factor for n 10, content and confidence 95 %, is 3.39343 (ISO 16269-6 and Odeh and Owen; agreement with print from memory).
  test('gives ten normal readings mean ± 3.39343 s, rounded outward to the meter’s digit', () => {
    const values = [11.9, 12.1, 12.05, 11.95, 12, 12.02, 11.98, 12.08, 11.92, 12];
    const mean = 12;
    const deviation = Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / 9);
    const proposal = proposeBand(good(values));
    expect(proposal).toMatchObject({ method: 'normal', scale: 'linear', count: 10, removed: [], stopgap: false });
    expect(proposal.exact.low).toBeCloseTo(mean - 3.39343 * deviation, 5);
    expect(proposal.exact.high).toBeCloseTo(mean + 3.39343 * deviation, 5);
    expect(proposal.expects).toEqual({
      kind: 'between',
      low: Math.floor((mean - 3.39343 * deviation) * 100) / 100,
      high: Math.ceil((mean + 3.39343 * deviation) * 100) / 100,
    });
  });

  test('screens a wild reading, says how far it lies, and keeps it where told to', () => {
    const values = [...normals(40, 3), 14.9];
    const proposal = proposeBand(good(values));
    expect(proposal.removed.map(({ index, kept }) => [index, kept])).toEqual([[40, false]]);
    expect(proposal.removed[0]?.statistic).toBeGreaterThan(proposal.removed[0]?.critical ?? Infinity);
    expect(proposal.removed[0]?.modifiedZ).toBeGreaterThan(3.5);
    const kept = proposeBand(good(values), { ...DEFAULT_SETTINGS, kept: new Set([40]) });
    expect(kept.count).toBe(41);
    expect(kept.exact.high).toBeGreaterThan(proposal.exact.high);
  });

  // Wilks (1941): two-sided 95 % / 95 % needs 93 readings; then the least and the greatest are the limits.
  test('takes the extremes of 93 readings that are not normal', () => {
    const values = Array.from({ length: 93 }, (_, index) => (index % 2 ? 11 + index / 1000 : 13 + index / 1000));
    const proposal = proposeBand(good(values, { lastDigit: -3 }));
    expect(proposal.method).toBe('distribution-free');
    expect(proposal.exact).toEqual({ low: 11.001, high: 13.092 });
    expect(proposal.twoGroups?.map((centre) => Math.round(centre))).toEqual([11, 13]);
  });

  test('says how many boards are wanted where the readings are not normal and too few for more', () => {
    const values = Array.from({ length: 40 }, (_, index) => (index % 2 ? 11 + index / 1000 : 13 + index / 1000));
    expect(proposeBand(good(values, { lastDigit: -3 }))).toMatchObject({
      method: 'normal',
      stopgap: true,
      boardsWanted: 53,
    });
  });

  // Exact two-sided factors, 95 % / 95 %: 5.07687 for n 5, 3.39343 for n 10.
  test('says how many more boards bring the band within what the marking promises', () => {
    const values = [11.9, 11.95, 12, 12.05, 12.1];
    const spread = Math.sqrt(0.025 / 4);
    const settings = { ...DEFAULT_SETTINGS, promised: 3.3935 * spread };
    expect(proposeBand(good(values), settings).boardsWanted).toBe(5);
    expect(proposeBand(good(values), { ...settings, promised: 5.08 * spread }).boardsWanted).toBe(0);
    expect(proposeBand(good(values), { ...settings, promised: 1.9 * spread }).boardsWanted).toBe(Infinity);
  });

  test('works on the logarithms of readings that span decades', () => {
    const values = [1e5, 2e5, 4e5, 8e5, 1.6e6, 3.2e6, 6.4e6];
    const proposal = proposeBand(good(values, { lastDigit: 3 }));
    expect(proposal.scale).toBe('log');
    expect(proposal.exact.low).toBeGreaterThan(0);
    expect(proposal.exact.low * proposal.exact.high).toBeCloseTo(8e5 ** 2, -6);
  });

  test('takes over-range as a share: nearly all ask for an open circuit, some for "at least"', () => {
    const open = { overRange: 12, openAbove: 1e6 };
    expect(proposeBand(good([], open)).expects).toEqual({ kind: 'open', limit: 1e6 });
    expect(proposeBand(good([], { ...open, rangeLimit: 6e6 })).expects).toEqual({ kind: 'open', limit: 6e6 });
    const some = proposeBand(good([2e6, 3e6, 2.5e6, 4e6, 3.5e6], { overRange: 3, lastDigit: 4 }));
    expect(some.expects.kind).toBe('at least');
    expect(some.overRange).toBe(3);
  });

  test('refuses over-range that is no open circuit, as a rail above the range is none', () => {
    expect(() => proposeBand(good([], { overRange: 12 }))).toThrow('measure on a larger range');
  });

  test('gives one-sided limits where one side is wanted', () => {
    const values = normals(30, 5);
    const atMost = proposeBand(good(values), { ...DEFAULT_SETTINGS, sides: 'at most' });
    expect(atMost.expects.kind).toBe('at most');
    expect(atMost.exact.low).toBe(-Infinity);
    expect(atMost.exact.high).toBeLessThan(proposeBand(good(values)).exact.high);
  });

  test('leaves a lower limit under zero out where nothing can be negative', () => {
    const fuse = good([0.2, 0.3, 0.6, 0.4, 0.3], { lastDigit: -1 });
    expect(proposeBand(fuse).expects.kind).toBe('between');
    expect(proposeBand({ ...fuse, nonNegative: true }).expects.kind).toBe('at most');
  });

  test('refuses a low limit where the readings reach down to zero', () => {
    const fuse = good([0, 0.1, 0.2, 0.1], { lastDigit: -1, nonNegative: true });
    expect(() => proposeBand(fuse, { ...DEFAULT_SETTINGS, sides: 'at least' })).toThrow('choose the high side');
    expect(() => proposeBand({ ...fuse, overRange: 2 })).toThrow('choose the high side');
  });

  test('takes no reading out of the tail of a skewed distribution, but one that no tail explains', () => {
    const random = new Random(11);
    const skewed = Array.from({ length: 200 }, () => Number((10 + random.exponential(1)).toFixed(3)));
    const plain = proposeBand(good(skewed, { lastDigit: -3 }));
    expect(plain).toMatchObject({ method: 'distribution-free', removed: [], count: 200 });
    const slip = proposeBand(good([...skewed, 120], { lastDigit: -3 }));
    expect(slip.removed.map(({ index }) => index)).toEqual([200]);
    expect(slip.exact).toEqual(plain.exact);
  });

  test('does not take the steps of a coarse meter for a lack of normality', () => {
    const random = new Random(4);
    const fine = Array.from({ length: 400 }, () => random.normal(12, 0.02));
    const coarse = fine.map((value) => Math.round(value * 100) / 100);
    const p = proposeBand(good(coarse)).normality!;
    expect(Math.abs(p - andersonDarling(fine).p)).toBeLessThan(0.05);
    expect(p).toBeGreaterThan(0.05);
    expect(andersonDarling(coarse).p).toBeLessThan(0.01);
  });

  test('refuses one reading, none, and equal ones with a sentence', () => {
    expect(() => proposeBand(good([12]))).toThrow('at least two good boards, and there is one');
    expect(() => proposeBand(good([]))).toThrow('there are none');
    expect(() => proposeBand(good([12, 12, 12]))).toThrow('All readings here are the same number');
    expect(() => proposeBand(good([5e6], { overRange: 3, openAbove: 1e6 }))).toThrow(
      'Only one reading here is a number',
    );
    expect(() => proposeBand(good([...Array<number>(99).fill(12), 13]))).toThrow(
      'All readings here but a few far ones',
    );
  });

  test('holds 95 % of the true distribution in at least 95 % of samples, within Monte Carlo error', () => {
    const trials = 400;
    for (const count of [5, 10, 30, 100]) {
      let holds = 0;
      const random = new Random(count);
      for (let trial = 0; trial < trials; trial += 1) {
        const values = Array.from({ length: count }, () => random.normal(0, 1));
        const { exact } = proposeBand(good(values, { lastDigit: -6 }));
        if (normalShare(exact.low, exact.high) >= 0.95) holds += 1;
      }
      const error = 3 * Math.sqrt((0.95 * 0.05) / trials);
      expect(holds / trials, `${count} readings`).toBeGreaterThan(0.95 - error);
    }
  });
});

/** Share of the standard normal between two limits, by Simpson's rule. */
function normalShare(low: number, high: number): number {
  const steps = 200;
  const width = (high - low) / steps;
  let sum = 0;
  for (let step = 0; step <= steps; step += 1) {
    const weight = step === 0 || step === steps ? 1 : step % 2 ? 4 : 2;
    sum += weight * Math.exp(-((low + step * width) ** 2) / 2);
  }
  return (sum * width) / 3 / Math.sqrt(2 * Math.PI);
}
