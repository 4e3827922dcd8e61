import fc from '../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import {
  closerDomain,
  layOutStrip,
  snapped,
  stepDigit,
  stripDomain,
  stripPlace,
  stripValue,
  summariseRows,
  type StripMarks,
} from '../../src/charts/strip.ts';

/** Marks from `[value, row, shape, beyond]`. */
function marksOf(...list: readonly (readonly [value: number, row?: number, shape?: number, beyond?: number])[]) {
  const marks: StripMarks = {
    value: Float64Array.from(list, ([value]) => value),
    row: Uint8Array.from(list, ([, row = 0]) => row),
    shape: Uint8Array.from(list, ([, , shape = 0]) => shape),
    beyond: Int8Array.from(list, ([, , , beyond = 0]) => beyond),
  };
  return marks;
}

const rail = marksOf([11.9], [12, 0, 1], [12.1, 0, 1], [13.4, 1], [0.02, 2]);
const resistances = marksOf([0, 1], [0.4, 1], [250e3], [640e3], [NaN, 0, 1, 1], [NaN, 1, 0, -1]);

describe('stripDomain(marks, limits, decades)', () => {
  test('shows every number and every finite limit', () => {
    const domain = stripDomain(rail, [11.4, 14.5, Infinity], false)!;
    expect(domain.log).toBe(false);
    expect(domain.low).toBe(0);
    expect(domain.high).toBeGreaterThanOrEqual(14.5);
  });

  test('goes by decades where resistances span them, and leaves voltages linear', () => {
    expect(stripDomain(resistances, [50e3], true)).toMatchObject({ log: true });
    expect(stripDomain(resistances, [50e3], false)).toMatchObject({ log: false });
    expect(stripDomain(marksOf([4.7e3], [5e3]), [4.5e3], true)).toMatchObject({ log: false });
  });

  test('has a stretch also for one value, for limits alone, and none for nothing', () => {
    const one = stripDomain(marksOf([5]), [], false)!;
    expect(one.low).toBeLessThan(5);
    expect(one.high).toBeGreaterThan(5);
    expect(stripDomain(marksOf(), [1.5], true)).toMatchObject({ log: false });
    expect(stripDomain(marksOf([NaN, 0, 0, 1]), [Infinity], true)).toBeUndefined();
  });

  test('can come closer to the good readings and the limits, where that shows more', () => {
    const whole = stripDomain(rail, [11.4, 12.6], false)!;
    const closer = closerDomain(rail, 0, [11.4, 12.6], whole)!;
    expect(closer.low).toBeGreaterThan(10);
    expect(closer.low).toBeLessThan(11.4);
    expect(closerDomain(rail, 0, [11.4, 12.6], closer)).toBeUndefined();
  });
});

describe('places on the scale', () => {
  test('a value is found again at its place, on either scale', () => {
    fc.assert(
      fc.property(fc.double({ min: 1, max: 1e6, noNaN: true }), fc.boolean(), (value, log) => {
        const domain = { low: 1, high: 1e6, log };
        expect(stripValue(domain, 900, stripPlace(domain, 900, value)) / value).toBeCloseTo(1, 9);
      }),
    );
  });

  test('decades are equally wide, and zero lies below all of them', () => {
    const domain = { low: 1, high: 1e4, log: true };
    expect([1, 10, 100, 1e4].map((value) => stripPlace(domain, 400, value))).toEqual([0, 100, 200, 400]);
    expect(stripPlace(domain, 400, 0)).toBe(-Infinity);
  });

  test('a limit moves by the last digit, on decades by its own third digit where that is finer', () => {
    expect(stepDigit(12.6, -2, false)).toBe(-2);
    expect(stepDigit(640e3, 4, true)).toBe(3);
    expect(stepDigit(2, 4, true)).toBe(-2);
    expect(stepDigit(2, -3, true)).toBe(-3);
    expect(snapped(12.5949, -2)).toBe(12.59);
    expect(snapped(641_499, 3)).toBe(641e3);
  });
});

