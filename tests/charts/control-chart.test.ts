import { expect, test } from 'vitest';
import { layOutControlChart } from '../../src/charts/control-chart.ts';

const WEEK = 7 * 86_400_000;
const samples = [
  { time: 0, share: 0.1, lower: 0, upper: 0.4, outside: false },
  { time: WEEK, share: 0.5, lower: 0.1, upper: 0.3, outside: true },
];

test('samples stand in the middle of their rooms, limits step between them', () => {
  const layout = layOutControlChart(samples, 0.2, WEEK, { width: 100, height: 50 });
  expect(layout.step).toBe(50);
  expect(layout.points).toEqual([
    { x: 25, y: 40, outside: false },
    { x: 75, y: 0, outside: true },
  ]);
  expect(layout.line).toBe('M25 40L75 0');
  expect(layout.upper).toBe('M0 10H50V20H100');
  expect(layout.lower).toBe('M0 50H50V40H100');
  expect(layout.centre).toBe(30);
  expect(layout.change).toBe(50);
});

test('dates below keep their distance', () => {
  const many = Array.from({ length: 20 }, (_, at) => ({ ...samples[0]!, time: at * WEEK }));
  const { across, step } = layOutControlChart(many, 0.1, undefined, { width: 400, height: 50 });
  expect(step).toBe(20);
  expect(across.map(({ value }) => value / WEEK)).toEqual([0, 5, 10, 15]);
});

test('without a change or without samples there is none to draw', () => {
  expect(layOutControlChart(samples, 0.2, undefined, { width: 100, height: 50 }).change).toBeUndefined();
  const empty = layOutControlChart([], 0, undefined, { width: 100, height: 50 });
  expect(empty).toMatchObject({ points: [], line: '', upper: '', across: [] });
  expect(JSON.stringify(empty)).not.toMatch(/null|NaN/);
});
