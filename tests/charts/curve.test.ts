import { expect, test } from 'vitest';
import { layOutCurve } from '../../src/charts/curve.ts';

test('the share holds until the cost of the next point', () => {
  const { points, line, across, up } = layOutCurve(
    [
      { cost: 2, share: 0.5 },
      { cost: 4, share: 1 },
    ],
    { width: 80, height: 40 },
    'zero',
  );
  expect(points).toEqual([
    { x: 40, y: 20 },
    { x: 80, y: 0 },
  ]);
  expect(line).toBe('M0 40H40V20H80V0');
  expect(across[0]).toEqual({ value: 0, place: 0 });
  expect(up.at(-1)).toEqual({ value: 1, place: 0 });
});

test('what is cheaper than the first point is not drawn as nothing where it is not known', () => {
  const points = [
    { cost: 2, share: 0.5 },
    { cost: 4, share: 1 },
  ];
  expect(layOutCurve(points, { width: 80, height: 40 }, 'first').line).toBe('M40 20H40V20H80V0');
});

test('no points give an empty curve, and a single one at no cost its place', () => {
  expect(layOutCurve([], { width: 80, height: 40 }, 'first')).toMatchObject({ points: [], line: 'M0 40' });
  expect(layOutCurve([{ cost: 0, share: 1 }], { width: 80, height: 40 }, 'zero').points).toEqual([{ x: 0, y: 0 }]);
});
