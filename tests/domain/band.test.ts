import { describe, expect, test } from 'vitest';
import { bandFault, limitsOf } from '../../src/domain/band.ts';
import { peakOfSine, rectifiedPeak } from '../../src/domain/mains.ts';

describe('limitsOf(expects, mains)', () => {
  test('gives both limits of a band between two values and of a percentage of its nominal', () => {
    expect(limitsOf({ kind: 'between', low: 11.4, high: 12.6 })).toEqual({ low: 11.4, high: 12.6 });
    expect(limitsOf({ kind: 'percent', nominal: 3.3, percent: 5 })).toEqual({ low: 3.135, high: 3.465 });
    expect(limitsOf({ kind: 'percent', nominal: -12, percent: 5 })).toEqual({ low: -12.6, high: -11.4 });
  });

  test('leaves the other side of a one-sided band open', () => {
    expect(limitsOf({ kind: 'at least', limit: 1e6 })).toEqual({ low: 1e6, high: Infinity });
    expect(limitsOf({ kind: 'open', limit: 1e6 })).toEqual({ low: 1e6, high: Infinity });
    expect(limitsOf({ kind: 'at most', limit: 2 })).toEqual({ low: -Infinity, high: 2 });
    expect(limitsOf({ kind: 'shorted', limit: 2 })).toEqual({ low: -Infinity, high: 2 });
  });

  test('follows the mains that was measured, else the stated one, else none', () => {
    const follows = { kind: 'rectified mains', below: 10, above: 3 } as const;
    const limits = limitsOf(follows, 230);
    expect(limits?.low).toBeCloseTo(0.9 * (230 * Math.SQRT2 - 2), 9);
    expect(limits?.high).toBeCloseTo(1.03 * (230 * Math.SQRT2 - 2), 9);
    expect(limitsOf({ ...follows, mains: 230 })).toEqual(limits);
    expect(limitsOf(follows)).toBeUndefined();
  });
});

describe('rectified mains', () => {
  // The peak of a sine is √2 times its r.m.s. value; 120 V and 230 V are nominal voltages of IEC 60038.
  test('peakOfSine(rms) is 169.7 V for 120 V mains and 325.3 V for 230 V mains', () => {
    expect(peakOfSine(120)).toBeCloseTo(169.706, 3);
    expect(peakOfSine(230)).toBeCloseTo(325.269, 3);
  });

  // Common practice, no source: about 168 V and 323 V at the bulk capacitor.
  test('rectifiedPeak(rms) takes two diode drops off', () => {
    expect(Math.round(rectifiedPeak(120))).toBe(168);
    expect(Math.round(rectifiedPeak(230))).toBe(323);
  });
});

describe('bandFault(expects)', () => {
  test('says in a sentence why a band cannot be used', () => {
    expect(bandFault({ kind: 'between', low: 12.6, high: 11.4 })).toContain('swap');
    expect(bandFault({ kind: 'percent', nominal: 12, percent: 0 })).toContain('above zero');
    expect(bandFault({ kind: 'percent', nominal: 0, percent: 5 })).toContain('nominal');
    expect(bandFault({ kind: 'at least', limit: NaN })).toContain('no number');
    expect(bandFault({ kind: 'rectified mains', below: 100, above: 3 })).toContain('100 %');
  });

  test('finds nothing wrong with a usable band', () => {
    expect(bandFault({ kind: 'between', low: 5, high: 5 })).toBeUndefined();
    expect(bandFault({ kind: 'rectified mains', below: 10, above: 3 })).toBeUndefined();
  });
});
