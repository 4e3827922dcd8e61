import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { ReadingRow, ReadingsCount, ReadingsQuery } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { RowPages } from '../grid/row-pages.ts';

/** What the grid shows: one query's rows, at one revision of the bench. */
interface Shown {
  readonly key: string;
  readonly query: ReadingsQuery;
  readonly count: ReadingsCount;
  readonly pages: RowPages<ReadingRow>;
}

/** What of a new query its host must know to follow it. */
export interface Opened {
  readonly count: ReadingsCount;
  /** Where the row that the host asked to keep stands now; `-1` where it is gone, undefined where none was asked for. */
  readonly kept: number | undefined;
}

export interface GridRowsOptions {
  /** The rows that the host shows now. */
  readonly visible: () => { readonly first: number; readonly last: number };
  /** The log row that should stay current, if any. */
  readonly keep: () => number | undefined;
  /** Called before the host is drawn with another query's rows. */
  readonly opened: (opened: Opened) => void;
}

/**
 * Rows of a query, fetched from the worker in pages. When the query or the bench changes, the rows before stay until
 * those that replace them are here, so that nothing flashes.
 */
export class GridRowsController implements ReactiveController {
  /** Why rows could not be had, as a sentence. */
  fault: string | undefined;
  private shown: Shown | undefined;
  private openingKey: string | undefined;
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

  row(index: number): ReadingRow | undefined {
    return this.shown?.pages.row(index);
  }

  /** Fetches what is not here of the rows from `first` to `last`. */
  want(first: number, last: number): void {
    if (this.shown !== undefined) this.shown.pages.want(first, last, this.shown.count.readings);
  }

  /** Shows a query's rows; the same one again does nothing, unless the bench has changed. */
  open(session: Session, query: ReadingsQuery): void {
    const key = JSON.stringify([session.state.revision, query]);
    if (key === (this.openingKey ?? this.shown?.key)) return;
    this.openingKey = key;
    this.load(session, query, key).catch((reason: unknown) => {
      if (this.openingKey !== key) return;
      this.openingKey = undefined;
      this.fail(reason);
    });
  }

  hostDisconnected(): void {
    this.openingKey = undefined;
    this.shown = undefined;
  }

  private async load(session: Session, query: ReadingsQuery, key: string): Promise<void> {
    const pages = new RowPages<ReadingRow>(
      (first, count) => session.ask('window', [query, first, count]),
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
    const { first, last } = this.options.visible();
    const rows = count.readings;
    const start = Math.max(0, Math.min(first, rows - 1 - (last - first)));
    await pages.load(start, Math.min(Math.max(last, start), rows - 1));
    if (kept !== undefined && kept >= 0) await pages.load(kept, kept);
    if (this.openingKey !== key) return;
    this.openingKey = undefined;
    this.fault = undefined;
    this.shown = { key, query, count, pages };
    this.options.opened({ count, kept });
    this.host.requestUpdate();
  }

  /** Whether a row's number still names the same reading: another revision of the bench may have other rows. */
  private sameBench(key: string): boolean {
    const [revision] = JSON.parse(key) as [number];
    return this.shown !== undefined && (JSON.parse(this.shown.key) as [number])[0] === revision;
  }

  private fail(reason: unknown): void {
    this.fault = reason instanceof Error ? reason.message : String(reason);
    this.host.requestUpdate();
  }
}
