import { expect, test } from 'vitest';
import { layOutLiveRow } from '../../src/charts/live-row.ts';

const size = { width: 110, stroke: 8 };

test('readings are strokes, as received above those as returned, on a scale that holds the band', () => {
  // From 0 to 100 with a twentieth of air on either side: 1 px for a unit.
  const row = layOutLiveRow({ received: [0], returned: [50], limits: { low: 40, high: 100 } }, size);
  expect(row?.received).toBe('M5 0v8');
  expect(row?.returned).toBe('M55 10v8');
  expect(row?.band).toEqual({ from: 45, to: 105 });
});

test('an open side of the band ends with the scale', () => {
  const row = layOutLiveRow({ received: [0, 100], returned: [], limits: { low: 50, high: Infinity } }, size);
  expect(row?.band).toEqual({ from: 55, to: 110 });
});

test('readings in one place are one stroke, however many', () => {
  const received = [...new Array<number>(10_000).fill(5), 10];
  expect(layOutLiveRow({ received, returned: [], limits: undefined }, size)?.received.match(/M/g)).toHaveLength(2);
});

test('readings that all are the same still have a scale', () => {
  const row = layOutLiveRow({ received: [0, 0], returned: [], limits: undefined }, size);
  expect(row?.received).toBe('M55 0v8');
});

test('nothing to draw is said as nothing', () => {
  expect(layOutLiveRow({ received: [], returned: [], limits: undefined }, size)).toBeUndefined();
  expect(
    layOutLiveRow({ received: [], returned: [], limits: { low: -Infinity, high: Infinity } }, size),
  ).toBeUndefined();
});
