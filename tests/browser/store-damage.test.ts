import { openDB } from 'idb';
import { afterEach, describe, expect, test } from 'vitest';
import { CHUNK_ROWS } from '../../src/store/columns-codec.ts';
import { contentOf, importOf, state } from '../store/fixtures.ts';
import { foundIn, removeScratch, scratchKeeper, scratchName } from '../store/scratch-keeper.ts';

afterEach(removeScratch);

describe('damage to what is stored', () => {
  interface Record_ {
    readonly bytes: Uint8Array;
    readonly items: readonly unknown[];
  }

  async function damage(name: string, store: string, change: (record: Record_) => object | undefined): Promise<void> {
    const connection = await openDB(name);
    const cursor = await connection.transaction(store, 'readwrite').store.openCursor();
    const changed = change(cursor!.value as Record_);
    await (changed === undefined ? cursor!.delete() : cursor!.update(changed));
    connection.close();
  }

  const flipped = (record: Record_): object => {
    const at = Math.floor(record.bytes.length / 2);
    return { ...record, bytes: record.bytes.with(at, record.bytes[at]! ^ 1) };
  };

  test.each([
    ['a flipped bit in a chunk', 'chunks', flipped],
    ['a missing chunk', 'chunks', () => undefined],
    ['a flipped bit in the details', 'details', flipped],
    ['missing details', 'details', () => undefined],
  ] as const)(
    'as %s leaves the import out whole, says so, and lets it be brought in again',
    async (_name, store, change) => {
      const name = scratchName();
      const keeper = await scratchKeeper(name);
      await keeper.load();
      const [large, small] = [await importOf(1, CHUNK_ROWS + 5, 'large.csv'), await importOf(2, 10)];
      // The import to be damaged stands first in the order of keys.
      const [hit, other] = large.record.hash < small.record.hash ? [large, small] : [small, large];
      await keeper.addImport(hit);
      await keeper.addImport(other);
      await damage(name, store, change);
      const { bench, faults } = await keeper.load();
      expect(bench.imports.map(contentOf)).toEqual([contentOf(other)]);
      expect(faults).toEqual([
        `${hit.record.file} is damaged and left out (${hit.log!.count.toLocaleString('en')} readings): restore a backup, or bring the file in again.`,
      ]);
      expect(await keeper.addImport(hit)).toBe('added');
      const found = await foundIn(name);
      // What is written again keeps its place.
      expect([found.imports, found.faults]).toEqual([[contentOf(hit), contentOf(other)], []]);
    },
  );

  test('of the bytes of a file is noticed when they are asked for', async () => {
    const name = scratchName();
    const keeper = await scratchKeeper(name);
    await keeper.load();
    const one = await importOf(1, 10, 'shift.csv');
    await keeper.addImport(one);
    await damage(name, 'originals', flipped);
    await expect(keeper.originalBytes(one.record.hash)).rejects.toThrow('The kept bytes of shift.csv are damaged: restore a backup.'); // prettier-ignore
  });

  test('of an entry of the state leaves that entry out and says so', async () => {
    const name = scratchName();
    const keeper = await scratchKeeper(name);
    await keeper.load();
    await keeper.saveState({ repairs: state.repairs });
    await damage(name, 'state', (record) => ({ ...record, items: [{ id: 5 }, ...record.items] }));
    const { bench, faults } = await keeper.load();
    expect(bench.repairs).toEqual(state.repairs);
    expect(faults).toEqual(['1 entry of the repairs could not be read: restore a backup.']);
  });

  test('as lost readings is noticed by the ledger kept apart', async () => {
    const name = scratchName();
    const first = await scratchKeeper(name);
    await first.load();
    for (const seed of [1, 2, 3]) await first.addImport(await importOf(seed, 100 * seed), state);
    const copy = await first.ledger();
    await removeScratch();
    const { faults } = await (await scratchKeeper(name)).load(undefined, copy);
    expect(faults).toEqual([
      '600 readings of 3 imports are missing: restore a backup.',
      '1 change of bands, families, repairs or meters are missing: restore a backup.',
    ]);
  });
});
