import fc from '../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import type { Band, Expectation } from '../../src/domain/band.ts';
import type { Meter } from '../../src/domain/meter.ts';
import type { Reading } from '../../src/domain/reading.ts';
import {
  CONDITIONAL_FAIL,
  CONDITIONAL_PASS,
  FAIL,
  HIGH,
  LOW,
  NO_BAND,
  NOT_JUDGED,
  PASS,
  partWord,
  sideOf,
  verdictOf,
} from '../../src/domain/verdict.ts';
import { compileBands } from '../../src/judging/band-table.ts';
import { judgeLog, judgeValue, limitsAt, uncertaintyAt, type Standard } from '../../src/judging/judge.ts';
import { mainsByRepair } from '../../src/judging/mains.ts';
import { compileMeters } from '../../src/judging/uncertainty.ts';
import type { ReadingLog } from '../../src/columns/reading-log.ts';
import { logOf, reading } from '../support/readings.ts';

function standardFor(log: ReadingLog, bands: readonly Band[], meters: readonly Meter[] = []): Standard {
  return {
    table: compileBands(log.names, bands),
    accuracies: compileMeters(log.names, meters),
    mains: mainsByRepair(log),
  };
}

function bandFor(of: Partial<Reading>, expects: Expectation): Band {
  const { family, point, mode } = reading(of);
  return { family, point, mode, expects, basis: 'typed in' };
}

/** The verdict code of one reading against one band. */
function judged(of: Partial<Reading>, expects: Expectation): number {
  const log = logOf(of);
  return judgeLog(log, standardFor(log, [bandFor(of, expects)]))[0]!;
}

describe('judgeValue(value, low, high, guard)', () => {
  // ILAC-G8:09/2019, 4.2, non-binary statement with a guard band: pass, conditional pass, conditional fail, fail about an upper limit.
  test('gives the four verdicts about an upper limit, each boundary to the better side', () => {
    const cases = [12.3, 12.4, 12.41, 12.6, 12.61, 12.8, 12.81].map((value) =>
      judgeValue(value * 10, -Infinity, 126, 2),
    );
    const [pass, conditionalPass, conditionalFail, fail] = [PASS, CONDITIONAL_PASS, CONDITIONAL_FAIL, FAIL];
    expect(cases.map((code) => verdictOf(code))).toEqual(
      [pass, pass, conditionalPass, conditionalPass, conditionalFail, conditionalFail, fail].map(verdictOf),
    );
    expect(cases.slice(2).map(sideOf)).toEqual(['high', 'high', 'high', 'high', 'high']);
  });

  test('without a guard a reading on either limit passes and one beyond fails', () => {
    expect(judgeValue(12.6, 11.4, 12.6, 0)).toBe(PASS);
    expect(judgeValue(11.4, 11.4, 12.6, 0)).toBe(PASS);
    expect(judgeValue(12.61, 11.4, 12.6, 0)).toBe(FAIL | HIGH);
    expect(judgeValue(11.39, 11.4, 12.6, 0)).toBe(FAIL | LOW);
  });

  test('never passes a number that is none', () => {
    expect(verdictOf(judgeValue(NaN, 11.4, 12.6, 0.1))).toBe('fail');
  });

  const value = fc.integer({ min: -1000, max: 1000 });
  const limits = fc.tuple(value, value).map(([a, b]) => ({ low: Math.min(a, b), high: Math.max(a, b) }));
  const guard = fc.nat(200);

  test('is mirrored when every sign is turned', () => {
    fc.assert(
      fc.property(value, limits, guard, (reading, { low, high }, u) => {
        const code = judgeValue(reading, low, high, u);
        const mirrored = judgeValue(-reading, -high, -low, u);
        expect(verdictOf(mirrored)).toBe(verdictOf(code));
        const turned = { none: 'none', low: 'high', high: 'low' } as const;
        // At the very middle of a band narrower than its guard both sides are equally doubtful.
        if (reading - low !== high - reading) expect(sideOf(mirrored)).toBe(turned[sideOf(code)]);
      }),
      { numRuns: 2000 },
    );
  });

  test('never gets better as a reading moves away from the middle', () => {
    fc.assert(
      fc.property(value, fc.nat(300), limits, guard, (reading, further, { low, high }, u) => {
        const middle = (low + high) / 2;
        const beyond = reading >= middle ? reading + further : reading - further;
        expect(judgeValue(beyond, low, high, u) & 7).toBeGreaterThanOrEqual(judgeValue(reading, low, high, u) & 7);
      }),
      { numRuns: 2000 },
    );
  });
});

