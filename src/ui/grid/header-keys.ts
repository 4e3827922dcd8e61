import type { DecimalMark } from '../../domain/quantity.ts';
import { numberText } from './computed-text.ts';
import { movedBy, shownColumns, withPinned, withShown, withWidth, type ColumnLayout } from './column-layout.ts';
import { columnOf } from './grid-columns.ts';
import type { GridKey } from './grid-cursor.ts';

/** By how much a key changes a column's width, in em. */
const WIDTH_STEP = 0.5;

/** A changed layout, and the words that say what changed. */
export interface LayoutChange {
  readonly layout: ColumnLayout;
  readonly said: string;
}

/**
 * What a key does to the column whose header is current: Ctrl and an arrow moves it, Shift and an arrow makes it wider or
 * narrower, P pins it or lets it go, Delete hides it. Undefined where the key means nothing here.
 * @param width - the column's present width in em
 */
export function layoutByKey(
  layout: ColumnLayout,
  id: string,
  event: GridKey,
  width: number,
  mark: DecimalMark,
): LayoutChange | undefined {
  if (event.altKey) return undefined;
  const { title } = columnOf(id);
  const command = event.ctrlKey || event.metaKey;
  const by = event.key === 'ArrowLeft' ? -1 : event.key === 'ArrowRight' ? 1 : undefined;
  if (by !== undefined && command && !event.shiftKey) {
    const moved = movedBy(layout, id, by);
    const columns = shownColumns(moved);
    const place = columns.findIndex((column) => column.id === id) + 1;
    return { layout: moved, said: `${title} is column ${place} of ${columns.length}.` };
  }
  if (by !== undefined && event.shiftKey && !command) {
    const resized = withWidth(layout, id, width + by * WIDTH_STEP);
    const wide = resized.find((place) => place.id === id)?.width ?? width;
    return { layout: resized, said: `${title} is ${numberText(String(wide), mark)} letters wide.` };
  }
  if (command || event.shiftKey) return undefined;
  if (event.key === 'Delete') {
    const hidden = withShown(layout, id, false);
    return { layout: hidden, said: hidden === layout ? 'The last column stays.' : `${title} is hidden.` };
  }
  if (event.key.toLowerCase() !== 'p') return undefined;
  const isPinned = layout.some((place) => place.id === id && place.pinned);
  const pinned = withPinned(layout, id, !isPinned);
  const said =
    pinned === layout ? 'No more columns can be pinned.' : `${title} is ${isPinned ? 'not pinned' : 'pinned'}.`;
  return { layout: pinned, said };
}
