import { columnOf, GRID_COLUMNS, type GridColumn } from './grid-columns.ts';

/** How one column is shown. */
export interface ColumnPlace {
  readonly id: string;
  readonly shown: boolean;
  /** Whether it stays in sight while the others are scrolled sideways. */
  readonly pinned: boolean;
  /** Width in em where a person chose one. */
  readonly width?: number;
}

/** All columns in their order. The pinned ones stand before the others, whatever their order in this list. */
export type ColumnLayout = readonly ColumnPlace[];

/** A column as the grid draws it. */
export interface ShownColumn extends GridColumn {
  readonly pinned: boolean;
}

/** More pinned columns would leave no room for the others. */
export const MAX_PINNED = 4;
export const MIN_WIDTH = 3;
export const MAX_WIDTH = 40;

export const FIRST_LAYOUT: ColumnLayout = GRID_COLUMNS.map(({ id, spare }) => ({
  id,
  shown: spare !== true,
  pinned: false,
}));

/** The columns that are shown, in the order in which they stand. */
export function shownColumns(layout: ColumnLayout): readonly ShownColumn[] {
  const shown = layout.filter((place) => place.shown);
  const ordered = [...shown.filter((place) => place.pinned), ...shown.filter((place) => !place.pinned)];
  return ordered.map(({ id, pinned, width }) => {
    const column = columnOf(id);
    if (width !== undefined) return { ...column, pinned, width: `${width}em`, share: 0 };
    // What is pinned keeps its width: the columns behind it are placed by it.
    return { ...column, pinned, share: pinned ? 0 : column.share };
  });
}

/** The layout with a column shown or hidden; the last one that is shown stays. */
export function withShown(layout: ColumnLayout, id: string, shown: boolean): ColumnLayout {
  const others = layout.some((place) => place.shown && place.id !== id);
  return shown || others ? change(layout, id, { shown }) : layout;
}

/** The layout with a column pinned or not; no more than `MAX_PINNED` are, hidden ones included. */
export function withPinned(layout: ColumnLayout, id: string, pinned: boolean): ColumnLayout {
  const others = layout.filter((place) => place.pinned && place.id !== id).length;
  return pinned && others >= MAX_PINNED ? layout : change(layout, id, { pinned });
}

/** The layout with a column's width in em, within what is sensible; its own width where none is given. */
export function withWidth(layout: ColumnLayout, id: string, width?: number): ColumnLayout {
  return layout.map((place) => {
    if (place.id !== id) return place;
    const { shown, pinned } = place;
    const within = width === undefined ? undefined : Math.max(MIN_WIDTH, Math.min(MAX_WIDTH, width));
    return { id, shown, pinned, ...(within !== undefined && { width: Math.round(within * 4) / 4 }) };
  });
}

/** The layout with a column moved to another's place among those that stand as it does: shown or hidden, pinned or not. */
export function movedTo(layout: ColumnLayout, id: string, target: string): ColumnLayout {
  const from = layout.findIndex((place) => place.id === id);
  const to = layout.findIndex((place) => place.id === target);
  const moved = layout[from];
  const goal = layout[to];
  if (moved === undefined || goal === undefined || from === to) return layout;
  const rest = layout.filter((place) => place.id !== id);
  const reordered = [...rest.slice(0, to), moved, ...rest.slice(to)];
  // Dropped among pinned columns it is pinned, dropped behind them it is not.
  return goal.shown && moved.shown ? withPinned(reordered, id, goal.pinned) : reordered;
}

/** The layout with a shown column moved by one among the shown ones; pinned columns stay before the others. */
export function movedBy(layout: ColumnLayout, id: string, by: -1 | 1): ColumnLayout {
  const shown = shownColumns(layout);
  const at = shown.findIndex((column) => column.id === id);
  const target = shown[at + by];
  return at < 0 || target === undefined || target.pinned !== shown[at]?.pinned
    ? layout
    : movedTo(layout, id, target.id);
}

/** Writes the shown columns in their order, `time* repair point_12.5`: a star behind a pinned one, then a chosen width; empty for the first layout. */
export function writeLayout(layout: ColumnLayout): string {
  const text = writeColumns(layout);
  return text === writeColumns(FIRST_LAYOUT) ? '' : text;
}

/** Writes the shown columns as `writeLayout` does, those of the first layout too. */
export function writeColumns(layout: ColumnLayout): string {
  const widths = new Map(layout.map(({ id, width }) => [id, width]));
  return shownColumns(layout)
    .map(({ id, pinned }) => {
      const width = widths.get(id);
      return `${id}${pinned ? '*' : ''}${width === undefined ? '' : `_${width}`}`;
    })
    .join(' ');
}

/** Reads what `writeLayout` wrote; what is not understood is passed over, undefined where that leaves nothing. */
export function readLayout(text: string): ColumnLayout | undefined {
  const shown = new Map<string, ColumnPlace>();
  for (const entry of text.split(' ')) {
    const [, id = '', star = '', width] = /^([a-z-]+)(\*?)(?:_(\d+(?:\.\d+)?))?$/.exec(entry) ?? [];
    if (!GRID_COLUMNS.some((column) => column.id === id)) continue;
    shown.set(id, { id, shown: true, pinned: star !== '', ...(width !== undefined && { width: Number(width) }) });
  }
  if (shown.size === 0) return undefined;
  const hidden = FIRST_LAYOUT.filter(({ id }) => !shown.has(id)).map((place) => ({ ...place, shown: false }));
  const layout: ColumnLayout = [...shown.values(), ...hidden];
  return layout.reduce<ColumnLayout>(
    (whole, { id, width }) => (width === undefined ? whole : withWidth(whole, id, width)),
    capPins(layout),
  );
}

function capPins(layout: ColumnLayout): ColumnLayout {
  let pins = 0;
  return layout.map((place) => (place.pinned && ++pins > MAX_PINNED ? { ...place, pinned: false } : place));
}

function change(layout: ColumnLayout, id: string, changes: Partial<ColumnPlace>): ColumnLayout {
  return layout.map((place) => (place.id === id ? { ...place, ...changes } : place));
}
