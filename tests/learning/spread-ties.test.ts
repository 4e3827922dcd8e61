import { expect, test } from 'vitest';
import { spreadTies } from '../../src/learning/spread-ties.ts';

test('readings that tie are spread evenly over their last digit, in ascending order', () => {
  const spread = [...spreadTies([12.02, 12, 12, 12.01, 12], 0.01)].map((value) => Number(value.toFixed(4)));
  expect(spread).toEqual([11.9967, 12, 12.0033, 12.01, 12.02]);
});

test('without a known step they stay as they are', () => {
  expect([...spreadTies([2, 1, 1], 0)]).toEqual([1, 1, 2]);
});
