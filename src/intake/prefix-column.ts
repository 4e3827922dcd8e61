import { detached } from './detached.ts';
import { parseUnit } from './unit-text.ts';

/** The power of ten of a prefix or factor that stands in a cell of its own: `k`, `µ`, `x1000`, `1e-3`; undefined where it is none. */
export function readScale(cell: string): number | undefined {
  const text = cell.trim();
  if (text === '' || text === '-' || /^(?:none|auto)$/i.test(text)) return 0;
  const unit = parseUnit(text);
  if (unit !== undefined) return unit.prefix;
  const factor = /^[x×*]?\s*(?:10\^|1[eE])([+-]?\d{1,2})$/.exec(text);
  if (factor) return Number(factor[1]);
  const plain = /^[x×*]\s*(1(?:000){0,3})$|^(1(?:000){0,3})$/.exec(text);
  return plain ? (plain[1] ?? plain[2])!.length - 1 : undefined;
}

/** A column of prefixes beside a column of numbers. Each distinct cell is looked at once. */
export class PrefixColumn {
  readonly #index: number;
  readonly #powers = new Map<string, number | null>();

  /** @param index - the column's place in a row, `-1` where the file has none */
  constructor(index: number) {
    this.#index = index;
  }

  /** The power of ten of the row's prefix; null where its cell holds none that is known. */
  power(cells: readonly string[]): number | null {
    if (this.#index < 0) return 0;
    const cell = cells[this.#index] ?? '';
    let power = this.#powers.get(cell);
    if (power === undefined) {
      power = readScale(cell) ?? null;
      if (this.#powers.size < 1000 && cell.length < 200) this.#powers.set(detached(cell), power);
    }
    return power;
  }
}
