import { afterEach, describe, expect, test } from 'vitest';
import { CHUNK_ROWS } from '../../src/store/columns-codec.ts';
import type { NewImport } from '../../src/store/kept.ts';
import type { Keeper } from '../../src/store/keeper.ts';
import { readBackup } from '../../src/store/read-backup.ts';
import { StoreError } from '../../src/store/store-error.ts';
import { damagedBackups } from '../store/damaged-backups.ts';
import { bandOf, contentOf, importOf, state, sumOf } from '../store/fixtures.ts';
import { dumpOf, foundIn, removeScratch, scratchKeeper, scratchName } from '../store/scratch-keeper.ts';

afterEach(removeScratch);

async function benchWith(imports: readonly NewImport[]): Promise<{ name: string; keeper: Keeper }> {
  const name = scratchName();
  const keeper = await scratchKeeper(name);
  await keeper.load();
  for (const one of imports) await keeper.addImport(one);
  await keeper.saveState(state, { who: 'A. Tern' });
  return { name, keeper };
}

describe('a backup', () => {
  test('brings everything to an empty bench elsewhere, the journal and the bytes of files included', async () => {
    const imports = [await importOf(2, 40), await importOf(1, CHUNK_ROWS + 1), await importOf(3, 0)];
    const { keeper } = await benchWith(imports);
    await keeper.compressOriginals();
    const { file, header } = await keeper.backUp();
    expect(header).toMatchObject({ imports: 3, readings: CHUNK_ROWS + 41, edits: 1 });
    const name = scratchName();
    const elsewhere = await scratchKeeper(name);
    await elsewhere.load();
    await elsewhere.restore(file);
    expect(await foundIn(name)).toEqual({ imports: imports.map(contentOf), state, faults: [] });
    expect(await elsewhere.journal()).toEqual(await keeper.journal());
    for (const { record, bytes } of imports)
      expect(sumOf(await elsewhere.originalBytes(record.hash))).toBe(sumOf(bytes));
    expect(await elsewhere.addImport(imports[0]!)).toBe('known');
  });

  test('of the same bench is the same file but for its moment', async () => {
    const { keeper } = await benchWith([await importOf(1, 40)]);
    const [one, other] = [await keeper.backUp(), await keeper.backUp()];
    expect((await readBackup(one.file)).state).toEqual((await readBackup(other.file)).state);
    expect(one.file.size).toBe(other.file.size);
  });

  test('holds no import that is half stored or was taken away', async () => {
    const [gone, kept] = [await importOf(1, 10), await importOf(2, 12)];
    const { keeper } = await benchWith([gone, kept]);
    await keeper.removeImport(gone.record.hash);
    expect((await keeper.backUp()).header).toMatchObject({ imports: 1, readings: 12 });
  });

  test('is noted only once it was read back whole', async () => {
    const { keeper } = await benchWith([await importOf(1, 10)]);
    const { file, seal } = await keeper.backUp();
    const cut = file.slice(0, file.size - 5);
    await expect(keeper.confirmBackup(cut, seal)).rejects.toMatchObject({ fault: 'refused' });
    expect((await keeper.ledger()).lastBackup).toBeUndefined();
    await keeper.confirmBackup(file, seal);
    expect((await keeper.ledger()).lastBackup).toMatchObject({ seal, imports: 1, holdsAll: true });
  });

  test('holds all of the bench until something is changed, also where as many imports and changes are kept then', async () => {
    const [first, second] = [await importOf(1, 10), await importOf(2, 10)];
    const { keeper } = await benchWith([first]);
    const holdsAll = async (): Promise<boolean | undefined> => (await keeper.ledger()).lastBackup?.holdsAll;
    const { file, seal } = await keeper.backUp();
    await keeper.confirmBackup(file, seal);
    expect(await holdsAll()).toBe(true);
    await keeper.removeImport(first.record.hash);
    await keeper.addImport(second);
    expect((await keeper.ledger()).imports).toHaveLength(1);
    expect(await holdsAll()).toBe(false);
    await keeper.clear();
    expect(await holdsAll()).toBe(false);
    await keeper.undoSwitch();
    await keeper.load();
    const late = await keeper.backUp();
    await keeper.saveState({ bands: [] });
    await keeper.confirmBackup(late.file, late.seal);
    expect(await holdsAll()).toBe(false);
  });
});

describe('a restored bench', () => {
  test('replaces the present one, which one undo brings back whole', async () => {
    const { keeper: source } = await benchWith([await importOf(1, 10)]);
    const { file } = await source.backUp();
    const mine = [await importOf(5, 50), await importOf(6, 60)];
    const { name, keeper } = await benchWith(mine);
    await keeper.saveState({ bands: [bandOf('bulk', 9)] });
    const before = await foundIn(name);
    await keeper.restore(file);
    const restored = await keeper.load();
    expect([restored.bench.imports.length, restored.bench.bands, restored.canUndoSwitch]).toEqual([1, state.bands, true]); // prettier-ignore
    expect(await keeper.undoSwitch()).toBe(true);
    expect(await foundIn(name)).toEqual(before);
    await keeper.saveState({ meters: [] });
    expect(await keeper.journal()).toHaveLength(3);
  });

  test('takes the place of one that another tab had restored before', async () => {
    const { keeper: source } = await benchWith([await importOf(1, 10)]);
    const { file } = await source.backUp();
    const { name, keeper } = await benchWith([]);
    const other = await scratchKeeper(name);
    await other.load();
    await keeper.restore(file);
    await expect(other.restore(file)).rejects.toMatchObject({ fault: 'replaced' });
    await other.load();
    await other.restore(file);
    expect(new Set((await dumpOf(name)).get('chunks')?.map((chunk) => (chunk as { generation: number }).generation)).size).toBe(2); // prettier-ignore
  });

  test('that was cancelled leaves the present one as it was', async () => {
    const { keeper: source } = await benchWith([await importOf(1, 10), await importOf(2, 10)]);
    const { file } = await source.backUp();
    const { name, keeper } = await benchWith([await importOf(3, 10)]);
    const before = await foundIn(name);
    const cancel = new AbortController();
    const report = (): void => { cancel.abort(); }; // prettier-ignore
    await expect(keeper.restore(file, { signal: cancel.signal, report })).rejects.toMatchObject({ fault: 'cancelled' });
    expect(await foundIn(name)).toEqual(before);
  });
});

test('three hundred damaged backups are refused, and change nothing of what is kept', async ({ task }) => {
  const { keeper: source } = await benchWith([await importOf(1, 40), await importOf(2, 30)]);
  await source.compressOriginals();
  const damaged = await damagedBackups((await source.backUp()).file, 7);
  const { name, keeper } = await benchWith([await importOf(3, 20)]);
  const before = withoutNext(await dumpOf(name));
  const taken: string[] = [];
  for (const { damage, file } of damaged) {
    const outcome: unknown = await keeper.restore(file).catch((cause: unknown) => cause);
    if (!(outcome instanceof StoreError) || outcome.fault !== 'refused') taken.push(`${damage}: ${String(outcome)}`);
  }
  const runs = damaged.length;
  task.meta.fault = { fault: 'F9 damaged backup, in the store', runs, survived: runs - taken.length };
  expect(damaged).toHaveLength(300);
  expect(taken).toEqual([]);
  expect(withoutNext(await dumpOf(name))).toEqual(before);
});

/** Without the number that every attempt at a generation uses up. */
function withoutNext(dump: ReadonlyMap<string, readonly unknown[]>): unknown {
  return [...dump].map(([store, records]) => [store, records.map((record) => ({ ...(record as object), next: 0 }))]);
}
