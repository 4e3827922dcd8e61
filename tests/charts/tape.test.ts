import fc from '../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { DECADE, HIGH_AT, layOutTape, LOW_AT, type TapeBand, type TapeMark } from '../../src/charts/tape.ts';

function markOf(band: TapeBand, value: number, { decades = false, uncertainty = NaN } = {}): TapeMark | undefined {
  return layOutTape({ band, decades, reading: { kind: 'value', value, uncertainty } }).mark;
}

function placeOf(band: TapeBand, value: number, decades = false): number {
  const mark = markOf(band, value, { decades });
  if (mark?.kind !== 'tick') throw new Error(`The mark is ${String(mark?.kind)}.`);
  return mark.at;
}

describe('the tape of a band between two limits', () => {
  const band = { low: 11.4, high: 12.6 };

  test('puts its limits at a quarter and at three quarters', () => {
    expect(layOutTape({ band, decades: false })).toEqual({
      band: { from: 0.25, to: 0.75 },
      limits: [0.25, 0.75],
    });
    expect(placeOf(band, 11.4)).toBeCloseTo(LOW_AT, 12);
    expect(placeOf(band, 12.6)).toBeCloseTo(HIGH_AT, 12);
    expect(placeOf(band, 12)).toBeCloseTo(0.5, 12);
  });

  test('shows half a band to either side, and an arrowhead beyond', () => {
    expect(placeOf(band, 10.801)).toBeGreaterThan(0);
    expect(markOf(band, 10.799)).toEqual({ kind: 'arrow', to: 'left' });
    expect(placeOf(band, 13.199)).toBeLessThan(1);
    expect(markOf(band, 13.201)).toEqual({ kind: 'arrow', to: 'right' });
  });

  test('draws the uncertainty to scale and ends it with the tape', () => {
    const mark = markOf(band, 12, { uncertainty: 0.12 });
    if (mark?.kind !== 'tick') throw new Error('There is no tick.');
    expect(mark.whisker?.from).toBeCloseTo(0.45, 12);
    expect(mark.whisker?.to).toBeCloseTo(0.55, 12);
    expect(markOf(band, 13.1, { uncertainty: 0.5 })).toMatchObject({ whisker: { to: 1 } });
  });

  test('has no whisker where the uncertainty is unknown', () => {
    expect(markOf(band, 12)).not.toHaveProperty('whisker');
  });

  test('keeps a width where both limits are one value', () => {
    expect(placeOf({ low: 5, high: 5 }, 5)).toBe(0.5);
    expect(placeOf({ low: 5, high: 5 }, 5.05)).toBeCloseTo(1, 9);
    expect(placeOf({ low: 0, high: 0 }, 0.5)).toBe(0.75);
  });

  test('handles limits below zero', () => {
    expect(placeOf({ low: -12.6, high: -11.4 }, -12)).toBeCloseTo(0.5, 12);
  });
});

describe('the tape of a one-sided band', () => {
  test('begins at its low limit and runs to the right end', () => {
    const tape = layOutTape({ band: { low: 100, high: Infinity }, decades: false });
    expect(tape).toEqual({ band: { from: 0.25, to: 1 }, limits: [0.25] });
  });

  test('runs from the left end to its high limit', () => {
    const tape = layOutTape({ band: { low: -Infinity, high: 60 }, decades: false });
    expect(tape).toEqual({ band: { from: 0, to: 0.75 }, limits: [0.75] });
  });

  test('has zero at its left end on a linear scale', () => {
    expect(placeOf({ low: -Infinity, high: 60 }, 0)).toBe(0);
    expect(placeOf({ low: -Infinity, high: 60 }, 40)).toBeCloseTo(0.5, 12);
    expect(placeOf({ low: 50, high: Infinity }, 100)).toBeCloseTo(0.5, 12);
  });

  test('counts a resistance in decades from its limit', () => {
    const atLeast = { low: 100e3, high: Infinity };
    expect(placeOf(atLeast, 100e3, true)).toBeCloseTo(LOW_AT, 12);
    expect(placeOf(atLeast, 1e6, true)).toBeCloseTo(LOW_AT + DECADE, 12);
    expect(placeOf(atLeast, 111, true)).toBeGreaterThan(0);
    expect(markOf(atLeast, 0.6, { decades: true })).toEqual({ kind: 'arrow', to: 'left' });
    expect(placeOf({ low: -Infinity, high: 1 }, 0.1, true)).toBeCloseTo(HIGH_AT - DECADE, 12);
  });

  test('lets zero ohms run off to the left', () => {
    expect(markOf({ low: -Infinity, high: 1 }, 0, { decades: true })).toEqual({ kind: 'arrow', to: 'left' });
  });

  test('falls back to a linear scale where its limit is zero', () => {
    expect(placeOf({ low: 0, high: Infinity }, 0)).toBe(LOW_AT);
    expect(placeOf({ low: 0, high: Infinity }, 1, true)).toBe(0.5);
  });
});

test('a band of resistances that spans decades is drawn by decades, a narrow one is not', () => {
  expect(placeOf({ low: 1e3, high: 100e3 }, 10e3, true)).toBeCloseTo(0.5, 12);
  expect(placeOf({ low: 1e3, high: 2e3 }, 1.5e3, true)).toBeCloseTo(0.5, 12);
  expect(placeOf({ low: 1e3, high: 100e3 }, 50.5e3, false)).toBeCloseTo(0.5, 12);
});

test('over-range is a ring at the right end, below range one at the left end', () => {
  const band = { low: 1, high: 2 };
  expect(layOutTape({ band, decades: true, reading: { kind: 'above' } }).mark).toEqual({ kind: 'ring', to: 'right' });
  expect(layOutTape({ band, decades: true, reading: { kind: 'below' } }).mark).toEqual({ kind: 'ring', to: 'left' });
});

test('without a finite limit there is neither band nor mark', () => {
  const reading = { kind: 'value', value: 1, uncertainty: 0 } as const;
  expect(layOutTape({ decades: false, reading })).toEqual({ limits: [] });
  expect(layOutTape({ band: { low: -Infinity, high: Infinity }, decades: false, reading })).toEqual({ limits: [] });
});

test('a value that is no number has no mark', () => {
  expect(markOf({ low: 1, high: 2 }, NaN)).toBeUndefined();
  expect(markOf({ low: 1, high: Infinity }, NaN, { decades: true })).toBeUndefined();
});

test('a larger value never stands further left, and a tick is inside the shading just where the value is inside the band', () => {
  const magnitude = fc.double({ min: 1e-3, max: 1e7, noNaN: true });
  fc.assert(
    fc.property(magnitude, magnitude, magnitude, magnitude, fc.boolean(), (a, b, u, v, decades) => {
      fc.pre(a !== b);
      const band = { low: Math.min(a, b), high: Math.max(a, b) };
      const place = (value: number): number => {
        const mark = markOf(band, value, { decades });
        if (mark?.kind === 'tick') return mark.at;
        return mark?.kind === 'arrow' && mark.to === 'left' ? -1 : 2;
      };
      expect(place(Math.min(u, v))).toBeLessThanOrEqual(place(Math.max(u, v)));
      const slack = 1e-9;
      if (u > band.low * (1 + slack) && u < band.high * (1 - slack)) {
        expect(place(u)).toBeGreaterThan(LOW_AT - slack);
        expect(place(u)).toBeLessThan(HIGH_AT + slack);
      }
      if (u < band.low) expect(place(u)).toBeLessThan(LOW_AT + slack);
      if (u > band.high) expect(place(u)).toBeGreaterThan(HIGH_AT - slack);
    }),
  );
});
