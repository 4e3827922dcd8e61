/** One cell of a matrix of counts, in pixels from its upper left corner. */
export interface MatrixCell {
  readonly row: number;
  readonly column: number;
  readonly count: number;
  readonly x: number;
  readonly y: number;
  /** From 0 for none to 1 for the largest count. */
  readonly strength: number;
}

export interface MatrixLayout {
  /** Row by row; cells that do not exist are left out. */
  readonly cells: readonly MatrixCell[];
  readonly cellWidth: number;
  readonly cellHeight: number;
  readonly width: number;
  readonly height: number;
}

/** Sides of a cell in pixels: narrow enough to compare, large enough to touch. */
const NARROWEST = 28;
const WIDEST = 52;
const HEIGHT = 28;

/**
 * Lays out a matrix of counts, shaded by count.
 * @param counts - row by row, all of one length; undefined where there is no cell
 * @param width - room for it, in pixels; narrow cells may need more
 */
export function layOutMatrix(counts: readonly (readonly (number | undefined)[])[], width: number): MatrixLayout {
  const columns = counts[0]?.length ?? 0;
  const cellWidth = columns === 0 ? 0 : Math.max(NARROWEST, Math.min(WIDEST, Math.floor(width / columns)));
  const most = counts.flat().reduce<number>((largest, count) => Math.max(largest, count ?? 0), 0);
  const cells = counts.flatMap((row, at) =>
    row.flatMap((count, column): readonly MatrixCell[] => {
      if (count === undefined) return [];
      const strength = most === 0 ? 0 : count / most;
      return [{ row: at, column, count, x: column * cellWidth, y: at * HEIGHT, strength }];
    }),
  );
  return { cells, cellWidth, cellHeight: HEIGHT, width: columns * cellWidth, height: counts.length * HEIGHT };
}
