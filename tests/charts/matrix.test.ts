import { expect, test } from 'vitest';
import { layOutMatrix } from '../../src/charts/matrix.ts';

test('cells stand in rows and columns, shaded by their count against the largest', () => {
  const { cells, cellWidth, cellHeight, width, height } = layOutMatrix(
    [
      [8, 2, 0],
      [undefined, 4, 1],
    ],
    120,
  );
  expect([cellWidth, cellHeight, width, height]).toEqual([40, 28, 120, 56]);
  expect(cells).toEqual([
    { row: 0, column: 0, count: 8, x: 0, y: 0, strength: 1 },
    { row: 0, column: 1, count: 2, x: 40, y: 0, strength: 0.25 },
    { row: 0, column: 2, count: 0, x: 80, y: 0, strength: 0 },
    { row: 1, column: 1, count: 4, x: 40, y: 28, strength: 0.5 },
    { row: 1, column: 2, count: 1, x: 80, y: 28, strength: 0.125 },
  ]);
});

test('cells are never narrower than can be touched, nor wider than can be compared', () => {
  expect(layOutMatrix([new Array<number>(20).fill(1)], 100)).toMatchObject({ cellWidth: 28, width: 560 });
  expect(layOutMatrix([[1, 2]], 1000)).toMatchObject({ cellWidth: 52, width: 104 });
});

test('nothing but zeros is shaded nowhere, and no counts give no cells', () => {
  expect(layOutMatrix([[0, 0]], 100).cells.map(({ strength }) => strength)).toEqual([0, 0]);
  expect(layOutMatrix([], 100)).toMatchObject({ cells: [], width: 0, height: 0 });
});
