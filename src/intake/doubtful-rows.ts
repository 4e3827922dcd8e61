import type { ReadingLog } from '../columns/reading-log.ts';
import { MAX_SET_ASIDE_KEPT } from './caps.ts';
import { detached } from './detached.ts';
import { cellReason, type Fault } from './fault.ts';
import type { SetAsideList } from './set-aside-list.ts';

interface DoubtfulRow {
  readonly line: number;
  readonly column: string;
  readonly index: number;
  readonly cells: readonly string[];
}

/**
 * Rows with a number that may be read in two ways, `5.555` where the decimal mark is the comma. The whole file settles it: where it shows
 * digits in groups beyond doubt, or never uses its decimal mark, the number is one with thousands; where it mixes the two, the row is set aside.
 */
export class DoubtfulRows {
  readonly #rows: DoubtfulRow[] = [];
  #showsGroups = false;
  #showsMark = false;

  /** Remembers what an undoubted number shows. */
  learn(showsGroups: boolean, showsMark: boolean): void {
    this.#showsGroups ||= showsGroups;
    this.#showsMark ||= showsMark;
  }

  /** @param column - the header of the number's column, and `index` its place */
  add(line: number, column: string, index: number, cells: readonly string[]): void {
    const kept = this.#rows.length < MAX_SET_ASIDE_KEPT ? cells.map(detached) : [];
    this.#rows.push({ line, column, index, cells: kept });
  }

  /** The rows of the log that stay, ascending; undefined where all do. Those that go are added to `setAside`. */
  settle(log: ReadingLog, setAside: SetAsideList): Uint32Array | undefined {
    if (this.#rows.length === 0 || this.#showsGroups || !this.#showsMark) return undefined;
    const lines = new Set(this.#rows.map((row) => row.line));
    for (const { line, column, index, cells } of this.#rows) {
      setAside.add(line, column, cells, cellReason(cells[index] ?? '', column, index, EITHER));
    }
    return log.line.map((_, row) => row).filter((row) => !lines.has(log.line[row]!));
  }
}

const EITHER: Fault = {
  wrong: 'has a mark that may group thousands or start decimals, and the file uses both',
  remedy: 'Write the number without that mark.',
};
