import { detached } from './detached.ts';

/** The cell is empty and nothing is given in its place. */
export const NO_WORD = -1;
/** The cell holds none of the words. */
export const BAD_WORD = -2;

/** A column whose cells hold one of a few words, read as places in a list. Each distinct cell is looked at once. */
export class WordColumn<Word extends string> {
  readonly #index: number;
  readonly #list: readonly Word[];
  readonly #read: (cell: string) => Word | undefined;
  readonly #fallback: number;
  readonly #codes = new Map<string, number>();
  #lastCell = '';
  #lastCode: number;

  /**
   * @param index - the column's place in a row, `-1` where the file has none
   * @param read - the word that a cell stands for
   * @param fallback - the word where the cell is empty
   */
  constructor(
    index: number,
    list: readonly Word[],
    read: (cell: string) => Word | undefined,
    fallback: Word | undefined,
  ) {
    this.#index = index;
    this.#list = list;
    this.#read = read;
    this.#fallback = fallback === undefined ? NO_WORD : list.indexOf(fallback);
    this.#lastCode = this.#fallback;
  }

  /** The place of the row's word in the list, or one of the codes below zero. */
  code(cells: readonly string[]): number {
    if (this.#index < 0) return this.#fallback;
    const cell = cells[this.#index] ?? '';
    if (cell === this.#lastCell) return this.#lastCode;
    this.#lastCode = this.#codes.get(cell) ?? this.#add(cell);
    this.#lastCell = cell;
    return this.#lastCode;
  }

  #add(cell: string): number {
    const word = cell.trim() === '' ? undefined : this.#read(cell);
    const code = cell.trim() === '' ? this.#fallback : word === undefined ? BAD_WORD : this.#list.indexOf(word);
    if (this.#codes.size < 1000 && cell.length < 200) this.#codes.set(detached(cell), code);
    return code;
  }
}
