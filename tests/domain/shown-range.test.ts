import { expect, test } from 'vitest';
import { shownRangeFault, SHOWN_RANGE } from '../../src/domain/shown-range.ts';

test('what meters show is in range, zero and both ends included', () => {
  const { least, most } = SHOWN_RANGE;
  for (const value of [0, -0, 1e-13, 12.4, -325, 640e3, 1e12, least, -least, most, -most])
    expect(shownRangeFault(value)).toBeUndefined();
});

test('what lies beyond is told apart by its side', () => {
  expect([5e-324, -5e-324, 1e-261, 9.9e-16].map(shownRangeFault)).toEqual(Array(4).fill('too small'));
  expect([1.1e15, -1.1e15, 9.9e37, Infinity].map(shownRangeFault)).toEqual(Array(4).fill('too large'));
});
