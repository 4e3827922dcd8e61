import { describe, expect, test } from 'vitest';
import {
  finiteReadings,
  requireAtLeast,
  requireEnough,
  requireShare,
  requireWhole,
} from '../../../src/statistics/numerics/guards.ts';

describe('guards', () => {
  test('finiteReadings gives a copy that may be sorted without touching the input', () => {
    const input = Object.freeze([3, 1, 2]);
    const copy = finiteReadings('sort', input, 1);
    copy.sort((a, b) => a - b);
    expect(copy).toEqual([1, 2, 3]);
    expect(input).toEqual([3, 1, 2]);
  });

  test('finiteReadings takes typed arrays', () => {
    expect(finiteReadings('copy', new Float32Array([0.5, 2]), 1)).toEqual([0.5, 2]);
  });

  test.each([NaN, Infinity, -Infinity])('finiteReadings refuses %s and says where it stands', (bad) => {
    expect(() => finiteReadings('median', [1, bad, 3], 1)).toThrow(
      `median needs finite readings, got ${String(bad)} at position 1`,
    );
  });

  test('too few readings are counted in the message', () => {
    expect(() => finiteReadings('tolerance factor', [4], 2)).toThrow(
      'tolerance factor needs at least 2 readings, got 1',
    );
    expect(() => {
      requireEnough('median', 0, 1);
    }).toThrow('median needs at least 1 reading, got 0');
  });

  test.each([1.5, NaN, Infinity])('requireEnough refuses %s as a number of readings', (count) => {
    expect(() => {
      requireEnough('median', count, 1);
    }).toThrow('at least 1 reading');
  });

  test.each([-1, 0.5, NaN, Infinity])('requireWhole refuses %s', (value) => {
    expect(() => {
      requireWhole('itemset', 'minimum', value, 0);
    }).toThrow('itemset needs a whole minimum of at least 0');
  });

  test.each([0, 1, -0.1, 95, NaN])('requireShare refuses %s', (value) => {
    expect(() => {
      requireShare('tolerance factor', 'content', value);
    }).toThrow('tolerance factor needs a content between 0 and 1');
  });

  test.each([-1, NaN, Infinity])('requireAtLeast refuses %s', (value) => {
    expect(() => {
      requireAtLeast('cusum', 'allowance', value, 0);
    }).toThrow('cusum needs a finite allowance of at least 0');
  });
});
