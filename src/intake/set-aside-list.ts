import type { SetAside } from '../domain/import-record.ts';
import { MAX_CONTENT, MAX_SET_ASIDE_KEPT } from './caps.ts';
import { detached } from './detached.ts';
import { writeRow } from './write-row.ts';

/** The rows of one file that could not become readings: all are counted, the first ten thousand kept. */
export class SetAsideList {
  readonly kept: SetAside[] = [];
  count = 0;
  readonly #file: string;
  readonly #separator: string;

  constructor(file: string, separator: string) {
    this.#file = file;
    this.#separator = separator;
  }

  /** @param column - header of the faulty column, empty where the row as a whole is meant */
  add(line: number, column: string, cells: readonly string[], reason: string): void {
    this.count += 1;
    if (this.kept.length >= MAX_SET_ASIDE_KEPT) return;
    const content = detached(
      writeRow(cells.length > 1000 ? cells.slice(0, 1000) : cells, this.#separator).slice(0, MAX_CONTENT),
    );
    this.kept.push({ file: this.#file, line, column, content, reason });
  }
}
