import type { ReadingLog } from '../columns/reading-log.ts';
import { MAX_SET_ASIDE_KEPT } from './caps.ts';
import { detached } from './detached.ts';
import type { SetAsideList } from './set-aside-list.ts';

interface DoubtfulRow {
  readonly line: number;
  readonly column: string;
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

  add(line: number, column: string, cells: readonly string[]): void {
    const kept = this.#rows.length < MAX_SET_ASIDE_KEPT ? cells.map(detached) : [];
    this.#rows.push({ line, column, cells: kept });
  }

  /** The rows of the log that stay, ascending; undefined where all do. Those that go are added to `setAside`. */
  settle(log: ReadingLog, setAside: SetAsideList): Uint32Array | undefined {
    if (this.#rows.length === 0 || this.#showsGroups || !this.#showsMark) return undefined;
    const lines = new Set(this.#rows.map((row) => row.line));
    for (const { line, column, cells } of this.#rows) setAside.add(line, column, cells, REASON);
    return log.line.map((_, row) => row).filter((row) => !lines.has(log.line[row]!));
  }
}

const REASON =
  'A number of this row has three digits behind a mark that may group thousands or start decimals, and the file uses both: write it without that mark.';
