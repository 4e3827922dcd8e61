import { describe, expect, test } from 'vitest';
import { layOutBars, orderParts, type PartCounts } from '../../src/charts/bars.ts';

function part(name: string, counts: Partial<PartCounts> = {}): PartCounts {
  const base = { failed: 0, shorted: 0, leaky: 0, open: 0, suspected: 0, replaced: 0, share: { low: 0, high: 0 } };
  return { part: name, ...base, ...counts };
}

const size = { width: 500, rowHeight: 30 };

test('parts stand in the order of failures, then suspicions, then replacements, then names by their numbers', () => {
  const parts = [
    part('Q10'),
    part('Q2'),
    part('D1', { replaced: 1 }),
    part('R1', { suspected: 1 }),
    part('F1', { failed: 3 }),
    part('C1', { failed: 1, suspected: 9 }),
  ];
  expect(orderParts(parts).map((counts) => counts.part)).toEqual(['F1', 'C1', 'R1', 'D1', 'Q2', 'Q10']);
});

describe('the bars', () => {
  const q1 = part('Q1', {
    failed: 41,
    shorted: 30,
    leaky: 6,
    open: 3,
    suspected: 9,
    replaced: 58,
    share: { low: 0.36, high: 0.57 },
  });
  const d3 = part('D3', { failed: 0, suspected: 0, replaced: 88, share: { low: 0, high: 0.04 } });
  const layout = layOutBars([d3, q1], 100, size);
  const [first, second] = layout.bars;

  test('share a scale from zero to the furthest mark, rounded up', () => {
    // The furthest mark is the diamond at 88; ticks by 20 round it up to 100, so 5 px stand for one repair.
    expect(layout.ticks).toEqual([0, 20, 40, 60, 80, 100].map((value) => ({ value, x: value * 5 })));
  });

  test('are made of what was proved, then what is suspected, without gaps', () => {
    expect(first?.segments.map(({ kind, count }) => [kind, count])).toEqual([
      ['shorted', 30],
      ['leaky', 6],
      ['open', 3],
      ['failed', 2],
      ['suspected', 9],
    ]);
    expect(first?.segments.map(({ x }) => x)).toEqual([0, 150, 180, 195, 205]);
    expect(first?.segments.map(({ width }) => width)).toEqual([150, 30, 15, 10, 45]);
  });

  test('have no segment for what never happened', () => {
    expect(second?.segments).toEqual([]);
  });

  test('carry a whisker for the share, a diamond for the replaced, and a label right of both', () => {
    expect(first?.whisker.from).toBeCloseTo(180, 9);
    expect(first?.whisker.to).toBeCloseTo(285, 9);
    expect(first?.diamond).toBe(290);
    expect(first?.label).toBe(302);
    expect(second?.diamond).toBe(440);
    expect(second?.label).toBe(452);
  });

  test('stand in the middle of their rows', () => {
    expect(layout.bars.map(({ y }) => y)).toEqual([15, 45]);
    expect(layout.height).toBe(60);
  });
});

test('few repairs get ticks at whole numbers alone', () => {
  const layout = layOutBars([part('Q1', { failed: 1, shorted: 1, share: { low: 0.1, high: 0.7 } })], 2, size);
  expect(layout.ticks.length).toBeGreaterThan(1);
  expect(layout.ticks.every(({ value }) => Number.isInteger(value))).toBe(true);
});

test('no parts give no bars', () => {
  expect(layOutBars([], 0, size)).toMatchObject({ bars: [], height: 0 });
});
