import type { ShownColumn } from './column-layout.ts';
import { columnTracks, pinOffsets } from './grid-columns.ts';
import type { VisibleRows, WindowShape } from './grid-window.ts';
import { scrollHeight } from './grid-window.ts';

/** What the style sheet needs that is computed, in pixels unless they are column widths. */
export interface GridMeasures {
  readonly columns: readonly ShownColumn[];
  readonly shape: WindowShape;
  readonly visible: VisibleRows;
  readonly headerHeight: number;
}

/** Gives an element the computed lengths: style sheets may not hold them, and the page's policy forbids style attributes. */
export function setLengths(element: HTMLElement, { columns, shape, visible, headerHeight }: GridMeasures): void {
  const { tracks, gap, leastWidth } = columnTracks(columns);
  const lengths: Readonly<Record<string, string>> = {
    '--tracks': tracks,
    '--gap': gap,
    '--least-width': leastWidth,
    '--scroll-height': `${scrollHeight(shape) + headerHeight}px`,
    '--view-height': `${shape.viewHeight + headerHeight}px`,
    '--row-height': shape.rowHeight > 0 ? `${shape.rowHeight}px` : '1.875em',
    '--shift': `${visible.shift}px`,
  };
  const pins = pinOffsets(columns).map((offset, index) => [`--pin-${index}`, offset] as const);
  for (const [name, value] of [...Object.entries(lengths), ...pins]) {
    if (element.style.getPropertyValue(name) !== value) element.style.setProperty(name, value);
  }
}
