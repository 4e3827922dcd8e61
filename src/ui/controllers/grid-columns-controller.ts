import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { DecimalMark } from '../../domain/quantity.ts';
import {
  FIRST_LAYOUT,
  movedTo,
  shownColumns,
  withWidth,
  type ColumnLayout,
  type ShownColumn,
} from '../grid/column-layout.ts';
import type { GridKey } from '../grid/grid-cursor.ts';
import { layoutByKey } from '../grid/header-keys.ts';

export interface GridColumnsOptions {
  /** Width in pixels of a drawn column, and of one em beside it. */
  readonly measure: (column: number) => { readonly width: number; readonly em: number };
  readonly mark: () => DecimalMark;
  /** Called with the layout that a person chose. */
  readonly chosen: (layout: ColumnLayout) => void;
  readonly say: (text: string) => void;
}

/** The columns of a grid, and what pointer and keys do to them. */
export class GridColumnsController implements ReactiveController {
  /** The columns that are drawn, in their order. */
  shown: readonly ShownColumn[] = shownColumns(FIRST_LAYOUT);
  /** The column on which a dragged one would be dropped. */
  target: number | undefined;
  private layout = FIRST_LAYOUT;
  private readonly host: ReactiveControllerHost;
  private readonly options: GridColumnsOptions;

  constructor(host: ReactiveControllerHost, options: GridColumnsOptions) {
    this.host = host;
    this.options = options;
    host.addController(this);
  }

  /** Nothing of the page is held. */
  hostDisconnected(): void {
    this.target = undefined;
  }

  /** Takes a layout, and says where the column of a place is drawn now; `-1` where it is hidden. */
  show(layout: ColumnLayout, current: number): number {
    const id = this.shown[current]?.id;
    this.layout = layout;
    this.shown = shownColumns(layout);
    return this.shown.findIndex((column) => column.id === id);
  }

  /** Does to a column what a key on its header asks for. @returns whether it asks for anything */
  press(column: number, event: GridKey): boolean {
    const shown = this.shown[column];
    if (shown === undefined) return false;
    const { width, em } = this.options.measure(column);
    const change = layoutByKey(this.layout, shown.id, event, width / em, this.options.mark());
    if (change === undefined) return false;
    this.options.say(change.said);
    this.options.chosen(change.layout);
    return true;
  }

  readonly move = (from: number, to: number): void => {
    const [moved, target] = [this.shown[from], this.shown[to]];
    if (moved && target) this.options.chosen(movedTo(this.layout, moved.id, target.id));
  };

  /** @param width - in pixels; undefined for the column's own. @param ended - who holds the grid hears of it once, when the pointer is let go */
  readonly resize = (column: number, width: number | undefined, ended: boolean): void => {
    const shown = this.shown[column];
    if (shown === undefined) return;
    const { em } = this.options.measure(column);
    const layout = withWidth(this.layout, shown.id, width === undefined ? undefined : width / em);
    if (ended) {
      this.options.chosen(layout);
      return;
    }
    this.shown = shownColumns(layout);
    this.host.requestUpdate();
  };

  readonly markTarget = (column: number | undefined): void => {
    if (column === this.target) return;
    this.target = column;
    this.host.requestUpdate();
  };
}