describe('judging readings of the trade', () => {
  // Common practice, no source, throughout this group.
  test('390 V and 391 V pass on a boosted bulk of 390 V ±5 %', () => {
    const boosted = { kind: 'percent', nominal: 390, percent: 5 } as const;
    expect([390, 391].map((value) => judged({ point: 'bulk', value }, boosted))).toEqual([PASS, PASS]);
  });

  test('12.7 V passes on a 13 V rail at ±5 %', () => {
    expect(judged({ value: 12.7 }, { kind: 'percent', nominal: 13, percent: 5 })).toBe(PASS);
  });

  test('about 150 V passes on a 150 V backlight output at ±15 %', () => {
    const output = { kind: 'percent', nominal: 150, percent: 15 } as const;
    expect([148.9, 151.3].map((value) => judged({ point: 'backlight', value }, output))).toEqual([PASS, PASS]);
  });

  const across = { kind: 'at least', limit: 100_000 } as const;
  const ohms = (value: number) => ({ point: 'Q1 D→S', stage: 'part out', mode: 'resistance', value }) as const;

  test('640 kΩ across a good diode is no short while 0.6 Ω is, and 111 Ω across a transistor is leaky', () => {
    const words = [640_000, 0.6, 111].map((value) => partWord(judged(ohms(value), across), 'resistance', value));
    expect(words).toEqual(['good', 'shorted', 'leaky']);
  });

  test('10.8 MΩ passes "at least 1 MΩ", and a transistor that reads over-range passes "open"', () => {
    expect(judged(ohms(10.8e6), { kind: 'at least', limit: 1e6 })).toBe(PASS);
    expect(judged({ ...ohms(NaN), state: 'over-range' }, { kind: 'open', limit: 1e6 })).toBe(PASS);
  });

  test('a fuse that beeps is good and one that reads over-range is open', () => {
    const fuse = { point: 'F1', stage: 'as received', mode: 'continuity' } as const;
    const closed = { kind: 'shorted', limit: 2 } as const;
    expect(judged({ ...fuse, state: 'beep', value: NaN }, closed)).toBe(PASS);
    const blown = judged({ ...fuse, state: 'over-range', value: NaN }, closed);
    expect(partWord(blown, 'continuity', NaN)).toBe('open');
    expect(judged({ ...fuse, state: 'no beep', value: NaN }, closed)).toBe(FAIL | HIGH);
  });
});

describe('answers that are no numbers', () => {
  const between = { kind: 'between', low: 11.4, high: 12.6 } as const;

  test('over-range fails a band between two limits, unless the range itself ends below the upper one', () => {
    expect(judged({ state: 'over-range', value: NaN }, between)).toBe(FAIL | HIGH);
    expect(judged({ state: 'over-range', value: 60 }, between)).toBe(FAIL | HIGH);
    expect(judged({ state: 'over-range', value: 6 }, between)).toBe(NOT_JUDGED);
  });

  test('over-range passes "at least" only where the range reaches that far', () => {
    const atLeast = { kind: 'at least', limit: 10e6 } as const;
    const over = { point: 'Q1 D→S', mode: 'resistance', state: 'over-range', value: NaN } as const;
    expect(judged(over, atLeast)).toBe(PASS);
    expect(judged({ ...over, value: 60e6 }, atLeast)).toBe(PASS);
    expect(judged({ ...over, value: 2e6 }, atLeast)).toBe(NOT_JUDGED);
    expect(judged({ ...over, value: 2e6 }, { kind: 'open', limit: 10e6 })).toBe(PASS);
  });

  test('over-range that does not say its range lies above the largest of its meter', () => {
    const ranges = (...limits: readonly number[]): Meter => ({
      name: 'M1',
      accuracies: limits.map((upTo) => ({ mode: 'resistance', upTo, percent: 1, counts: 3 })),
    });
    const of = { point: 'Q1 D→S', mode: 'resistance', state: 'over-range', value: NaN } as const;
    const log = logOf(of);
    const verdict = (meter: Meter, expects: Expectation) =>
      judgeLog(log, standardFor(log, [bandFor(of, expects)], [meter]))[0];
    expect(verdict(ranges(6e6, 600), { kind: 'at least', limit: 10e6 })).toBe(NOT_JUDGED);
    expect(verdict(ranges(6e6, 60e6), { kind: 'at least', limit: 10e6 })).toBe(PASS);
    expect(verdict(ranges(600), { kind: 'at most', limit: 1e3 })).toBe(NOT_JUDGED);
    expect(verdict(ranges(600), { kind: 'at most', limit: 10 })).toBe(FAIL | HIGH);
    expect(verdict(ranges(600), { kind: 'open', limit: 1e6 })).toBe(PASS);
  });

  test('below-range fails a band with a lower limit and passes "at most"', () => {
    expect(judged({ state: 'below-range', value: NaN }, between)).toBe(FAIL | LOW);
    expect(judged({ state: 'below-range', value: NaN }, { kind: 'at most', limit: 2 })).toBe(PASS);
  });

  test('below-range in ohms is a charge left on the board and not a short', () => {
    const charged = { point: 'C1 +→-', mode: 'resistance', state: 'below-range', value: NaN } as const;
    expect(judged(charged, { kind: 'at least', limit: 20_000 })).toBe(NOT_JUDGED);
  });

  test('a blank is never judged, nor is a beep where a voltage is wanted', () => {
    expect(judged({ state: 'blank', value: NaN }, between)).toBe(NOT_JUDGED);
    expect(judged({ state: 'beep', value: NaN }, between)).toBe(NOT_JUDGED);
  });

  test('a beep fails "open" and "at least" above every threshold', () => {
    expect(judged({ state: 'beep', value: NaN }, { kind: 'open', limit: 1e6 })).toBe(FAIL | LOW);
    expect(judged({ state: 'beep', value: NaN }, { kind: 'at least', limit: 1e5 })).toBe(FAIL | LOW);
    expect(judged({ state: 'beep', value: NaN }, { kind: 'at least', limit: 5 })).toBe(NOT_JUDGED);
    expect(judged({ state: 'no beep', value: NaN }, { kind: 'open', limit: 1e6 })).toBe(PASS);
  });
});

