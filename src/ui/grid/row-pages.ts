/** How the rows of one query are fetched: `count` rows from `first` on, fewer at the end. */
export type FetchRows<Row> = (first: number, count: number) => Promise<readonly Row[]>;

export const PAGE_ROWS = 128;
const PAGES_KEPT = 16;
const FETCHES_AT_ONCE = 2;

/**
 * Some rows of one query, kept in pages. What is asked for last is fetched first: pages that were scrolled past while
 * others were fetched are never asked for.
 */
export class RowPages<Row> {
  /** Oldest use first. */
  private readonly pages = new Map<number, readonly Row[]>();
  private readonly underway = new Set<number>();
  private wanted: readonly number[] = [];
  /** The first row that was wanted last: it tells which way the rows are scrolled. */
  private lastFirst = 0;
  private readonly fetchRows: FetchRows<Row>;
  private readonly arrived: () => void;
  private readonly failed: (reason: unknown) => void;

  constructor(fetchRows: FetchRows<Row>, arrived: () => void, failed: (reason: unknown) => void) {
    this.fetchRows = fetchRows;
    this.arrived = arrived;
    this.failed = failed;
  }

  /** The row at a place of the query's order, undefined where it is not here yet. */
  row(index: number): Row | undefined {
    return this.pages.get(pageOf(index))?.[index % PAGE_ROWS];
  }

  /**
   * Fetches the rows from `first` to `last` before anything else, and waits for them.
   * @throws what fetching throws
   */
  async load(first: number, last: number): Promise<void> {
    const missing = pagesBetween(first, last).filter((page) => !this.pages.has(page));
    await Promise.all(
      missing.map(async (page) => {
        this.keep(page, await this.fetchRows(page * PAGE_ROWS, PAGE_ROWS));
      }),
    );
  }

  /** Fetches the pages of the rows from `first` to `last` that are not here, then two that are scrolled to, and the one scrolled from. */
  want(first: number, last: number, rows: number): void {
    if (rows === 0) return;
    const seen = pagesBetween(first, last);
    for (const page of seen) this.touch(page);
    const [above, below] = [pageOf(first) - 1, pageOf(last) + 1];
    const near = first < this.lastFirst ? [above, above - 1, below] : [below, below + 1, above];
    this.lastFirst = first;
    const there = near.filter((page) => page >= 0 && page <= pageOf(rows - 1));
    this.wanted = [...seen, ...there].filter((page) => !this.pages.has(page));
    this.fetchNext();
  }

  private fetchNext(): void {
    for (const page of this.wanted) {
      if (this.underway.size >= FETCHES_AT_ONCE) return;
      if (!this.underway.has(page) && !this.pages.has(page)) void this.fetchPage(page);
    }
  }

  private async fetchPage(page: number): Promise<void> {
    this.underway.add(page);
    try {
      const rows = await this.fetchRows(page * PAGE_ROWS, PAGE_ROWS);
      this.keep(page, rows);
      this.arrived();
    } catch (reason) {
      this.wanted = [];
      this.failed(reason);
    } finally {
      this.underway.delete(page);
    }
    this.fetchNext();
  }

  private keep(page: number, rows: readonly Row[]): void {
    this.pages.set(page, rows);
    const [oldest] = this.pages.keys();
    if (this.pages.size > PAGES_KEPT && oldest !== undefined) this.pages.delete(oldest);
  }

  private touch(page: number): void {
    const rows = this.pages.get(page);
    if (rows === undefined) return;
    this.pages.delete(page);
    this.pages.set(page, rows);
  }
}

function pageOf(index: number): number {
  return Math.floor(index / PAGE_ROWS);
}

function pagesBetween(first: number, last: number): readonly number[] {
  const start = pageOf(first);
  return Array.from({ length: Math.max(0, pageOf(last) - start + 1) }, (_, index) => start + index);
}
