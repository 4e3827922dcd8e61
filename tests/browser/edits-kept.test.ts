import fc from '../support/fast-check.ts';
import { afterEach, expect, test } from 'vitest';
import { createBench } from '../../src/worker/bench/bench.ts';
import { keptMemory } from '../../src/worker/bench/memory.ts';
import type { BenchHandlers } from '../../src/worker/contract/calls.ts';
import { ask } from '../support/asking.ts';
import { ALL, deeds, EditModel, plain, rowsOf } from '../support/edit-model.ts';
import { removeScratch, scratchKeeper, scratchName } from '../store/scratch-keeper.ts';
import { SMALL_LOG } from '../ui/grid/bench-session.ts';

afterEach(removeScratch);

/** A bench over what is kept under a name, as it is after the page was opened anew. */
async function opened(name: string): Promise<BenchHandlers> {
  const bench = createBench(keptMemory(() => scratchKeeper(name)));
  const { faults } = await ask(bench, 'openKept');
  expect(faults).toEqual([]);
  return bench;
}

async function keptBench(name: string): Promise<BenchHandlers> {
  const bench = await opened(name);
  await ask(bench, 'startOwn');
  await ask(bench, 'bringIn', [new File([SMALL_LOG], 'bench.csv')]);
  return bench;
}

test('edits, additions, deletions, undo and redo hold over any number of reloads, and the originals never change', async () => {
  await fc.assert(
    fc.asyncProperty(deeds, async (todo) => {
      const name = scratchName();
      let bench = await keptBench(name);
      const first = (await rowsOf(bench)).map(plain);
      const model = new EditModel(first);
      for (const deed of todo) bench = await model.both(bench, deed, () => opened(name));
      const now = await ask(bench, 'editsSoFar');
      bench = await opened(name);
      expect((await rowsOf(bench)).map(plain)).toEqual(model.readings);
      expect(await ask(bench, 'editsSoFar')).toEqual(now);
      while ((await ask(bench, 'editsSoFar')).steps > 0) await ask(bench, 'undoEdit');
      expect((await rowsOf(bench)).map(plain)).toEqual(first);
    }),
    { numRuns: 40 },
  );
});

test('what was taken back can be done again after a reload, until something else is edited', async () => {
  const name = scratchName();
  let bench = await keptBench(name);
  const before = (await rowsOf(bench)).map(plain);
  await ask(bench, 'changeSettings', { prices: [], technician: 'Ada' });
  await ask(bench, 'editReadings', ALL, [{ first: 0, last: 0, field: 'reading', text: '7.02' }], '.');
  await ask(bench, 'explainEdit', ' misread ');
  await ask(bench, 'copyReadings', ALL, 0, 2);
  const after = (await rowsOf(bench)).map(plain);
  await ask(bench, 'undoEdit');
  await ask(bench, 'undoEdit');
  bench = await opened(name);
  expect((await rowsOf(bench)).map(plain)).toEqual(before);
  expect((await ask(bench, 'shift')).imports).toHaveLength(1);
  expect(await ask(bench, 'editsSoFar')).toMatchObject({ steps: 0, undone: 2, next: { edited: 1, who: 'Ada', why: 'misread' } }); // prettier-ignore
  await ask(bench, 'redoEdit');
  bench = await opened(name);
  expect(await ask(bench, 'redoEdit')).toMatchObject({ last: { added: 3 }, undone: 0 });
  expect((await rowsOf(bench)).map(plain)).toEqual(after);
  await ask(bench, 'undoEdit');
  await ask(bench, 'deleteReadings', ALL, 0, 0);
  bench = await opened(name);
  expect(await ask(bench, 'editsSoFar')).toMatchObject({ steps: 2, undone: 0 });
  expect(await ask(bench, 'redoEdit')).toMatchObject({ steps: 2 });
});

test('a backup holds what was added by hand, also where that was taken back', async () => {
  const bench = await keptBench(scratchName());
  await ask(bench, 'copyReadings', ALL, 0, 8);
  const all = (await rowsOf(bench)).map(plain);
  await ask(bench, 'undoEdit');
  const { file } = await ask(bench, 'backUp');
  const other = createBench(keptMemory(() => scratchKeeper(scratchName())));
  await ask(other, 'restore', file);
  expect(await rowsOf(other)).toHaveLength(9);
  await ask(other, 'redoEdit');
  expect((await rowsOf(other)).map(plain)).toEqual(all);
});
