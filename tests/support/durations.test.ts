import { expect, test } from 'vitest';
import { slowest } from './durations.ts';

test('the slowest come first, no more than asked for, and the list stays as it was', () => {
  const all = [
    { name: 'quick', seconds: 0.1 },
    { name: 'slow', seconds: 9 },
    { name: 'slower', seconds: 12 },
  ];
  const before = [...all];
  expect(slowest(all, 2).map(({ name }) => name)).toEqual(['slower', 'slow']);
  expect(slowest(all, 20)).toHaveLength(3);
  expect(slowest([], 20)).toEqual([]);
  expect(all).toEqual(before);
});
