import type { Dictionary } from '../columns/dictionary.ts';
import { MAX_NAME } from './caps.ts';
import { detached } from './detached.ts';
import { cleanName } from './names.ts';
import { isSummaryWord } from './words.ts';

/** Codes of cells that give no name. */
export const NO_NAME = -1;
export const SUMMARY_NAME = -2;
export const BAD_NAME = -3;

/** What stands in a cell that names nothing. */
const NOTHING = new Set(['', '-', '--', '–', '—', 'n/a']);

/** A column of names, read as codes of a dictionary. Each distinct cell is looked at once. */
export class NameColumn {
  /** Why the last cell that gave `BAD_NAME` is no name, as the end of a sentence. */
  fault = '';
  readonly #index: number;
  readonly #dictionary: Dictionary;
  readonly #limit: number;
  readonly #fallback: number;
  readonly #codes = new Map<string, number>();
  #lastCell = '';
  #lastCode: number;

  /**
   * @param index - the column's place in a row, `-1` where the file has none
   * @param fallback - the name where the cell is empty; undefined for none
   * @param limit - most different names that the dictionary may come to hold
   */
  constructor(index: number, dictionary: Dictionary, fallback: string | undefined, limit: number) {
    this.#index = index;
    this.#dictionary = dictionary;
    this.#limit = limit;
    this.#fallback = fallback === undefined ? NO_NAME : dictionary.intern(fallback);
    this.#lastCode = this.#fallback;
  }

  /** The code of the row's name, or one of the codes below zero. */
  code(cells: readonly string[]): number {
    if (this.#index < 0) return this.#fallback;
    const cell = cells[this.#index] ?? '';
    if (cell === this.#lastCell) return this.#lastCode;
    const code = this.#codes.get(cell) ?? this.#add(cell);
    if (code !== BAD_NAME) {
      this.#lastCell = cell;
      this.#lastCode = code;
    }
    return code;
  }

  #add(cell: string): number {
    const name = cleanName(cell);
    if (name.length > MAX_NAME || name.includes('\ufffd')) {
      this.fault =
        name.length > MAX_NAME
          ? `is longer than ${MAX_NAME} characters, which no name is: choose another column, or shorten it`
          : 'holds a character that could not be decoded: choose another encoding for the file';
      return BAD_NAME;
    }
    let code: number;
    if (NOTHING.has(name.toLowerCase())) code = this.#fallback;
    else if (isSummaryWord(name)) code = SUMMARY_NAME;
    else if (this.#dictionary.size >= this.#limit && this.#dictionary.find(name) < 0) {
      this.fault = `is the ${this.#limit + 1}th different name: choose another column, for no bench has so many`;
      return BAD_NAME;
    } else code = this.#dictionary.intern(name);
    this.#codes.set(cell === name ? name : detached(cell), code);
    return code;
  }
}
