import fc from '../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { layOutMasking, type PlacedPart } from '../../src/charts/masking-drawing.ts';

const SIZE = { column: 100, row: 20 };
const part = (designator: string, ...nodes: [string, string]): PlacedPart => ({ designator, nodes });

const parts = fc
  .uniqueArray(
    fc.record({
      designator: fc.integer({ min: 1, max: 99 }).map((number) => `D${number}`),
      nodes: fc.tuple(fc.constantFrom('a', 'b', 'c', 'd'), fc.constantFrom('e', 'f', 'g', 'h')),
    }),
    { selector: ({ designator }) => designator, maxLength: 20 },
  )
  .map((list): readonly PlacedPart[] => list);

describe('layOutMasking(parts, size)', () => {
  test('puts parts across the same nodes together, whichever way round and wherever they stood', () => {
    const { groups, rungs } = layOutMasking(
      [part('D4', 'winding', 'rail'), part('R1', 'source', 'ground'), part('D5', 'rail', 'winding')],
      SIZE,
    );
    expect(groups).toEqual([{ parts: ['D4', 'D5'], left: 50, right: 150, top: 20, bottom: 60 }]);
    expect(rungs.map(({ designator, y }) => [designator, y])).toEqual([
      ['D4', 30],
      ['D5', 50],
      ['R1', 90],
    ]);
  });

  test('uses a column again where the node before it has ended', () => {
    const { width, nodes, height } = layOutMasking([part('F1', 'line', 'fused'), part('Q1', 'drain', 'source')], SIZE);
    expect([width, height]).toEqual([200, 80]);
    expect(nodes.map(({ node, x, label }) => [node, x, label])).toEqual([
      ['line', 50, 10],
      ['fused', 150, 10],
      ['drain', 50, 50],
      ['source', 150, 50],
    ]);
  });

  test('of no parts is empty', () => {
    expect(layOutMasking([], SIZE)).toEqual({ nodes: [], rungs: [], groups: [], width: 0, height: 0 });
  });

  test('every rung ends on its two nodes, within their height, and inside the drawing', () => {
    fc.assert(
      fc.property(parts, (list) => {
        const { nodes, rungs, width, height } = layOutMasking(list, SIZE);
        expect(rungs.map(({ designator }) => designator).sort()).toEqual(
          list.map(({ designator }) => designator).sort(),
        );
        for (const rung of rungs) {
          const own = list.find(({ designator }) => designator === rung.designator)!;
          const lines = nodes.filter(({ node }) => own.nodes.includes(node));
          expect(lines.map(({ x }) => x).sort((a, b) => a - b)).toEqual([rung.left, rung.right]);
          for (const { from, to } of lines) expect(from <= rung.y && rung.y <= to).toBe(true);
          expect(rung.right < width && rung.y < height).toBe(true);
        }
      }),
    );
  });

  test('no two nodes lie on each other, and no two rungs share a height', () => {
    fc.assert(
      fc.property(parts, (list) => {
        const { nodes, rungs } = layOutMasking(list, SIZE);
        expect(new Set(rungs.map(({ y }) => y)).size).toBe(list.length);
        for (const one of nodes)
          for (const other of nodes)
            if (one !== other && one.x === other.x) expect(one.to < other.label || other.to < one.label).toBe(true);
      }),
    );
  });
});
