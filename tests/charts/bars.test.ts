import { describe, expect, test } from 'vitest';
import { layOutBars, orderParts, type PartCounts } from '../../src/charts/bars.ts';

function part(name: string, counts: Partial<PartCounts> = {}): PartCounts {
  const base = {
    failed: 0,
    shorted: 0,
    leaky: 0,
    open: 0,
    inferred: 0,
    replaced: 0,
    replacedGood: 0,
    share: { low: 0, high: 0 },
  };
  return { part: name, ...base, ...counts };
}

const size = { width: 500, rowHeight: 30 };

test('parts stand in the order of failures, inferred ones included, then replacements, then names by their numbers', () => {
  const parts = [
    part('Q10'),
    part('Q2'),
    part('D1', { replaced: 1 }),
    part('R1', { inferred: 1 }),
    part('F1', { failed: 3 }),
    part('C1', { failed: 1, inferred: 9 }),
  ];
  expect(orderParts(parts).map((counts) => counts.part)).toEqual(['C1', 'F1', 'R1', 'D1', 'Q2', 'Q10']);
});

describe('the bars', () => {
  const q1 = part('Q1', {
    failed: 41,
    shorted: 30,
    leaky: 6,
    open: 3,
    inferred: 9,
    replaced: 58,
    replacedGood: 12,
    share: { low: 0.36, high: 0.57 },
  });
  const d3 = part('D3', { failed: 0, inferred: 0, replaced: 88, share: { low: 0, high: 0.04 } });
  const layout = layOutBars([d3, q1], 100, size);
  const [first, second] = layout.bars;

  test('share a scale from zero to the furthest mark, rounded up', () => {
    // The furthest mark is the diamond at 88; ticks by 20 round it up to 100, so 5 px stand for one repair.
    expect(layout.ticks).toEqual([0, 20, 40, 60, 80, 100].map((value) => ({ value, place: value * 5 })));
  });

  test('are made of what was proved, then what is inferred, without gaps', () => {
    expect(first?.segments.map(({ kind, count }) => [kind, count])).toEqual([
      ['shorted', 30],
      ['leaky', 6],
      ['open', 3],
      ['failed', 2],
      ['inferred', 9],
    ]);
    expect(first?.segments.map(({ x }) => x)).toEqual([0, 150, 180, 195, 205]);
    expect(first?.segments.map(({ width }) => width)).toEqual([150, 30, 15, 10, 45]);
  });

  test('have no segment for what never happened', () => {
    expect(second?.segments).toEqual([]);
  });

  test('carry a whisker for the share, a diamond for the replaced, and a label right of both', () => {
    expect(first?.whisker?.from).toBeCloseTo(180, 9);
    expect(first?.whisker?.to).toBeCloseTo(285, 9);
    expect(first?.diamond).toBe(290);
    expect(first?.label).toBe(302);
    expect(second?.diamond).toBe(440);
    expect(second?.label).toBe(452);
  });

  test('carry back from the diamond the stretch of those replaced though good', () => {
    expect(first?.good).toEqual({ from: 230, to: 290 });
    expect(second).not.toHaveProperty('good');
  });

  test('have no whisker where the share cannot be told', () => {
    const [bar] = layOutBars([part('D3', { failed: 2, share: undefined })], 10, size).bars;
    expect(bar).not.toHaveProperty('whisker');
  });

  test('have no whisker where nothing failed, and a label right of what is drawn', () => {
    const whole = { low: 0, high: 1 };
    const [bar] = layOutBars([part('D3', { replaced: 2, share: whole })], 10, size).bars;
    expect(bar).not.toHaveProperty('whisker');
    expect(bar?.diamond).toBe(500);
    expect(bar?.label).toBe(512);
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
