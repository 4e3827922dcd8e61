/** Row of the header, above the first row of data. */
export const HEADER_ROW = -1;

/** The current cell, and the selection that spans from the anchor to it. */
export interface GridCursor {
  readonly row: number;
  readonly column: number;
  readonly anchorRow: number;
  readonly anchorColumn: number;
  /** Whether the selection takes in whole rows, whole columns, or all. */
  readonly whole: 'cells' | 'rows' | 'columns' | 'all';
}

/** Size of the grid: data rows, columns, and by how many rows the page keys move. */
export interface GridExtent {
  readonly rows: number;
  readonly columns: number;
  readonly page: number;
}

/** A rectangle of cells, all ends included. */
export interface GridRange {
  readonly firstRow: number;
  readonly lastRow: number;
  readonly firstColumn: number;
  readonly lastColumn: number;
}

/** What a key event says of itself. */
export interface GridKey {
  readonly key: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly shiftKey: boolean;
  readonly altKey: boolean;
}

/** A cursor with one cell selected. */
export function cursorAt(row: number, column: number): GridCursor {
  return { row, column, anchorRow: row, anchorColumn: column, whole: 'cells' };
}

/** The same selection with its moving end at another cell. */
export function extendTo(cursor: GridCursor, row: number, column: number): GridCursor {
  const whole = cursor.whole === 'all' ? 'cells' : cursor.whole;
  return { ...cursor, row, column, whole };
}

/** Moves the cursor into a grid that has changed its size. */
export function clampCursor(cursor: GridCursor, { rows, columns }: GridExtent): GridCursor {
  const toRow = (row: number): number => Math.max(HEADER_ROW, Math.min(row, rows - 1));
  const toColumn = (column: number): number => Math.max(0, Math.min(column, columns - 1));
  return {
    row: toRow(cursor.row),
    column: toColumn(cursor.column),
    anchorRow: toRow(cursor.anchorRow),
    anchorColumn: toColumn(cursor.anchorColumn),
    whole: cursor.whole,
  };
}

/** The cells that are selected; undefined where there is no row of data, or the header alone is meant. */
export function rangeOf(cursor: GridCursor, { rows, columns }: GridExtent): GridRange | undefined {
  const all = cursor.whole === 'all';
  const wholeRows = all || cursor.whole === 'rows';
  const wholeColumns = all || cursor.whole === 'columns';
  const lastRow = wholeColumns ? rows - 1 : Math.max(cursor.row, cursor.anchorRow);
  if (rows === 0 || lastRow < 0) return undefined;
  return {
    firstRow: wholeColumns ? 0 : Math.max(0, Math.min(cursor.row, cursor.anchorRow)),
    lastRow,
    firstColumn: wholeRows ? 0 : Math.min(cursor.column, cursor.anchorColumn),
    lastColumn: wholeRows ? columns - 1 : Math.max(cursor.column, cursor.anchorColumn),
  };
}

export function isInRange(range: GridRange | undefined, row: number, column: number): boolean {
  return (
    range !== undefined &&
    row >= range.firstRow &&
    row <= range.lastRow &&
    column >= range.firstColumn &&
    column <= range.lastColumn
  );
}

/**
 * The cursor after a key of the data grid pattern; undefined where the key means nothing to it.
 * Source: WAI-ARIA Authoring Practices Guide, grid pattern, keyboard interaction for data grids.
 */
export function moveByKey(cursor: GridCursor, event: GridKey, extent: GridExtent): GridCursor | undefined {
  if (event.altKey) return undefined;
  const command = event.ctrlKey || event.metaKey;
  if (event.key === ' ') return selectWhole(cursor, command, event.shiftKey);
  if (command && event.key.toLowerCase() === 'a' && !event.shiftKey) return { ...cursor, whole: 'all' };
  const target = targetOf(cursor, event.key, command, extent);
  if (target === undefined) return undefined;
  const { row, column } = target;
  return event.shiftKey && row !== HEADER_ROW ? extendTo(cursor, row, column) : cursorAt(row, column);
}

function selectWhole(cursor: GridCursor, command: boolean, shift: boolean): GridCursor | undefined {
  if (command && shift) return { ...cursor, whole: 'all' };
  if (command) return { ...cursor, whole: 'columns' };
  return shift && cursor.row !== HEADER_ROW ? { ...cursor, whole: 'rows' } : undefined;
}

interface Target {
  readonly row: number;
  readonly column: number;
}

function targetOf(from: GridCursor, key: string, command: boolean, extent: GridExtent): Target | undefined {
  const { row, column } = from;
  const lastRow = extent.rows - 1;
  const lastColumn = extent.columns - 1;
  if (command) {
    if (key === 'Home') return { row: Math.min(0, lastRow), column: 0 };
    if (key === 'End') return { row: lastRow, column: lastColumn };
    return undefined;
  }
  switch (key) {
    case 'ArrowUp':
      return { row: Math.max(HEADER_ROW, row - 1), column };
    case 'ArrowDown':
      return { row: Math.min(lastRow, row + 1), column };
    case 'ArrowLeft':
      return { row, column: Math.max(0, column - 1) };
    case 'ArrowRight':
      return { row, column: Math.min(lastColumn, column + 1) };
    case 'PageUp':
      return { row: Math.max(Math.min(0, row), row - extent.page), column };
    case 'PageDown':
      return { row: Math.min(lastRow, Math.max(0, row) + extent.page), column };
    case 'Home':
      return { row, column: 0 };
    case 'End':
      return { row, column: lastColumn };
    default:
      return undefined;
  }
}
