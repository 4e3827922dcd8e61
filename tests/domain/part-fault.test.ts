import { expect, test } from 'vitest';
import { partOfPoint, soundLimits, soundLimitsAt } from '../../src/domain/part-fault.ts';

// Common practice, no source: a transistor of 0.3 to 0.9 Ω out of circuit is shorted; a fuse that reads open is blown.
test('what blocks has a low limit in ohms and in diode mode, a fuse a high one, anything else none', () => {
  const none = { low: -Infinity, high: Infinity };
  for (const part of ['Q1', 'D12', 'BR1']) {
    expect(soundLimits(part, 'resistance')).toEqual({ low: 10, high: Infinity });
    expect(soundLimits(part, 'diode')).toEqual({ low: 0.1, high: Infinity });
    expect(soundLimits(part, 'capacitance')).toEqual(none);
  }
  expect(soundLimits('F1', 'continuity')).toEqual({ low: -Infinity, high: 10 });
  expect(soundLimits('R7', 'resistance')).toEqual(none);
  expect(soundLimits(undefined, 'resistance')).toEqual(none);
});

test('a short is told out of circuit alone, an open fuse at every stage without power', () => {
  expect(soundLimitsAt('Q1', 'resistance', 'part out').low).toBe(10);
  expect(soundLimitsAt('Q1', 'resistance', 'as received').low).toBe(-Infinity);
  expect(soundLimitsAt('F1', 'resistance', 'as received').high).toBe(10);
  expect(soundLimitsAt('F1', 'resistance', 'live').high).toBe(Infinity);
});

test('a declared point tells its part, any other its name', () => {
  const point = { name: 'main switch', role: 'part', part: 'Q1' } as const;
  const family = { name: 'HERON-48', boost: true, points: [point], parts: [] };
  expect(partOfPoint(family, 'main switch')).toBe('Q1');
  expect(partOfPoint(family, 'Q2 D→S')).toBe('Q2');
  expect(partOfPoint(undefined, '12V main')).toBeUndefined();
});
