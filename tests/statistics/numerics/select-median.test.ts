import fc from '../../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { selectMedian } from '../../../src/statistics/numerics/select-median.ts';

/** The middle of the sorted numbers, or the mean of the two middle ones. */
function naive(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const half = Math.floor(sorted.length / 2);
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}

describe('selectMedian(values)', () => {
  test('equals the middle of the sorted numbers, many of them equal or not, and keeps them all', () => {
    const numbers = fc.oneof(fc.array(fc.integer({ min: -3, max: 3 }), { minLength: 1 }), fc.array(fc.integer(), { minLength: 1, maxLength: 2000, size: 'max' })); // prettier-ignore
    fc.assert(
      fc.property(numbers, (values) => {
        const taken = Float64Array.from(values);
        expect(selectMedian(taken)).toBe(naive(values));
        expect([...taken].sort((a, b) => a - b)).toEqual(values.toSorted((a, b) => a - b));
      }),
      { numRuns: 300 },
    );
  });

  test('is no number where there is none', () => {
    expect(selectMedian(new Float64Array(0))).toBeNaN();
  });
});
