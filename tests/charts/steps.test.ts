import { expect, test } from 'vitest';
import { layOutSteps } from '../../src/charts/steps.ts';

const size = { width: 500, height: 50 };

test('shares rise by steps from zero, with their limits around them', () => {
  const { curves, across, up } = layOutSteps(
    [
      [
        { time: 10, share: 0.1, limits: { low: 0.05, high: 0.25 } },
        { time: 50, share: 0.2, limits: { low: 0.1, high: 0.5 } },
      ],
    ],
    size,
  );
  // 10 px for a day, 100 px for a share of 1.
  expect(curves[0]?.points).toEqual([
    { x: 100, y: 40 },
    { x: 500, y: 30 },
  ]);
  expect(curves[0]?.line).toBe('M0 50H100V40H500V30');
  expect(curves[0]?.area).toBe('M100 45V25H500V0H500V40H500V45H100Z');
  expect(across.map(({ value }) => value)).toEqual([0, 10, 20, 30, 40, 50]);
  expect(up[0]).toEqual({ value: 0, place: 50 });
});

test('a step without limits ends the area, and a curve without any has none', () => {
  const steps = [
    { time: 1, share: 0.5, limits: { low: 0.1, high: 0.9 } },
    { time: 2, share: 1, limits: undefined },
  ];
  const [first, second] = layOutSteps([steps, [steps[1]!]], size).curves;
  expect(first?.area).toBe('M250 45V5H250V45H250Z');
  expect(second?.area).toBe('');
});

test('curves share their scales', () => {
  const { curves } = layOutSteps(
    [[{ time: 5, share: 0.5, limits: undefined }], [{ time: 10, share: 1, limits: undefined }]],
    size,
  );
  expect(curves.map(({ points }) => points[0])).toEqual([
    { x: 250, y: 25 },
    { x: 500, y: 0 },
  ]);
});

test('no steps give a flat start and no number that is none', () => {
  const layout = layOutSteps([[]], size);
  expect(layout.curves[0]).toEqual({ line: 'M0 50', area: '', points: [] });
  expect(JSON.stringify(layout)).not.toMatch(/null|NaN/);
});

test('one board that came back on the day of its return is a step at zero', () => {
  const { curves } = layOutSteps([[{ time: 0, share: 1, limits: undefined }]], size);
  expect(curves[0]?.points).toEqual([{ x: 0, y: 0 }]);
});