describe('layOutStrip(input)', () => {
  const domain = { low: 10, high: 14, log: false };

  test('draws each number once, in its row and shape, and counts apart what has no place', () => {
    const strip = layOutStrip({ marks: rail, rows: 3, domain, width: 400 });
    const drawn = strip.rows.map(({ paths }) => paths.map((path) => path.match(/M[\d.]+ [\d.]+h|a3 3 0 1 0 6/g)?.length ?? 0)); // prettier-ignore
    expect(drawn).toEqual([
      [1, 2],
      [1, 0],
      [0, 0],
    ]);
    expect(strip.rows[2]?.aside).toEqual({ above: 0, below: 0, higher: 0, lower: 1 });
    const ohms = layOutStrip({ marks: resistances, rows: 2, domain: { low: 0.1, high: 1e6, log: true }, width: 400 });
    expect(ohms.rows.map(({ aside }) => aside)).toEqual([
      { above: 1, below: 0, higher: 0, lower: 0 },
      { above: 0, below: 1, higher: 0, lower: 1 },
    ]);
  });

  test('keeps the marks of a row within it, and rows under one another', () => {
    const many = marksOf(...Array.from({ length: 500 }, (_, at): [number, number] => [12 + Math.sin(at), at % 3]));
    const strip = layOutStrip({ marks: many, rows: 3, domain, width: 400 });
    let top = 0;
    for (const row of strip.rows) {
      expect(row.top).toBe(top);
      const places = [...row.paths[0].matchAll(/M([\d.]+) ([\d.]+)h/g)].map((found) => Number(found[2]));
      expect(places.length).toBeGreaterThan(160);
      expect(Math.min(...places)).toBeGreaterThanOrEqual(row.top + 3);
      expect(Math.max(...places)).toBeLessThanOrEqual(row.top + row.height - 3);
      // Spread over the row, not heaped: the places of any two neighbours in order differ.
      expect(new Set(places).size).toBeGreaterThan(places.length / 2);
      top += row.height;
    }
    expect(strip.height).toBe(top);
  });

  test('draws no more marks of a crowded row than there is room for, and none of a sparse one fewer', () => {
    const row = (count: number): StripMarks => marksOf(...Array.from({ length: count }, (_, at): [number] => [10 + (at % 400) / 100])); // prettier-ignore
    const marksIn = (count: number): number =>
      layOutStrip({ marks: row(count), rows: 1, domain, width: 400 }).rows[0]!.paths[0].split('h').length - 1;
    expect(marksIn(2000)).toBe(2000);
    // The squares of two pixels in a row of 400 by 84.
    expect(marksIn(100_000)).toBeLessThanOrEqual(200 * 42);
    expect(marksIn(100_000)).toBeGreaterThan(2000);
  });

  test('labels the scale with round values that have room', () => {
    const linear = layOutStrip({ marks: rail, rows: 3, domain, width: 400 }).ticks;
    expect(linear.map(({ value }) => value)).toEqual([10, 11, 12, 13, 14]);
    const log = layOutStrip({ marks: resistances, rows: 2, domain: { low: 0.3, high: 2e6, log: true }, width: 400 });
    expect(log.ticks.length).toBeGreaterThan(1);
    for (const { value } of log.ticks) expect(Number.isInteger(Number(Math.log10(value).toFixed(9)))).toBe(true);
    const gaps = log.ticks.slice(1).map(({ x }, at) => x - log.ticks[at]!.x);
    expect(Math.min(...gaps)).toBeGreaterThan(50);
  });
});

test('summariseRows() counts numbers and answers beyond the range apart', () => {
  expect(summariseRows(resistances, 2)).toEqual([
    { numbers: 2, above: 1, below: 0, lowest: 250e3, median: 445e3, highest: 640e3 },
    { numbers: 2, above: 0, below: 1, lowest: 0, median: 0.2, highest: 0.4 },
  ]);
  expect(summariseRows(marksOf([NaN, 0, 0, 2]), 1)[0]).toMatchObject({ numbers: 0, above: 0, lowest: NaN });
});
