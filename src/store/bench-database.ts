import { MIGRATIONS, type Migration } from './migrations.ts';
import { openDatabase, type ConnectionEvents } from './open.ts';
import { ALL_STORES, type BenchConnection, type ReadTransaction, type WriteTransaction } from './schema.ts';
import { StoreError, toStoreError } from './store-error.ts';

/** How surely a write has reached the disk once it is done: `strict` where the next step relies on it. */
export type Durability = 'strict' | 'relaxed';

/** A connection, with a promise that fails once the browser has broken it. */
interface Line {
  readonly connection: BenchConnection;
  readonly broken: Promise<never>;
}

/** The database as whole transactions: each happens entirely or not at all, and fails with a sentence. */
export class BenchDatabase {
  readonly name: string;
  readonly #migrations: readonly Migration[];
  readonly #events: ConnectionEvents;
  /** The database's own name, from its first opening on. */
  #database = '';
  #line: Promise<Line> | undefined;
  #closed: StoreError | undefined;

  private constructor(name: string, events: ConnectionEvents, migrations: readonly Migration[]) {
    this.name = name;
    this.#events = events;
    this.#migrations = migrations;
  }

  /** @throws StoreError as `openDatabase` says */
  static async open(name: string, events: ConnectionEvents = {}, migrations = MIGRATIONS): Promise<BenchDatabase> {
    const database = new BenchDatabase(name, events, migrations);
    await database.#connect();
    return database;
  }

  get database(): string {
    return this.#database;
  }

  read<Result>(work: (transaction: ReadTransaction) => Promise<Result>): Promise<Result> {
    return this.#run('readonly', 'relaxed', work);
  }

  /** `work` awaits requests of its transaction and nothing else, or the transaction ends under it. */
  write<Result>(durability: Durability, work: (transaction: WriteTransaction) => Promise<Result>): Promise<Result> {
    return this.#run('readwrite', durability, work);
  }

  /** Waits for what is running, then closes. */
  async close(): Promise<void> {
    this.#closed ??= new StoreError('closed', 'The storage was closed: reload this page.');
    const line = await this.#line?.catch(() => undefined);
    line?.connection.close();
  }

  async #run<Result>(
    mode: 'readonly' | 'readwrite',
    durability: Durability,
    work: (transaction: WriteTransaction) => Promise<Result>,
  ): Promise<Result> {
    this.#refuseClosed();
    try {
      const { connection, broken } = await this.#connect();
      return await Promise.race([runIn(connection, mode, durability, work), broken]);
    } catch (cause) {
      this.#refuseClosed();
      throw toStoreError(cause);
    }
  }

  #refuseClosed(): void {
    if (this.#closed) throw this.#closed;
  }

  #connect(): Promise<Line> {
    this.#line ??= this.#open().catch((cause: unknown) => {
      this.#line = undefined;
      throw cause;
    });
    return this.#line;
  }

  async #open(): Promise<Line> {
    let reject: (reason: StoreError) => void = () => undefined;
    const broken = new Promise<never>((_resolve, fail) => {
      reject = fail;
    });
    broken.catch(() => undefined);
    const { connection, database } = await openDatabase(this.name, this.#migrations, {
      ...this.#events,
      onClosed: (sentence) => {
        this.#closed = new StoreError('closed', sentence);
        this.#events.onClosed?.(sentence);
      },
      onLost: () => {
        this.#line = undefined;
        reject(lost('The browser broke the storage off: nothing of this was kept. Try again.'));
        this.#events.onLost?.();
      },
    });
    if (this.#database !== '' && this.#database !== database) {
      connection.close();
      this.#closed = lost('The browser has emptied its storage: reload this page and restore a backup.');
      throw this.#closed;
    }
    this.#database = database;
    return { connection, broken };
  }
}

/** Runs `work` in one transaction over all stores, and waits until all of it is done. */
async function runIn<Result>(
  connection: BenchConnection,
  mode: 'readonly' | 'readwrite',
  durability: Durability,
  work: (transaction: WriteTransaction) => Promise<Result>,
): Promise<Result> {
  const transaction = connection.transaction([...ALL_STORES], mode, { durability }) as WriteTransaction;
  // Quota and disk faults come as an abort of the whole transaction, not as a failed request.
  const done = transaction.done.then(
    () => undefined,
    (cause: unknown) => ({ cause: (transaction.error as unknown) ?? cause }),
  );
  let result: Result;
  try {
    result = await work(transaction);
    transaction.commit();
  } catch (cause) {
    abort(transaction);
    const ended = await done;
    throw isAbort(cause) && ended !== undefined ? ended.cause : cause;
  }
  const ended = await done;
  if (ended !== undefined) throw ended.cause;
  return result;
}

function abort(transaction: WriteTransaction): void {
  try {
    transaction.abort();
  } catch {
    // It has ended by itself.
  }
}

function isAbort(cause: unknown): boolean {
  return cause instanceof DOMException && cause.name === 'AbortError';
}

function lost(sentence: string): StoreError {
  return new StoreError('lost', sentence);
}
