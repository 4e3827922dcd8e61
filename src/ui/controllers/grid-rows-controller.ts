import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { DerivedField, GridLine, ReadingsCount, ReadingsQuery } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { RowPages } from '../grid/row-pages.ts';

/** What the grid shows: one query's lines with some derived fields, at one revision of the bench. */
interface Shown {
  readonly key: string;
  readonly query: ReadingsQuery;
  readonly count: ReadingsCount;
  readonly pages: RowPages<GridLine>;
}

/** What of a new query its host must know to follow it. */
export interface Opened {
  readonly count: ReadingsCount;
  /** Where the row that the host asked to keep stands now; `-1` where it is gone, undefined where none was asked for. */
  readonly kept: number | undefined;
}

export interface GridRowsOptions {
  /** The row that will be in sight once a query is opened, and how many rows the host shows around it at most. */
  readonly landing: (opened: Opened) => { readonly row: number; readonly reach: number };
  /** The log row that should stay current, if any. */
  readonly keep: () => number | undefined;
  /** Called before the host is drawn with another query's rows. */
  readonly opened: (opened: Opened) => void;
}

/**
 * Lines of a query, fetched from the worker in pages. When the query or the bench changes, the rows before stay until
 * those that replace them are here, so that nothing flashes.
 */
export class GridRowsController implements ReactiveController {
  /** Why rows could not be had, as a sentence. */
  fault: string | undefined;
  private shown: Shown | undefined;
  private openingKey: string | undefined;
  private failedKey: string | undefined;
  private readonly host: ReactiveControllerHost;
  private readonly options: GridRowsOptions;

  constructor(host: ReactiveControllerHost, options: GridRowsOptions) {
    this.host = host;
    this.options = options;
    host.addController(this);
  }

  get count(): ReadingsCount | undefined {
    return this.shown?.count;
  }

  /** The query whose rows are shown, which may lag behind the one asked for. */
  get query(): ReadingsQuery | undefined {
    return this.shown?.query;
  }

  get busy(): boolean {
    return this.openingKey !== undefined;
  }

  /** Lines that list the query's readings. */
  get lines(): number {
    return this.shown === undefined ? 0 : linesOf(this.shown.count);
  }

  row(index: number): GridLine | undefined {
    return this.shown?.pages.row(index);
  }

  /** Fetches what is not here of the rows from `first` to `last`. */
  want(first: number, last: number): void {
    if (this.shown !== undefined) this.shown.pages.want(first, last, this.lines);
  }

  /**
   * Shows a query's lines; the same one again does nothing, unless the bench has changed.
   * @param edition - grows with each edit made here, whether or not the session tells of it
   */
  open(session: Session, query: ReadingsQuery, derived: readonly DerivedField[], edition: number): void {
    const key = JSON.stringify([`${session.state.revision} ${edition}`, query, derived]);
    // What failed once is not asked again and again.
    if (key === (this.openingKey ?? this.shown?.key) || key === this.failedKey) return;
    this.openingKey = key;
    this.load(session, query, derived, key).catch((reason: unknown) => {
      if (this.openingKey !== key) return;
      this.openingKey = undefined;
      this.failedKey = key;
      this.fail(reason);
    });
  }

  hostDisconnected(): void {
    this.openingKey = undefined;
    this.failedKey = undefined;
    this.shown = undefined;
  }

  private async load(
    session: Session,
    query: ReadingsQuery,
    derived: readonly DerivedField[],
    key: string,
  ): Promise<void> {
    const pages = new RowPages<GridLine>(
      (first, count) => session.ask('lines', [query, first, count, derived]),
      () => {
        this.host.requestUpdate();
      },
      (reason) => {
        if (this.shown?.pages === pages) this.fail(reason);
      },
    );
    const keep = this.sameBench(key) ? this.options.keep() : undefined;
    const [count, kept] = await Promise.all([
      session.ask('count', [query]),
      keep === undefined ? undefined : session.ask('placeOf', [query, keep]),
    ]);
    if (this.openingKey !== key) return;
    const { row, reach } = this.options.landing({ count, kept });
    await pages.load(Math.max(0, row - reach), Math.min(row + reach, linesOf(count) - 1));
    if (this.openingKey !== key) return;
    this.openingKey = undefined;
    this.failedKey = undefined;
    this.fault = undefined;
    this.shown = { key, query, count, pages };
    this.options.opened({ count, kept });
    this.host.requestUpdate();
  }

  /** Whether a row's number still names the same reading: another revision of the bench may have other rows. */
  private sameBench(key: string): boolean {
    const [revision] = JSON.parse(key) as [string];
    return this.shown !== undefined && (JSON.parse(this.shown.key) as [string])[0] === revision;
  }

  private fail(reason: unknown): void {
    this.fault = reason instanceof Error ? reason.message : String(reason);
    this.host.requestUpdate();
  }
}

/** Lines that list what a query holds. */
export function linesOf({ lines, readings }: ReadingsCount): number {
  return lines ?? readings;
}
