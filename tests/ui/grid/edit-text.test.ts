import { describe, expect, test } from 'vitest';
import { copyText } from '../../../src/ui/grid/copy-text.ts';
import { filledDown, newRows, originalText, pastedBlock } from '../../../src/ui/grid/edit-text.ts';
import { GRID_COLUMNS } from '../../../src/ui/grid/grid-columns.ts';
import { readBlock } from '../../../src/ui/grid/read-block.ts';
import { fakeRow } from './fake-session.ts';

describe('readBlock(text)', () => {
  test.each([
    ['a\tb\r\nc\td\r\n', [['a', 'b'], ['c', 'd']]],
    ['a\t\n\tb', [['a', ''], ['', 'b']]],
    ['"a\tb"\t"say ""OL"""\n"two\nlines"', [['a\tb', 'say "OL"'], ['two\nlines']]],
    ['5" pipe\tx', [['5" pipe', 'x']]],
    ["'=1+1\t'twas\t'-5", [['=1+1', "'twas", '-5']]],
    ['a', [['a']]],
    ['', [['']]],
    ['a\n\nb', [['a'], [''], ['b']]],
  ])('reads %j as rows of cells', (text, cells) => {
    expect(readBlock(text)).toEqual(cells);
  }); // prettier-ignore

  test('reads what was copied exactly as it was', () => {
    const rows = Array.from({ length: 10 }, (_, row) => ({ ...fakeRow(row), point: ['a\tb', '=1', '"', 'x\ny', 'Q1'][row % 5] ?? '' }));
    const columns = GRID_COLUMNS.slice(0, 7);
    const texts = rows.map((row) => columns.map((column) => column.text(row, '.')));
    expect(readBlock(copyText(rows, columns, '.', 'exact', false))).toEqual(texts);
  }); // prettier-ignore
});

describe('pastedBlock(block, range, columns, lines)', () => {
  const at = { firstRow: 3, lastRow: 3, firstColumn: 6, lastColumn: 6 };

  test('lays a block out from the first cell on, past the tape and what nobody can edit', () => {
    expect(pastedBlock(readBlock('1 V\tgood\tM2\n2 V\tlow\tM3'), at, GRID_COLUMNS, 100).cells).toEqual([
      { first: 3, last: 3, field: 'reading', text: '1 V' },
      { first: 3, last: 3, field: 'meter', text: 'M2' },
      { first: 4, last: 4, field: 'reading', text: '2 V' },
      { first: 4, last: 4, field: 'meter', text: 'M3' },
    ]);
  });

  test('passes over the headers of the grid, and counts what falls below its last line', () => {
    expect(pastedBlock(readBlock('reading\tverdict\n1 V\tgood\n2 V\tgood'), at, GRID_COLUMNS, 4)).toEqual({
      cells: [{ first: 3, last: 3, field: 'reading', text: '1 V' }],
      below: 1,
    });
  });

  test('goes by the headers of the grid, in whatever order they stand', () => {
    expect(pastedBlock(readBlock('meter\tverdict\treading\nM4\tgood\t1 V'), at, GRID_COLUMNS, 100).cells).toEqual([
      { first: 3, last: 3, field: 'meter', text: 'M4' },
      { first: 3, last: 3, field: 'reading', text: '1 V' },
    ]);
  });

  test('fills the whole selection with one cell', () => {
    const range = { firstRow: 3, lastRow: 9, firstColumn: 6, lastColumn: 9 };
    expect(pastedBlock(readBlock('7'), range, GRID_COLUMNS, 100).cells).toEqual([
      { first: 3, last: 9, field: 'reading', text: '7' },
      { first: 3, last: 9, field: 'meter', text: '7' },
    ]);
  });
});

test('newRows(block, columns, column, like) names the columns from the current one on, the tape left out', () => {
  const { rows, columns, like } = newRows(readBlock('1 V\tx\r\n"2\tV"'), GRID_COLUMNS.slice(0, 10), 6, fakeRow(4));
  expect(rows).toEqual([['1 V', 'x'], ['2\tV']]);
  expect(columns).toEqual([
    { title: 'reading', field: 'reading' },
    { title: 'verdict' },
    { title: 'meter', field: 'meter' },
  ]);
  expect(like).toEqual(fakeRow(4));
});

test('filledDown(first, range, columns, mark) gives the rows under the first its own texts', () => {
  const range = { firstRow: 3, lastRow: 9, firstColumn: 6, lastColumn: 9 };
  expect(filledDown(fakeRow(6), range, GRID_COLUMNS, ',')).toEqual([
    { first: 4, last: 9, field: 'reading', text: '25,27\u00a0V' },
    { first: 4, last: 9, field: 'meter', text: 'M2' },
  ]);
});

test('originalText(field, row, mark) tells what a cell was, where it was changed', () => {
  const row = { ...fakeRow(6), original: { state: 'value', value: 24.1, decimals: 1 } } as const;
  expect(originalText('reading', row, ',')).toBe('24,1\u00a0V');
  expect(originalText('meter', row, ',')).toBeUndefined();
  expect(originalText(undefined, row, ',')).toBeUndefined();
  expect(originalText('reading', fakeRow(6), ',')).toBeUndefined();
});
