import { detached } from './detached.ts';
import { parseUnit, type UnitUse } from './unit-text.ts';

const NO_UNIT: UnitUse = { prefix: 0 };

/** A column of units. Each distinct cell is looked at once. */
export class UnitColumn {
  readonly #index: number;
  readonly #uses = new Map<string, UnitUse | null>();
  #lastCell = '';
  #lastUse: UnitUse | null = NO_UNIT;

  /** @param index - the column's place in a row, `-1` where the file has none */
  constructor(index: number) {
    this.#index = index;
  }

  /** The row's unit; null where its cell holds none that is known. */
  use(cells: readonly string[]): UnitUse | null {
    if (this.#index < 0) return NO_UNIT;
    const cell = cells[this.#index] ?? '';
    if (cell === this.#lastCell) return this.#lastUse;
    let use = this.#uses.get(cell);
    if (use === undefined) {
      use = parseUnit(cell) ?? null;
      if (this.#uses.size < 1000 && cell.length < 200) this.#uses.set(detached(cell), use);
    }
    this.#lastCell = cell;
    this.#lastUse = use;
    return use;
  }
}
