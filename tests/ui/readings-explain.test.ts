import { describe, expect, test } from 'vitest';
import {
  CONDITIONAL_FAIL,
  CONDITIONAL_PASS,
  FAIL,
  HIGH,
  LOW,
  NO_BAND,
  NOT_JUDGED,
  PASS,
} from '../../src/domain/verdict.ts';
import type { ReadingRow } from '../../src/session/answers.ts';
import {
  limitNames,
  marginOf,
  marginText,
  readingWithUncertainty,
  verdictArithmetic,
} from '../../src/ui/panels/readings-explain.ts';
import { fakeRow } from './grid/fake-session.ts';

/** 24 V ± 5 %, read as 25.27 V with U = 0.15 V. */
const high: ReadingRow = { ...fakeRow(6), uncertainty: 0.15, verdict: CONDITIONAL_FAIL | HIGH };

describe('the margin of a reading', () => {
  test('is the distance to the nearer limit, below zero outside of the band', () => {
    expect(marginOf({ ...high, value: 23 })?.limit).toBe('low');
    expect(marginOf({ ...high, value: 23 })?.distance).toBeCloseTo(0.2, 12);
    expect(marginOf(high)?.limit).toBe('high');
    expect(marginOf(high)?.distance).toBeCloseTo(-0.07, 12);
  });

  test('is none where there is no number, or no limit', () => {
    expect(marginOf({ ...high, state: 'over-range', value: NaN })).toBeUndefined();
    expect(marginOf({ ...fakeRow(8), value: 1 })).toBeUndefined();
  });

  test('is told in the unit and in multiples of the uncertainty', () => {
    expect(marginText(high, '.')).toBe('−70\u00a0mV to the high limit, −0.5 U');
    expect(marginText(high, ',')).toBe('−70\u00a0mV to the high limit, −0,5 U');
    expect(marginText({ ...high, uncertainty: NaN }, '.')).toBe('−70\u00a0mV to the high limit');
  });
});

/** The four verdicts: ILAC-G8:09/2019, 4.2, with the uncertainty as guard. */
describe('the arithmetic of a verdict', () => {
  test.each<[Partial<ReadingRow>, string]>([
    [{}, 'The reading lies 70 mV above the high limit, which is within the uncertainty of 0.15 V: conditional fail.'],
    [
      { value: 25.1, verdict: CONDITIONAL_PASS | HIGH },
      'The reading lies 0.10 V below the high limit, which is within the uncertainty of 0.15 V: conditional pass.',
    ],
    [
      { value: 24.02, verdict: PASS },
      'The reading lies 1.18 V below the high limit, which is no less than the uncertainty of 0.15 V: pass.',
    ],
    [
      { value: 12.02, verdict: FAIL | LOW },
      'The reading lies 10.78 V below the low limit, which is no less than the uncertainty of 0.15 V: fail.',
    ],
    [
      { uncertainty: NaN, verdict: FAIL | HIGH },
      'The reading lies 70 mV above the high limit. The accuracy of meter M2 is unknown, so it is not weighed: fail.',
    ],
    [
      { state: 'over-range', value: NaN, verdict: FAIL | HIGH },
      'Over-range lies above what the meter can show; the low limit is 22.8 V; the high limit is 25.2 V: fail.',
    ],
    [
      { state: 'beep', value: NaN, verdict: PASS, mode: 'continuity', limits: { low: -Infinity, high: 1 } },
      'The meter answered “beep”; the high limit is 1 Ω: pass.',
    ],
    [{ verdict: NOT_JUDGED }, 'The band is a number that this answer cannot be held against.'],
    [{ verdict: NO_BAND }, 'No band is set for this point, stage and mode, so nothing is said of the reading.'],
  ])('%o', (changes, sentence) => {
    expect(verdictArithmetic({ ...high, ...changes }, '.').replaceAll('\u00a0', ' ')).toBe(sentence);
  });
});

test('a reading is told with its uncertainty, where that is known', () => {
  expect(readingWithUncertainty(high, '.')).toBe('25.27\u00a0V ± 0.15\u00a0V');
  expect(readingWithUncertainty({ ...high, uncertainty: NaN }, '.')).toBe('25.27\u00a0V');
});

test('limits are named by their sides, open ones not at all', () => {
  expect(limitNames(high, ',')).toBe('low 22,8\u00a0V, high 25,2\u00a0V');
  expect(limitNames({ ...high, mode: 'resistance', limits: { low: 1e5, high: Infinity } }, '.')).toBe(
    'low 100\u00a0kΩ',
  );
});
