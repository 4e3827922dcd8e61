import { APP_ID, type BenchConnection, type UpgradeTransaction } from './schema.ts';

/** One step from a version of the database to the next. It may await requests of its transaction, and nothing else. */
export type Migration = (connection: BenchConnection, transaction: UpgradeTransaction) => Promise<void>;

/** The steps in their order; the first makes version 1. A step that was released is never changed. */
export const MIGRATIONS: readonly Migration[] = [makeStores];

/** Runs the steps that lead from `oldVersion` to the last. */
export async function migrate(
  migrations: readonly Migration[],
  oldVersion: number,
  connection: BenchConnection,
  transaction: UpgradeTransaction,
): Promise<void> {
  for (const step of migrations.slice(oldVersion)) await step(connection, transaction);
}

async function makeStores(connection: BenchConnection, transaction: UpgradeTransaction): Promise<void> {
  connection.createObjectStore('about', { keyPath: 'key' });
  const imports = connection.createObjectStore('imports', { keyPath: ['generation', 'hash'] });
  imports.createIndex('order', ['generation', 'order']);
  connection.createObjectStore('details', { keyPath: ['generation', 'hash'] });
  connection.createObjectStore('chunks', { keyPath: ['generation', 'hash', 'no'] });
  const originals = connection.createObjectStore('originals', { keyPath: ['generation', 'hash', 'no'] });
  originals.createIndex('packing', ['generation', 'packing']);
  connection.createObjectStore('state', { keyPath: ['generation', 'part'] });
  connection.createObjectStore('journal', { keyPath: ['generation', 'step'] });
  const about = transaction.objectStore('about');
  await about.add({ key: 'app', app: APP_ID, database: crypto.randomUUID() });
  await about.add({ key: 'pointer', current: 1, next: 2, unfinished: [] });
}
