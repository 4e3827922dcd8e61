import { expect, test } from 'vitest';
import { layOutIntervals } from '../../src/charts/intervals.ts';

const size = { width: 200, rowHeight: 30, domain: [0, 1] } as const;

test('intervals lie on one scale, a series under the other', () => {
  const { rows, height, ticks, zero } = layOutIntervals(
    [
      [
        { low: 0.2, middle: 0.5, high: 0.7 },
        { low: 0, middle: 0.1, high: 0.3 },
      ],
      [undefined, { low: 0.5, middle: 0.75, high: 1 }],
    ],
    size,
  );
  expect(height).toBe(60);
  expect(zero).toBe(0);
  expect(rows[0]?.marks).toEqual([
    { from: 40, middle: 100, to: 140, y: 10 },
    { from: 0, middle: 20, to: 60, y: 20 },
  ]);
  expect(rows[1]?.marks).toEqual([undefined, { from: 100, middle: 150, to: 200, y: 50 }]);
  expect(rows.map(({ y }) => y)).toEqual([15, 45]);
  expect(ticks.map(({ value }) => value)).toEqual([0, 0.5, 1]);
  expect(ticks.map(({ place }) => place)).toEqual([0, 100, 200]);
});

test('the scale is widened to what is drawn', () => {
  const { rows, zero } = layOutIntervals([[{ low: -2, middle: -1, high: 2 }]], { ...size, domain: [-0.5, 0.5] });
  expect(rows[0]?.marks[0]).toEqual({ from: 0, middle: 50, to: 200, y: 15 });
  expect(zero).toBe(100);
});

test('a scale without zero has no place for it, and no rows have no height', () => {
  expect(layOutIntervals([], { ...size, domain: [2, 3] })).toMatchObject({ rows: [], height: 0, zero: undefined });
});
