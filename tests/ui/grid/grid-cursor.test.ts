import fc from '../../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import {
  clampCursor,
  cursorAt,
  extendTo,
  HEADER_ROW,
  isInRange,
  moveByKey,
  rangeOf,
  type GridCursor,
  type GridExtent,
  type GridKey,
} from '../../../src/ui/grid/grid-cursor.ts';

const extent: GridExtent = { rows: 1_000_000, columns: 11, page: 20 };

function key(name: string, modifiers: Partial<GridKey> = {}): GridKey {
  return { key: name, ctrlKey: false, metaKey: false, shiftKey: false, altKey: false, ...modifiers };
}

function placeAfter(cursor: GridCursor, event: GridKey): readonly [number, number] | undefined {
  const next = moveByKey(cursor, event, extent);
  return next === undefined ? undefined : [next.row, next.column];
}

const ctrlKey = true;
const shiftKey = true;

/** Source: WAI-ARIA Authoring Practices Guide, grid pattern, data grids; the header row is focusable as its cells sort. */
describe('a key moves the cursor', () => {
  test.each([
    ['right from the first cell', [0, 0], key('ArrowRight'), [0, 1]],
    ['right in the middle', [500, 5], key('ArrowRight'), [500, 6]],
    ['right in the last cell: nowhere', [999_999, 10], key('ArrowRight'), [999_999, 10]],
    ['left in the first cell: nowhere', [0, 0], key('ArrowLeft'), [0, 0]],
    ['left in the middle', [500, 5], key('ArrowLeft'), [500, 4]],
    ['down in the middle', [500, 5], key('ArrowDown'), [501, 5]],
    ['down in the last row: nowhere', [999_999, 5], key('ArrowDown'), [999_999, 5]],
    ['up in the middle', [500, 5], key('ArrowUp'), [499, 5]],
    ['up from the first row to the header', [0, 5], key('ArrowUp'), [HEADER_ROW, 5]],
    ['up in the header: nowhere', [HEADER_ROW, 5], key('ArrowUp'), [HEADER_ROW, 5]],
    ['down from the header', [HEADER_ROW, 5], key('ArrowDown'), [0, 5]],
    ['to the first cell of the row', [500, 5], key('Home'), [500, 0]],
    ['to the last cell of the row', [500, 5], key('End'), [500, 10]],
    ['to the first cell of the first row', [500, 5], key('Home', { ctrlKey }), [0, 0]],
    ['to the last cell of the last row', [500, 5], key('End', { ctrlKey }), [999_999, 10]],
    ['to the last cell with the command key', [500, 5], key('End', { metaKey: true }), [999_999, 10]],
    ['a page down', [500, 5], key('PageDown'), [520, 5]],
    ['a page down near the end', [999_990, 5], key('PageDown'), [999_999, 5]],
    ['a page down from the header', [HEADER_ROW, 5], key('PageDown'), [20, 5]],
    ['a page up', [500, 5], key('PageUp'), [480, 5]],
    ['a page up near the beginning', [3, 5], key('PageUp'), [0, 5]],
  ] as const)('%s', (_title, [row, column], event, expected) => {
    expect(placeAfter(cursorAt(row, column), event)).toEqual(expected);
  });

  test.each([
    key('Tab'),
    key('a'),
    key('ArrowDown', { altKey: true }),
    key('ArrowDown', { ctrlKey }),
    key(' '),
    key('Escape'),
  ])('but not $key', (event) => {
    expect(moveByKey(cursorAt(5, 5), event, extent)).toBeUndefined();
  });

  test('in a grid without rows', () => {
    const empty = { ...extent, rows: 0 };
    for (const name of ['ArrowDown', 'PageDown', 'ArrowUp', 'PageUp']) {
      expect(moveByKey(cursorAt(HEADER_ROW, 2), key(name), empty)).toMatchObject({ row: HEADER_ROW, column: 2 });
    }
    expect(moveByKey(cursorAt(HEADER_ROW, 2), key('End', { ctrlKey }), empty)).toMatchObject({ row: HEADER_ROW });
    expect(moveByKey(cursorAt(HEADER_ROW, 2), key('Home', { ctrlKey }), empty)).toMatchObject({ row: HEADER_ROW });
  });

  test('never out of the grid, by whatever keys', () => {
    const names = ['ArrowUp', 'ArrowDown', 'ArrowLeft', 'ArrowRight', 'PageUp', 'PageDown', 'Home', 'End', ' ', 'a'];
    const keys = fc.record({
      key: fc.constantFrom(...names),
      ctrlKey: fc.boolean(),
      shiftKey: fc.boolean(),
      metaKey: fc.constant(false),
      altKey: fc.constant(false),
    });
    fc.assert(
      fc.property(fc.array(keys), fc.nat(40), (events, rows) => {
        const size = { rows, columns: 4, page: 7 };
        let cursor = clampCursor(cursorAt(0, 0), size);
        for (const event of events) {
          cursor = moveByKey(cursor, event, size) ?? cursor;
          expect(cursor).toEqual(clampCursor(cursor, size));
          const range = rangeOf(cursor, size);
          if (range === undefined) continue;
          expect(range.firstRow).toBeGreaterThanOrEqual(0);
          expect(range.lastRow).toBeLessThan(rows);
          expect(range.firstRow).toBeLessThanOrEqual(range.lastRow);
          if (cursor.row >= 0) expect(isInRange(range, cursor.row, cursor.column)).toBe(true);
        }
      }),
    );
  });
});

