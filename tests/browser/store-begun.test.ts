import { afterEach, describe, expect, test } from 'vitest';
import type { Keeper } from '../../src/store/keeper.ts';
import { whileFailing } from '../store/failing-operations.ts';
import { importOf } from '../store/fixtures.ts';
import { dumpOf, removeScratch, scratchKeeper, scratchName } from '../store/scratch-keeper.ts';

afterEach(removeScratch);

/** Ends a tab's work as its death does: the lock is free, and the note is still there. */
async function die(keeper: Keeper): Promise<void> {
  await whileFailing({ nth: 1, how: 'throws', persistent: true }, () => keeper.begun.end());
}

describe('files that a tab has begun to bring in', () => {
  test('are noted on the disk, and known elsewhere as under way until they have ended', async () => {
    const name = scratchName();
    const [tab, other] = [await scratchKeeper(name), await scratchKeeper(name)];
    await tab.begun.begin(['a.csv']);
    expect((await dumpOf(name)).get('about')).toContainEqual(expect.objectContaining({ files: ['a.csv'], kept: 0 }));
    expect(await other.begun.elsewhere()).toEqual(['a.csv']);
    expect(await other.begun.takeBrokenOff()).toEqual([]);
    expect(await tab.begun.elsewhere()).toEqual([]);
    await tab.begun.end();
    expect(await other.begun.elsewhere()).toEqual([]);
    expect(await other.begun.takeBrokenOff()).toEqual([]);
  });

  test('are told of once where their tab died, with how much of them was kept', async () => {
    const name = scratchName();
    const tab = await scratchKeeper(name);
    await tab.load();
    await tab.begun.begin(['a.csv', 'b.csv']);
    await tab.addImport(await importOf(1, 10));
    await die(tab);
    const next = await scratchKeeper(name);
    expect(await next.begun.elsewhere()).toEqual([]);
    expect(await next.begun.takeBrokenOff()).toEqual([
      'Bringing in a.csv, b.csv was interrupted: 1 of the 2 files were kept. Bring them in again.',
    ]);
    expect(await next.begun.takeBrokenOff()).toEqual([]);
  });

  test('are noted no more from the moment on in which the last of them is kept', async () => {
    const name = scratchName();
    const tab = await scratchKeeper(name);
    await tab.load();
    await tab.begun.begin(['a.csv']);
    await tab.addImport(await importOf(1, 10));
    await die(tab);
    expect(await (await scratchKeeper(name)).begun.takeBrokenOff()).toEqual([]);
  });

  test('are kept with their note gone or not at all with it there, whichever operation fails', async () => {
    const one = await importOf(1, 10, 'a.csv');
    for (let [nth, isFailed] = [1, true]; isFailed; nth += 1) {
      const name = scratchName();
      const tab = await scratchKeeper(name);
      await tab.load();
      await tab.begun.begin(['a.csv']);
      isFailed = await whileFailing({ nth, how: 'aborts', persistent: true }, () => tab.addImport(one));
      await die(tab);
      const next = await scratchKeeper(name);
      const { imports } = (await next.load()).bench;
      expect(await next.begun.takeBrokenOff()).toHaveLength(imports.length === 0 ? 1 : 0);
      if (!isFailed) expect(imports).toHaveLength(1);
      await removeScratch();
    }
  });

  test('are brought in without a note where none can be written', async () => {
    const tab = await scratchKeeper(scratchName());
    await tab.load();
    await whileFailing({ nth: 1, how: 'throws', persistent: true }, () => tab.begun.begin(['a.csv']));
    expect(await tab.addImport(await importOf(1, 10))).toBe('added');
  });
});
