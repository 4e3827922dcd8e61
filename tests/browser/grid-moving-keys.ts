/** The extent of a grid: rows that a page key goes over, the row in the middle and the last one as assistive technology counts, and columns. */
interface GridExtent {
  readonly page: number;
  readonly middle: number;
  readonly last: number;
  readonly columns: number;
}

type Move = readonly [from: 'first' | 'middle' | 'last', keys: string, row: number, column: number];

/**
 * Where each key that moves the cursor leads from a corner or the sixth cell of the middle row. Source: WAI-ARIA Authoring Practices Guide, grid
 * pattern, keyboard interaction for data grids.
 */
export function movingKeys({ page, middle, last, columns }: GridExtent): readonly Move[] {
  return [
    ['first', '{ArrowRight}', 2, 2],
    ['first', '{ArrowLeft}', 2, 1],
    ['first', '{ArrowDown}', 3, 1],
    ['first', '{ArrowUp}', 1, 1],
    ['first', '{ArrowUp}{ArrowDown}', 2, 1],
    ['first', '{PageDown}', 2 + page, 1],
    ['first', '{PageUp}', 2, 1],
    ['first', '{End}', 2, columns],
    ['first', '{Home}', 2, 1],
    ['first', '{Control>}{End}{/Control}', last, columns],
    ['middle', '{ArrowRight}', middle, 7],
    ['middle', '{ArrowLeft}', middle, 5],
    ['middle', '{ArrowDown}', middle + 1, 6],
    ['middle', '{ArrowUp}', middle - 1, 6],
    ['middle', '{PageDown}', middle + page, 6],
    ['middle', '{PageUp}', middle - page, 6],
    ['middle', '{Home}', middle, 1],
    ['middle', '{End}', middle, columns],
    ['middle', '{Control>}{Home}{/Control}', 2, 1],
    ['middle', '{Control>}{End}{/Control}', last, columns],
    ['last', '{ArrowRight}', last, columns],
    ['last', '{ArrowLeft}', last, columns - 1],
    ['last', '{ArrowDown}', last, columns],
    ['last', '{ArrowUp}', last - 1, columns],
    ['last', '{PageDown}', last, columns],
    ['last', '{PageUp}', last - page, columns],
    ['last', '{Home}', last, 1],
    ['last', '{Control>}{Home}{/Control}', 2, 1],
  ];
}