describe('the selection', () => {
  const start = cursorAt(10, 4);

  test('is the current cell at first', () => {
    expect(rangeOf(start, extent)).toEqual({ firstRow: 10, lastRow: 10, firstColumn: 4, lastColumn: 4 });
  });

  test.each([
    ['an arrow', key('ArrowDown', { shiftKey }), [10, 11, 4, 4]],
    ['an arrow back over the anchor', key('ArrowUp', { shiftKey }), [9, 10, 4, 4]],
    ['an arrow aside', key('ArrowRight', { shiftKey }), [10, 10, 4, 5]],
    ['a page key', key('PageDown', { shiftKey }), [10, 30, 4, 4]],
    ['End', key('End', { shiftKey }), [10, 10, 4, 10]],
    ['Home', key('Home', { shiftKey }), [10, 10, 0, 4]],
    ['Ctrl+End', key('End', { shiftKey, ctrlKey }), [10, 999_999, 4, 10]],
    ['Ctrl+Home', key('Home', { shiftKey, ctrlKey }), [0, 10, 0, 4]],
    ['Space, to the whole row', key(' ', { shiftKey }), [10, 10, 0, 10]],
    ['Ctrl+Space, to the whole column', key(' ', { ctrlKey }), [0, 999_999, 4, 4]],
    ['Ctrl+A, to all', key('a', { ctrlKey }), [0, 999_999, 0, 10]],
    ['Ctrl+Shift+Space, to all', key(' ', { ctrlKey, shiftKey }), [0, 999_999, 0, 10]],
  ] as const)('is extended by %s', (_title, event, [firstRow, lastRow, firstColumn, lastColumn]) => {
    const next = moveByKey(start, event, extent);
    expect(next && rangeOf(next, extent)).toEqual({ firstRow, lastRow, firstColumn, lastColumn });
  });

  test('keeps its anchor while it is extended in turn', () => {
    const steps = [key('ArrowDown', { shiftKey }), key('ArrowDown', { shiftKey }), key('ArrowRight', { shiftKey })];
    const cursor = steps.reduce((current, event) => moveByKey(current, event, extent) ?? current, start);
    expect(rangeOf(cursor, extent)).toEqual({ firstRow: 10, lastRow: 12, firstColumn: 4, lastColumn: 5 });
  });

  test('stays whole rows while it is extended from one', () => {
    const row = moveByKey(start, key(' ', { shiftKey }), extent);
    const rows = row && moveByKey(row, key('ArrowDown', { shiftKey }), extent);
    expect(rows && rangeOf(rows, extent)).toEqual({ firstRow: 10, lastRow: 11, firstColumn: 0, lastColumn: 10 });
  });

  test('is one cell again after a plain move', () => {
    const all = moveByKey(start, key('a', { ctrlKey }), extent);
    const moved = all && moveByKey(all, key('ArrowDown'), extent);
    expect(moved && rangeOf(moved, extent)).toEqual({ firstRow: 11, lastRow: 11, firstColumn: 4, lastColumn: 4 });
  });

  test('is extended to a cell that is pointed at', () => {
    expect(rangeOf(extendTo(start, 7, 9), extent)).toEqual({ firstRow: 7, lastRow: 10, firstColumn: 4, lastColumn: 9 });
  });

  test('is nothing where the header is current, or where there are no rows', () => {
    expect(rangeOf(cursorAt(HEADER_ROW, 2), extent)).toBeUndefined();
    expect(rangeOf(cursorAt(0, 0), { ...extent, rows: 0 })).toBeUndefined();
    expect(isInRange(undefined, 0, 0)).toBe(false);
  });

  test('shrinks with the grid', () => {
    const cursor = clampCursor(extendTo(cursorAt(5, 5), 50, 10), { rows: 8, columns: 7, page: 3 });
    expect(cursor).toEqual({ row: 7, column: 6, anchorRow: 5, anchorColumn: 5, whole: 'cells' });
  });
});
