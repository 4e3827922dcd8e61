import { detached } from './detached.ts';

/** The cell is empty and nothing is given in its place. */
export const NO_WORD = -1;
/** The cell holds none of the words. */
const BAD_WORD = -2;

/** A column whose cells hold one of a few words, read as places in a list. Each distinct cell is looked at once. */
export class WordColumn<Word extends string> {
  readonly #index: number;
  readonly #list: readonly Word[];
  readonly #read: (cell: string) => Word | undefined;
  #fallback = NO_WORD;
  readonly #codes = new Map<string, number>();
  #lastCell = '';
  #lastCode = NO_WORD;

  /**
   * @param index - the column's place in a row, `-1` where the file has none
   * @param read - the word that a cell stands for
   */
  constructor(index: number, list: readonly Word[], read: (cell: string) => Word | undefined) {
    this.#index = index;
    this.#list = list;
    this.#read = read;
  }

  /** States the word of the rows from here on whose cell is empty; undefined for none. */
  useFallback(word: Word | undefined): void {
    this.#fallback = word === undefined ? NO_WORD : this.#list.indexOf(word);
  }

  /** The place of the row's word in the list, or one of the codes below zero. */
  code(cells: readonly string[]): number {
    if (this.#index < 0) return this.#fallback;
    const cell = cells[this.#index] ?? '';
    if (cell !== this.#lastCell) {
      this.#lastCode = this.#codes.get(cell) ?? this.#add(cell);
      this.#lastCell = cell;
    }
    return this.#lastCode === NO_WORD ? this.#fallback : this.#lastCode;
  }

  #add(cell: string): number {
    const word = cell.trim() === '' ? undefined : this.#read(cell);
    const code = cell.trim() === '' ? NO_WORD : word === undefined ? BAD_WORD : this.#list.indexOf(word);
    if (this.#codes.size < 1000 && cell.length < 200) this.#codes.set(detached(cell), code);
    return code;
  }
}
