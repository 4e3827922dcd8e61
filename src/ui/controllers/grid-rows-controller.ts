import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { DerivedField, GridLine, ReadingsCount, ReadingsQuery, RowIdentity } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { isGroup } from '../grid/group-text.ts';
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
  /** The line whose reading should stay current, if any. */
  readonly keep: () => GridLine | undefined;
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
    const [count, first] = await Promise.all([session.ask('count', [query]), this.keptPlace(session, query)]);
    if (this.openingKey !== key) return;
    let kept = first;
    const { row, reach } = this.options.landing({ count, kept: kept.place });
    await pages.load(Math.max(0, row - reach), Math.min(row + reach, linesOf(count) - 1));
    // The cursor may have moved on meanwhile.
    while (this.openingKey === key && !isSame(kept.reading, identityOf(this.options.keep())))
      kept = await this.keptPlace(session, query);
    if (this.openingKey !== key) return;
    this.openingKey = undefined;
    this.failedKey = undefined;
    this.fault = undefined;
    this.shown = { key, query, count, pages };
    this.options.opened({ count, kept: kept.place });
    this.host.requestUpdate();
  }

  /** The reading that should stay current as the host has it now, and where it stands in a query's list. */
  private async keptPlace(session: Session, query: ReadingsQuery) {
    const reading = identityOf(this.options.keep());
    return { reading, place: reading && (await session.ask('placeOf', [query, reading])) };
  }

  private fail(reason: unknown): void {
    this.fault = reason instanceof Error ? reason.message : String(reason);
    this.host.requestUpdate();
  }
}

/** What names the reading of a line whatever else comes and goes; undefined where it holds none. */
function identityOf(line: GridLine | undefined): RowIdentity | undefined {
  if (line === undefined || isGroup(line)) return undefined;
  const { origin, nth = 0 } = line;
  return { file: origin.file, line: origin.line, nth };
}

function isSame(one: RowIdentity | undefined, other: RowIdentity | undefined): boolean {
  return one?.file === other?.file && one?.line === other?.line && one?.nth === other?.nth;
}

/** Lines that list what a query holds. */
export function linesOf({ lines, readings }: ReadingsCount): number {
  return lines ?? readings;
}
