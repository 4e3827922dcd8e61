import { deleteDB, openDB } from 'idb';
import { openKeeper, type Keeper, type KeeperOptions } from '../../src/store/keeper.ts';
import { contentOf } from './fixtures.ts';

const used = new Set<string>();
const open = new Set<Keeper>();
let number = 0;

/** A database name that nothing else uses. */
export function scratchName(): string {
  number += 1;
  const name = `benchtally-test-${crypto.randomUUID()}-${number}`;
  used.add(name);
  return name;
}

/** A keeper that {@link removeScratch} closes. */
export async function scratchKeeper(name: string, options: KeeperOptions = {}): Promise<Keeper> {
  const keeper = await openKeeper({ name, ...options });
  open.add(keeper);
  return keeper;
}

/** Closes and deletes all that was made. */
export async function removeScratch(): Promise<void> {
  for (const keeper of open) await keeper.close();
  for (const name of used) await deleteDB(name);
  open.clear();
  used.clear();
}

/** Every record of a database, store by store. */
export async function dumpOf(name: string): Promise<ReadonlyMap<string, readonly unknown[]>> {
  const connection = await openDB(name);
  try {
    const dump = new Map<string, readonly unknown[]>();
    for (const store of connection.objectStoreNames) dump.set(store, await connection.getAll(store));
    return dump;
  } finally {
    connection.close();
  }
}

/** What a fresh keeper finds in a database, in a form that compares by content. */
export async function foundIn(
  name: string,
): Promise<{ imports: unknown[]; state: unknown; faults: readonly string[] }> {
  const keeper = await openKeeper({ name });
  try {
    const { bench, faults } = await keeper.load();
    const { imports, ...state } = bench;
    return { imports: imports.map(contentOf), state, faults };
  } finally {
    await keeper.close();
  }
}
