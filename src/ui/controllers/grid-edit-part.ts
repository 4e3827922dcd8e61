import type { ReactiveControllerHost } from 'lit';
import type { GridEditOptions } from './grid-edit-controller.ts';

/** The element whose cells are edited. */
export type GridHost = ReactiveControllerHost & { readonly renderRoot: ParentNode };

/** One way of editing a grid's readings, with what all of them need. */
export abstract class GridEditPart {
  protected readonly host: GridHost;
  protected readonly options: GridEditOptions;
  /** To be called after each change of the bench. */
  protected readonly changed: () => void;

  constructor(host: GridHost, options: GridEditOptions, changed: () => void) {
    this.host = host;
    this.options = options;
    this.changed = changed;
  }
}