describe('judgeLog(log, standard)', () => {
  test('gives "no band" where no band is set', () => {
    expect(judgeLog(logOf({}), standardFor(logOf({}), []))[0]).toBe(NO_BAND);
  });

  test('a band of the very stage outweighs one that holds at every stage', () => {
    const log = logOf({ value: 12.5 }, { value: 12.5, stage: 'run-in' });
    const every = bandFor({}, { kind: 'between', low: 11.4, high: 12.6 });
    const live: Band = { ...every, stage: 'live', expects: { kind: 'between', low: 11.9, high: 12.1 } };
    expect([...judgeLog(log, standardFor(log, [live, every]))]).toEqual([FAIL | HIGH, PASS]);
  });

  test('rectified mains follows the last mains reading of the same repair', () => {
    const mains = { point: 'mains', mode: 'AC volts' } as const;
    const log = logOf(
      { ...mains, repair: 'T-1', value: 120 },
      { repair: 'T-1', point: 'bulk', value: 166 },
      { ...mains, repair: 'T-2', value: 230 },
      { repair: 'T-2', point: 'bulk', value: 166 },
      { repair: 'T-3', point: 'bulk', value: 166 },
    );
    const standard = standardFor(log, [bandFor({ point: 'bulk' }, { kind: 'rectified mains', below: 10, above: 3 })]);
    const verdicts = judgeLog(log, standard);
    expect([verdicts[1], verdicts[3], verdicts[4]]).toEqual([PASS, FAIL | LOW, NOT_JUDGED]);
    expect(limitsAt(log, 3, standard)?.low).toBeCloseTo(0.9 * (230 * Math.SQRT2 - 2), 9);
    expect(limitsAt(log, 4, standard)).toBeUndefined();
  });

  test('the mains is the latest reading in time, wherever the log has it, and of one moment the highest', () => {
    const mains = { point: 'mains', mode: 'AC volts', repair: 'T-1' } as const;
    const late = { ...mains, value: 230, time: 2000 };
    const early = { ...mains, value: 120, time: 1000 };
    const alike = { ...mains, value: 228, time: 2000 };
    const timeless = { ...mains, value: 90, time: NaN };
    for (const readings of [
      [early, late, alike, timeless],
      [timeless, alike, late, early],
    ])
      // prettier-ignore
      expect([...mainsByRepair(logOf(...readings))]).toEqual([230]);
  });

  test('over-range on a band that follows the mains is held against the mains as measured', () => {
    const at = (repair: string, volts: number): readonly Partial<Reading>[] => [
      { point: 'mains', mode: 'AC volts', repair, value: volts },
      { repair, point: 'bulk', state: 'over-range', value: 200 },
    ];
    const log = logOf(...at('T-1', 120), ...at('T-2', 230), { repair: 'T-3', point: 'bulk', state: 'over-range' });
    const standard = standardFor(log, [bandFor({ point: 'bulk' }, { kind: 'rectified mains', below: 10, above: 3 })]);
    const verdicts = judgeLog(log, standard);
    expect([verdicts[1], verdicts[3], verdicts[4]]).toEqual([FAIL | HIGH, NOT_JUDGED, NOT_JUDGED]);
  });

  test('the meter that measured guards the limit with its own uncertainty', () => {
    const log = logOf({ value: 12.58, meter: 'M2' }, { value: 12.58, meter: 'M9' });
    const band = bandFor({}, { kind: 'between', low: 11.4, high: 12.6 });
    const meter: Meter = { name: 'M2', accuracies: [{ mode: 'DC volts', upTo: 60, percent: 0.5, counts: 2 }] };
    const standard = standardFor(log, [band], [meter]);
    expect([...judgeLog(log, standard)]).toEqual([CONDITIONAL_PASS | HIGH, PASS]);
    expect(uncertaintyAt(log, 1, standard.accuracies)).toBeNaN();
  });
});
