import { describe, expect, test } from 'vitest';
import { begunImportsIn } from '../../src/session/begun-imports.ts';
import type { Ledger } from '../../src/store/kept.ts';

/** Locks as a browser's tabs share them: held by name until their work ends or their tab dies. */
function sharedLocks() {
  const held = new Set<string>();
  const request = async (name: string, ...given: readonly unknown[]): Promise<unknown> => {
    const work = given.at(-1) as (lock: object | null) => unknown;
    const isAvailable = !held.has(name);
    if (!isAvailable && (given[0] as LockOptions).ifAvailable === true) return work(null);
    held.add(name);
    try {
      return await work({});
    } finally {
      held.delete(name);
    }
  };
  return { locks: { request } as unknown as LockManager, die: () => { held.clear(); } }; // prettier-ignore
}

function texts() {
  const found = new Map<string, string>();
  return {
    getItem: (name: string) => found.get(name) ?? null,
    setItem: (name: string, text: string) => {
      found.set(name, text);
    },
  };
}

const ledgerOf = (imports: number): Ledger => ({
  database: 'one',
  generation: 1,
  imports: Array.from({ length: imports }, (_, at) => ({ hash: `${at}`, rows: 1, crc: 1 })),
  edits: 0,
});

describe('an import whose tab died', () => {
  test('is told of once, with how much of it was kept', async () => {
    const [storage, { locks, die }] = [texts(), sharedLocks()];
    begunImportsIn(storage, locks).begin(['a.csv', 'b.csv'], 3);
    die();
    const next = begunImportsIn(storage, locks);
    expect(await next.takeBrokenOff(ledgerOf(4))).toEqual([
      'Bringing in a.csv, b.csv was interrupted: 1 of the 2 files were kept. Bring them in again.',
    ]);
    expect(await next.takeBrokenOff(ledgerOf(4))).toEqual([]);
  });

  test('is not told of where all of it was kept', async () => {
    const [storage, { locks, die }] = [texts(), sharedLocks()];
    begunImportsIn(storage, locks).begin(['a.csv'], 3);
    die();
    expect(await begunImportsIn(storage, locks).takeBrokenOff(ledgerOf(4))).toEqual([]);
  });
});

test('an import that goes on in another tab, or has ended, is not taken for broken off', async () => {
  const [storage, { locks }] = [texts(), sharedLocks()];
  const end = begunImportsIn(storage, locks).begin(['a.csv'], 0);
  const next = begunImportsIn(storage, locks);
  expect(await next.takeBrokenOff(ledgerOf(0))).toEqual([]);
  end();
  await Promise.resolve();
  expect(await next.takeBrokenOff(ledgerOf(0))).toEqual([]);
});

test('what stands in the place of notes and is none counts as nothing, and a storage that refuses keeps none', async () => {
  const { locks } = sharedLocks();
  const refuse = (): never => {
    throw new Error('refused');
  };
  const odd = { getItem: () => '[["id",{"files":[1],"imports":0}],7]', setItem: refuse };
  expect(await begunImportsIn(odd, locks).takeBrokenOff(ledgerOf(0))).toEqual([]);
  expect(() => begunImportsIn({ getItem: refuse, setItem: refuse }, locks).begin(['a.csv'], 0)).not.toThrow();
  expect(await begunImportsIn(texts(), undefined).takeBrokenOff(undefined)).toEqual([]);
});
