import { expect, test } from 'vitest';
import { nextSort, sortOf } from '../../../src/ui/grid/sort-keys.ts';

const up = (field: 'time' | 'reading') => ({ field, descending: false });
const down = (field: 'time' | 'reading') => ({ field, descending: true });

test('a header chosen again and again sorts up, then down, then not at all', () => {
  expect(nextSort([], 'time', false)).toEqual([up('time')]);
  expect(nextSort([up('time')], 'time', false)).toEqual([down('time')]);
  expect(nextSort([down('time')], 'time', false)).toEqual([]);
});

test('a header chosen alone puts the other keys away', () => {
  expect(nextSort([up('time'), down('reading')], 'reading', false)).toEqual([]);
  expect(nextSort([up('time')], 'reading', false)).toEqual([up('reading')]);
});

test('a header added goes behind the others and is turned in its place', () => {
  expect(nextSort([up('time')], 'reading', true)).toEqual([up('time'), up('reading')]);
  expect(nextSort([up('time'), up('reading')], 'time', true)).toEqual([down('time'), up('reading')]);
  expect(nextSort([down('time'), up('reading')], 'time', true)).toEqual([up('reading')]);
});

test('a column knows its direction and its place in the order', () => {
  expect(sortOf([up('time'), down('reading')], 'reading')).toEqual({ descending: true, place: 2 });
  expect(sortOf([up('time')], 'reading')).toBeUndefined();
  expect(sortOf([up('time')], undefined)).toBeUndefined();
});
