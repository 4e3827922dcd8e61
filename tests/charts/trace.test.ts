import fc from '../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { decimateTrace, panWindow, roundTicks, valueRange, zoomWindow } from '../../src/charts/trace.ts';

const trace = fc
  .array(
    fc.record({
      pause: fc.integer({ min: 0, max: 50 }),
      value: fc.oneof({ weight: 9, arbitrary: fc.double({ min: -1e6, max: 1e6, noNaN: true }) }, fc.constant(NaN)),
    }),
    { minLength: 1, maxLength: 300 },
  )
  .map((entries) => {
    let time = 0;
    const times = Float64Array.from(entries, ({ pause }) => (time += pause));
    return { times, values: Float64Array.from(entries, ({ value }) => value) };
  });

describe('decimateTrace(times, values, window, columns)', () => {
  test('keeps every extreme: each entry lies within its column, and each end of a column is an entry', () => {
    fc.assert(
      fc.property(trace, fc.integer({ min: 1, max: 60 }), fc.integer({ min: 1, max: 9000 }), ({ times, values }, columns, to) => {
        const { low, high, first, last } = decimateTrace(times, values, { from: 0, to }, columns);
        const seen = Array.from({ length: columns }, (): number[] => []);
        times.forEach((time, at) => {
          if (time > to || Number.isNaN(values[at]!)) return;
          seen[Math.min(columns - 1, Math.floor((time * columns) / to))]!.push(values[at]!);
        });
        expect([...low]).toEqual(seen.map((own) => (own.length === 0 ? NaN : Math.min(...own))));
        expect([...high]).toEqual(seen.map((own) => (own.length === 0 ? NaN : Math.max(...own))));
        expect([...first]).toEqual(seen.map((own) => own[0] ?? NaN));
        expect([...last]).toEqual(seen.map((own) => own.at(-1) ?? NaN));
      }),
    ); // prettier-ignore
  });

  test('shows one entry of a million that spikes', () => {
    const times = Float64Array.from({ length: 1_000_000 }, (_, at) => at);
    const values = new Float64Array(1_000_000).fill(12);
    values[654_321] = 3;
    const { low, high } = decimateTrace(times, values, { from: 0, to: 999_999 }, 800);
    expect(low.filter((value) => value === 3)).toHaveLength(1);
    expect(low[Math.floor((654_321 * 800) / 999_999)]).toBe(3);
    expect(Math.max(...high)).toBe(12);
  });

  test('breaks the line at gaps and at entries without a number', () => {
    const times = Float64Array.of(0, 10, 20, 50, 60, 70, 80);
    const values = Float64Array.of(1, 2, NaN, 3, 4, NaN, 5);
    const { broken, first } = decimateTrace(times, values, { from: 0, to: 80 }, 8, 15);
    const drawn = [...first.keys()].filter((column) => !Number.isNaN(first[column]!));
    expect(drawn.map((column) => [first[column], broken[column]])).toEqual([
      [1, 1],
      [2, 0],
      [3, 1],
      [4, 0],
      [5, 1],
    ]);
  });

  test('of a window beside the trace is empty', () => {
    const { low } = decimateTrace(Float64Array.of(5), Float64Array.of(1), { from: 10, to: 20 }, 3);
    expect([...low]).toEqual([NaN, NaN, NaN]);
  });
});

describe('windows', () => {
  const whole = { from: 0, to: 1000 };

  test('zoom about a time that stays in its place', () => {
    expect(zoomWindow(whole, whole, 0.5, 200, 1)).toEqual({ from: 100, to: 600 });
    expect(zoomWindow({ from: 100, to: 600 }, whole, 2, 200, 1)).toEqual(whole);
    expect(zoomWindow({ from: 100, to: 110 }, whole, 0.1, 105, 10)).toEqual({ from: 100, to: 110 });
  });

  test('never leave the trace', () => {
    expect(panWindow({ from: 800, to: 1000 }, whole, 0.5)).toEqual({ from: 800, to: 1000 });
    expect(panWindow({ from: 100, to: 300 }, whole, -0.75)).toEqual({ from: 0, to: 200 });
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 100, noNaN: true }), fc.integer({ min: 0, max: 1000 }), (factor, at) => {
        const { from, to } = zoomWindow({ from: 200, to: 700 }, whole, factor, at, 5);
        expect(from >= 0 && to <= 1000 && to > from).toBe(true);
      }),
    );
  });
});

describe('scales', () => {
  const columns = decimateTrace(Float64Array.of(0, 1), Float64Array.of(11, 13), { from: 0, to: 1 }, 2);

  test('hold the trace and the finite limits, with room around', () => {
    expect(valueRange(columns, [11.4, Infinity])).toEqual([10.84, 13.16]);
    expect(valueRange(columns, [10, 14])).toEqual([9.68, 14.32]);
  });

  test('of one value, and of none, are not empty', () => {
    const flat = decimateTrace(Float64Array.of(0), Float64Array.of(12), { from: 0, to: 1 }, 1);
    expect(valueRange(flat, [])).toEqual([11.04, 12.96]);
    expect(valueRange(decimateTrace(new Float64Array(0), new Float64Array(0), { from: 0, to: 1 }, 1), [])).toEqual([
      0, 1,
    ]);
  });

  test('are marked at round values', () => {
    expect(roundTicks([9.68, 14.32], 4)).toEqual([10, 11, 12, 13, 14]);
  });
});
