import { describe, expect, test } from 'vitest';
import { summariseRunIn } from '../../src/patterns/run-in.ts';

const trace = (values: readonly number[], seconds: readonly number[] = values.map((_, at) => at * 60)) => ({
  times: Float64Array.from(seconds, (second) => Date.UTC(2026, 2, 14) + second * 1000),
  values: Float64Array.from(values),
});
const BAND = { low: 11.4, high: 12.6 };
const of = (...given: Parameters<typeof summariseRunIn>) => summariseRunIn(...given)!;

describe('summariseRunIn(trace, limits)', () => {
  test('tells the drift per hour of a trace that falls evenly, and no ripple', () => {
    const { drift, ripple, length, pause, entries } = of(trace(Array.from({ length: 31 }, (_, at) => 12 - at / 1000)));
    expect([entries, length, pause]).toEqual([31, 1800, 60]);
    expect(drift?.perHour).toBeCloseTo(-0.06, 10);
    expect(drift?.low).toBeCloseTo(-0.06, 10);
    expect(drift?.high).toBeCloseTo(-0.06, 10);
    expect(ripple).toBeCloseTo(0, 10);
  });

  test('finds the slope of a long noisy trace in pieces, wild entries or not', () => {
    const values = Array.from({ length: 20_000 }, (_, at) => 12 + at / 36_000 + Math.sin(at * 12.9898) * 0.01);
    values[777] = 0;
    const { drift, dropOuts, ripple, pieces } = of(
      trace(
        values,
        values.map((_, at) => at / 10),
      ),
    );
    expect(drift!.perHour).toBeCloseTo(1, 1);
    expect(drift!.low <= 1 && 1 <= drift!.high).toBe(true);
    expect([dropOuts, pieces]).toEqual([1, 400]);
    expect(ripple).toBeGreaterThan(0.005);
  });

  test('tells when it has settled, within 1 % of where it ends (common practice, no source)', () => {
    const { settling, settledAt, drift } = of(trace([9, 11, 11.8, 11.95, 12, 12, 12, 12, 12, 12, 12, 12]));
    expect(settledAt).toBe(12);
    expect(settling).toBe(180);
    expect(drift?.perHour).toBe(0);
  });

  test('has settled where it first stays for five minutes, whatever it does later', () => {
    const start = [9, 11, 12, 11, 12, 12, 12, 12, 12, 12];
    expect(of(trace(start)).settling).toBe(240);
    expect(of(trace([...start, 12, 0, 12, 11.5, 12, 12, 12, 12, 12])).settling).toBe(240);
  });

  test('has settled before a drop-out that falls into its five minutes', () => {
    expect(of(trace([9, 12, 12, 0, 0, 12, 12, 12, 12])).settling).toBe(60);
    expect(of(trace([9, 12, 12, 11, 11, 12, 12, 12, 12])).settling).toBe(300);
  });

  test('tells the longest time outside the band, up to the entry that is back inside', () => {
    expect(of(trace([12, 11.2, 12, 11.2, 11.1, 11.2, 12, 12]), BAND).longestOutside).toBe(180);
    expect(of(trace([12, 12, 12, 11.2, 11.1]), BAND).longestOutside).toBe(60);
    expect(of(trace([12, 12, 12]), BAND).longestOutside).toBe(0);
    expect(of(trace([12, 12, 12])).longestOutside).toBeUndefined();
  });

  test('counts drop-outs, gaps and blanks', () => {
    const values = [12, 1, 0, 12, NaN, 12, 2, 12, 12, 12, 12, 12];
    const { dropOuts, gaps, blanks } = of(trace(values, [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 30, 31]));
    expect([dropOuts, gaps, blanks]).toEqual([2, 1, 1]);
  });

  test('of one entry, of entries at one time and of none at all is no trend', () => {
    expect(of(trace([12]))).toMatchObject({ entries: 1, length: 0, drift: undefined, settling: 0 });
    expect(of(trace([12, 12, 12, 12], [5, 5, 5, 5])).drift).toBeUndefined();
    expect(summariseRunIn(trace([NaN, NaN]))).toBeUndefined();
    expect(summariseRunIn(trace([]))).toBeUndefined();
  });
});
