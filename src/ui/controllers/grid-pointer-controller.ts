import type { ReactiveController, ReactiveControllerHost } from 'lit';
import { HEADER_ROW } from '../grid/grid-cursor.ts';
import { cellOf, columnAt, type CellPlace } from '../grid/grid-view.ts';

/** Farther than this, in pixels, a pressed header is dragged and not chosen. */
const DRAG_FROM = 5;

/** What a pointer asks of a grid. */
export interface GridPointerActions {
  /** @param extend - whether the selection is to reach up to the cell */
  readonly select: (cell: CellPlace, extend: boolean) => void;
  /** The selected cell is pressed with Ctrl: it is to lead to what it names. */
  readonly follow: () => void;
  readonly chooseHeader: (column: number, add: boolean) => void;
  readonly moveColumn: (from: number, to: number) => void;
  /** Width in pixels, while the pointer moves and once it has ended; undefined for the column's own width. */
  readonly resizeColumn: (column: number, width: number | undefined, ended: boolean) => void;
  /** The column before which a dragged one would fall, for a mark; undefined for none. */
  readonly markTarget: (column: number | undefined) => void;
}

type Drag =
  | { readonly kind: 'select' }
  | { readonly kind: 'header'; readonly column: number; readonly x: number; readonly add: boolean; moved: boolean }
  | { readonly kind: 'edge'; readonly column: number; readonly x: number; readonly width: number };

/** Turns what a pointer does on a grid into selections, orders, and moved and resized columns. */
export class GridPointerController implements ReactiveController {
  private drag: Drag | undefined;
  private readonly host: ReactiveControllerHost & HTMLElement;
  private readonly actions: GridPointerActions;

  constructor(host: ReactiveControllerHost & HTMLElement, actions: GridPointerActions) {
    this.host = host;
    this.actions = actions;
    host.addController(this);
  }

  hostConnected(): void {
    document.addEventListener('pointermove', this.move);
    document.addEventListener('pointerup', this.end);
    document.addEventListener('pointercancel', this.cancel);
  }

  hostDisconnected(): void {
    this.drag = undefined;
    document.removeEventListener('pointermove', this.move);
    document.removeEventListener('pointerup', this.end);
    document.removeEventListener('pointercancel', this.cancel);
  }

  readonly press = (event: PointerEvent): void => {
    const cell = cellOf(event);
    if (cell === undefined || event.button !== 0) return;
    event.preventDefault();
    const { row, column } = cell;
    if (row !== HEADER_ROW && (event.ctrlKey || event.metaKey)) {
      this.actions.select(cell, false);
      this.actions.follow();
      return;
    }
    if (row !== HEADER_ROW) {
      this.drag = { kind: 'select' };
      this.actions.select(cell, event.shiftKey);
      return;
    }
    const target = event.composedPath()[0] as Element;
    if (target.matches('.edge')) {
      const width = target.parentElement?.getBoundingClientRect().width ?? 0;
      this.drag = { kind: 'edge', column, x: event.clientX, width };
      return;
    }
    this.actions.select(cell, false);
    this.drag = { kind: 'header', column, x: event.clientX, add: event.shiftKey, moved: false };
  };

  /** Over another cell, the selection reaches up to it. */
  readonly over = (event: PointerEvent): void => {
    const cell = this.drag?.kind === 'select' ? cellOf(event) : undefined;
    if (cell !== undefined && cell.row >= 0) this.actions.select(cell, true);
  };

  /** A double click on the edge of a header gives the column its own width again. @returns whether it was one */
  resetWidth(event: MouseEvent): boolean {
    const target = event.composedPath()[0] as Element;
    const cell = target.matches('.edge') ? cellOf(event) : undefined;
    if (cell !== undefined) this.actions.resizeColumn(cell.column, undefined, true);
    return cell !== undefined;
  }

  private readonly move = (event: PointerEvent): void => {
    const { drag } = this;
    if (drag?.kind === 'edge') {
      this.actions.resizeColumn(drag.column, drag.width + event.clientX - drag.x, false);
    } else if (drag?.kind === 'header') {
      drag.moved ||= Math.abs(event.clientX - drag.x) > DRAG_FROM;
      if (drag.moved) this.actions.markTarget(this.targetOf(event));
    }
  };

  private readonly end = (event: PointerEvent): void => {
    const { drag } = this;
    this.drag = undefined;
    if (drag?.kind === 'edge') {
      const moved = event.clientX - drag.x;
      if (moved !== 0) this.actions.resizeColumn(drag.column, drag.width + moved, true);
    } else if (drag?.kind === 'header') {
      const target = this.targetOf(event);
      this.actions.markTarget(undefined);
      if (!drag.moved) this.actions.chooseHeader(drag.column, drag.add);
      else if (target !== undefined && target !== drag.column) this.actions.moveColumn(drag.column, target);
    }
  };

  private readonly cancel = (): void => {
    this.drag = undefined;
    this.actions.markTarget(undefined);
  };

  /** The column over which the pointer is, however far it is from the headers. */
  private targetOf(event: PointerEvent): number | undefined {
    const { shadowRoot } = this.host;
    return shadowRoot === null ? undefined : columnAt(shadowRoot, event.clientX);
  }
}
