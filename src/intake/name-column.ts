import type { Dictionary } from '../columns/dictionary.ts';
import { MAX_NAME } from './caps.ts';
import { detached } from './detached.ts';
import type { Fault } from './fault.ts';
import { nameUnder } from './names.ts';
import { isSummaryWord } from './words.ts';

/** Codes of cells that give no name. */
export const NO_NAME = -1;
export const SUMMARY_NAME = -2;
export const BAD_NAME = -3;

/** What stands in a cell that names nothing. */
const NOTHING = new Set(['', '-', '--', '–', '—', 'n/a']);

const TOO_LONG: Fault = {
  wrong: `is longer than ${MAX_NAME} characters, which no name is`,
  remedy: 'Shorten it, or choose another column for these names.',
};
const UNDECODED: Fault = {
  wrong: 'holds a character that could not be decoded',
  remedy: 'Choose another encoding for the file.',
};

/** A column of names, read as codes of a dictionary. Each distinct cell is looked at once. */
export class NameColumn {
  /** Why the last cell that gave `BAD_NAME` is no name. */
  fault: Fault = TOO_LONG;
  readonly #index: number;
  readonly #dictionary: Dictionary;
  readonly #limit: number;
  readonly #header: string;
  #fallback = NO_NAME;
  readonly #codes = new Map<string, number>();
  #lastCell = '';
  #lastCode = NO_NAME;

  /**
   * @param index - the column's place in a row, `-1` where the file has none
   * @param limit - most different names that the dictionary may come to hold
   * @param header - the column's header
   */
  constructor(index: number, dictionary: Dictionary, limit: number, header = '') {
    this.#index = index;
    this.#dictionary = dictionary;
    this.#limit = limit;
    this.#header = header;
  }

  /** States the name of the rows from here on whose cell is empty; undefined for none. */
  useFallback(name: string | undefined): void {
    this.#fallback = name === undefined ? NO_NAME : this.#dictionary.intern(name);
  }

  /** The code of the row's name, or one of the codes below zero. */
  code(cells: readonly string[]): number {
    if (this.#index < 0) return this.#fallback;
    const cell = cells[this.#index] ?? '';
    if (cell !== this.#lastCell) {
      const code = this.#codes.get(cell) ?? this.#add(cell);
      if (code === BAD_NAME) return code;
      this.#lastCell = cell;
      this.#lastCode = code;
    }
    return this.#lastCode === NO_NAME ? this.#fallback : this.#lastCode;
  }

  #add(cell: string): number {
    const name = nameUnder(this.#header, cell);
    if (name.length > MAX_NAME || name.includes('\ufffd')) {
      this.fault = name.length > MAX_NAME ? TOO_LONG : UNDECODED;
      return BAD_NAME;
    }
    let code: number;
    if (NOTHING.has(name.toLowerCase())) code = NO_NAME;
    else if (isSummaryWord(name)) code = SUMMARY_NAME;
    else if (this.#dictionary.size >= this.#limit && this.#dictionary.find(name) < 0) {
      this.fault = {
        wrong: `is a new name after ${this.#limit.toLocaleString('en')} others, which is more than can be kept`,
        remedy: 'Choose another column for these names.',
      };
      return BAD_NAME;
    } else code = this.#dictionary.intern(name);
    this.#codes.set(cell === name ? name : detached(cell), code);
    return code;
  }
}
