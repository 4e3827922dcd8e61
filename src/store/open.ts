import { openDB } from 'idb';
import { migrate, type Migration } from './migrations.ts';
import { ALL_STORES, APP_ID, type BenchConnection, type UpgradeTransaction } from './schema.ts';
import { StoreError, toStoreError } from './store-error.ts';

/** What may happen to a connection at any time, each with a sentence for the technician. */
export interface ConnectionEvents {
  /** Another tab holds an older version open; opening goes on once it is closed. */
  readonly onBlocked?: (sentence: string) => void;
  /** Another tab needs this connection closed; it is. */
  readonly onClosed?: (sentence: string) => void;
  /** The browser broke the connection. */
  readonly onLost?: () => void;
}

/** An open database, and the name that its first opening gave it. */
export interface OpenDatabase {
  readonly connection: BenchConnection;
  readonly database: string;
}

/**
 * Opens the database, made or brought up to the last migration where needed.
 * @throws StoreError where there is no storage, a newer version used it, or it belongs to another program
 */
export async function openDatabase(
  name: string,
  migrations: readonly Migration[],
  events: ConnectionEvents,
): Promise<OpenDatabase> {
  if (typeof indexedDB === 'undefined') throw noStorage(undefined);
  let fault: unknown;
  let connection: BenchConnection;
  try {
    connection = await openDB(name, migrations.length, {
      upgrade: (upgraded: BenchConnection, oldVersion, _newVersion, transaction) => {
        const changing = transaction as unknown as UpgradeTransaction;
        changing.done.catch(() => undefined);
        const foreign = oldVersion > 0 && !upgraded.objectStoreNames.contains('about');
        const work = foreign ? Promise.reject(foreignError()) : migrate(migrations, oldVersion, upgraded, changing);
        work.catch((cause: unknown) => {
          fault = cause;
          abort(changing);
        });
      },
      blocked: () =>
        events.onBlocked?.('Another tab holds the storage open in an older version: close that tab to go on here.'),
      blocking: (_current, wanted, event) => {
        (event.target as IDBDatabase).close();
        events.onClosed?.(
          wanted === null
            ? 'The storage is being deleted from another tab: reload this page.'
            : 'A newer version of this page is open in another tab: reload this one. What was being stored here was broken off.',
        );
      },
      terminated: () => events.onLost?.(),
    });
  } catch (cause) {
    if (fault !== undefined) throw toStoreError(fault);
    const error = toStoreError(cause);
    throw error.fault === 'failed' ? noStorage(cause) : error;
  }
  try {
    return { connection, database: await readApp(connection) };
  } catch (cause) {
    connection.close();
    throw toStoreError(cause);
  }
}

async function readApp(connection: BenchConnection): Promise<string> {
  if (ALL_STORES.some((store) => !connection.objectStoreNames.contains(store))) throw foreignError();
  const record = await connection.get('about', 'app');
  if (record?.key !== 'app' || (record.app as string) !== APP_ID) throw foreignError();
  return record.database;
}

function abort(transaction: UpgradeTransaction): void {
  try {
    transaction.abort();
  } catch {
    // It is over already.
  }
}

function noStorage(cause: unknown): StoreError {
  return new StoreError(
    'no storage',
    'The browser gives this page no storage (as in a private window): the page works, but nothing will be kept.',
    cause,
  );
}

function foreignError(): StoreError {
  return new StoreError(
    'foreign',
    'The storage of this name belongs to another program: nothing in it was touched, and nothing will be kept.',
  );
}
