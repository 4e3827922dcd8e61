import fc from '../../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { midRanks, tieSizes } from '../../../src/statistics/numerics/ranks.ts';

describe('ranks', () => {
  test('equal values share their mean rank', () => {
    expect(midRanks([10, 30, 10, 20])).toEqual([1.5, 4, 1.5, 3]);
  });

  test('tieSizes counts every value, in ascending order', () => {
    expect(tieSizes([10, 30, 10, 20, 10])).toEqual([3, 1, 1]);
    expect(tieSizes([])).toEqual([]);
  });

  test('a mid-rank is one more than the smaller values and half of the other equal ones', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 8 }), { maxLength: 40 }), (values) => {
        const naive = values.map(
          (value) => values.filter((v) => v < value).length + (values.filter((v) => v === value).length + 1) / 2,
        );
        expect(midRanks(Object.freeze(values) as number[])).toEqual(naive);
      }),
    );
  });
});
