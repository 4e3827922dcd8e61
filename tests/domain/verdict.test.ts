import { describe, expect, test } from 'vitest';
import {
  CONDITIONAL_FAIL,
  CONDITIONAL_PASS,
  FAIL,
  HIGH,
  isOutOfBand,
  LOW,
  NO_BAND,
  partWord,
  PASS,
  sideOf,
  verdictOf,
  VERDICTS,
} from '../../src/domain/verdict.ts';

describe('verdict codes', () => {
  test('hold verdict and side apart', () => {
    expect([verdictOf(FAIL | HIGH), sideOf(FAIL | HIGH)]).toEqual(['fail', 'high']);
    expect([verdictOf(CONDITIONAL_PASS | LOW), sideOf(CONDITIONAL_PASS | LOW)]).toEqual(['conditional pass', 'low']);
    expect(VERDICTS.map((_, code) => verdictOf(code))).toEqual([...VERDICTS]);
  });

  test('isOutOfBand(code) counts both kinds of fail and nothing else', () => {
    expect(VERDICTS.map((_, code) => isOutOfBand(code))).toEqual([false, false, false, false, true, true]);
    expect(isOutOfBand(CONDITIONAL_FAIL | HIGH)).toBe(true);
  });
});

describe('partWord(code, mode, value)', () => {
  // Common practice, no source.
  test('0 Ω and 0.6 Ω are shorts, 111 Ω across a transistor is leaky', () => {
    expect(partWord(FAIL | LOW, 'resistance', 0)).toBe('shorted');
    expect(partWord(FAIL | LOW, 'resistance', 0.6)).toBe('shorted');
    expect(partWord(FAIL | LOW, 'resistance', 111)).toBe('leaky');
  });

  test('a junction under 0.1 V is shorted, one that reads low otherwise is leaky', () => {
    expect(partWord(FAIL | LOW, 'diode', 0.003)).toBe('shorted');
    expect(partWord(FAIL | LOW, 'diode', 0.31)).toBe('leaky');
  });

  test('a part that reads high is open, one that passes is good', () => {
    expect(partWord(FAIL | HIGH, 'continuity', NaN)).toBe('open');
    expect(partWord(PASS, 'resistance', 640_000)).toBe('good');
    expect(partWord(CONDITIONAL_PASS | LOW, 'resistance', 1e6)).toBe('good');
  });

  test('a beep where there should be none is a short', () => {
    expect(partWord(FAIL | LOW, 'continuity', NaN)).toBe('shorted');
  });

  test('a capacitor that lost its capacitance is open, one that reads too much is leaky', () => {
    expect(partWord(FAIL | LOW, 'capacitance', 21e-6)).toBe('open');
    expect(partWord(FAIL | HIGH, 'capacitance', 210e-6)).toBe('leaky');
    expect(partWord(FAIL | HIGH, 'ESR', 12)).toBe('open');
  });

  test('says nothing of a part by a live reading', () => {
    expect(partWord(FAIL | LOW, 'DC volts', 3)).toBeUndefined();
  });

  test('says nothing of a part without a band', () => {
    expect(partWord(NO_BAND, 'resistance', 3)).toBeUndefined();
  });
});
