import { deleteDB } from 'idb';
import { afterEach, describe, expect, test, vi, type TestContext } from 'vitest';
import { BenchDatabase } from '../../src/store/bench-database.ts';
import { CHUNK_ROWS } from '../../src/store/columns-codec.ts';
import { EMPTY_STATE, type NewImport } from '../../src/store/kept.ts';
import { openKeeper, type Keeper } from '../../src/store/keeper.ts';
import { saveImport } from '../../src/store/save-import.ts';
import { whileFailing } from '../store/failing-operations.ts';
import { contentOf, importOf, state } from '../store/fixtures.ts';
import { dumpOf, foundIn, removeScratch, scratchKeeper, scratchName } from '../store/scratch-keeper.ts';

afterEach(removeScratch);

/** Bytes of an import in one transaction: every record in one of its own, and all in one. */
const LOTS = [1, 1_000_000_000];

interface Trial {
  readonly name: string;
  readonly work: (keeper: Keeper) => Promise<unknown>;
}

/** Runs the work with the Nth operation failing, for every N until none fails, and checks what is left each time. */
async function failEach(
  { task }: Pick<TestContext, 'task'>,
  how: 'throws' | 'aborts',
  persistent: boolean,
  lotBytes: number,
  prepare: () => Promise<Trial>,
  check: (trial: Trial, failed: boolean) => Promise<void>,
): Promise<number> {
  const fault = 'F6 Nth operation fails, in the store';
  for (let nth = 1; ; nth += 1) {
    task.meta.fault = { fault, runs: nth, survived: nth - 1 };
    const trial = await prepare();
    const keeper = await openKeeper({ name: trial.name, lotBytes });
    await keeper.load();
    const failed = await whileFailing({ nth, how, persistent }, () => trial.work(keeper));
    await keeper.close();
    await check(trial, failed);
    await removeScratch();
    task.meta.fault = { fault, runs: nth, survived: nth };
    if (!failed) return nth;
  }
}

const ways = [
  ['throws', false],
  ['throws', true],
  ['aborts', false],
  ['aborts', true],
] as const;

describe.each(ways)('where each operation in turn %s (from then on: %s)', (how, persistent) => {
  test.for(LOTS)(
    'an import in lots of %i bytes is kept whole or not at all, and can be brought in again',
    async (lotBytes, context) => {
      const first = await importOf(1, 10);
      const large = await importOf(2, 30);
      const prepare = async (): Promise<Trial> => {
        const name = scratchName();
        const keeper = await scratchKeeper(name);
        await keeper.load();
        await keeper.addImport(first);
        await keeper.close();
        return { name, work: (one) => one.addImport(large, state) };
      };
      const outcomes = { whole: 0, nothing: 0 };
      const operations = await failEach(context, how, persistent, lotBytes, prepare, async ({ name }, failed) => {
        const found = await foundIn(name);
        const whole = found.imports.length === 2;
        outcomes[whole ? 'whole' : 'nothing'] += 1;
        if (!failed) expect(whole).toBe(true);
        expect(found.imports).toEqual((whole ? [first, large] : [first]).map(contentOf));
        expect(found.state).toMatchObject(whole ? { bands: state.bands } : { bands: [] });
        const keeper = await scratchKeeper(name, { lotBytes });
        await keeper.load();
        expect(await keeper.addImport(large, state)).toBe(whole ? 'known' : 'added');
        expect((await foundIn(name)).imports).toEqual([first, large].map(contentOf));
      });
      expect(operations).toBeGreaterThan(15);
      expect(outcomes.nothing).toBeGreaterThan(10);
    },
  );

  test('a changed state is kept whole or not at all', async (context) => {
    const prepare = async (): Promise<Trial> => {
      const name = scratchName();
      await (await scratchKeeper(name)).close();
      return { name, work: (keeper) => keeper.saveState(state) };
    };
    const operations = await failEach(context, how, persistent, 1, prepare, async ({ name }, failed) => {
      const found = await foundIn(name);
      const bands = (found.state as typeof state).bands.length;
      if (!failed) expect(bands).toBe(2);
      if (bands > 0) expect(found.state).toEqual(state);
      else expect(found.state).toEqual(EMPTY_STATE);
      const keeper = await scratchKeeper(name);
      await keeper.load();
      expect(await keeper.journal()).toHaveLength(bands > 0 ? 1 : 0);
    });
    expect(operations).toBeGreaterThan(10);
  });

  test('a restore leaves the bench as it was or puts the backup in its place whole', async (context) => {
    const [mine, theirs] = [await importOf(1, 10), await importOf(2, 12)];
    const source = await scratchKeeper(scratchName());
    await source.load();
    await source.addImport(theirs, state);
    const { file } = await source.backUp();
    const prepare = async (): Promise<Trial> => {
      const name = scratchName();
      const keeper = await scratchKeeper(name);
      await keeper.load();
      await keeper.addImport(mine);
      await keeper.close();
      return { name, work: (one) => one.restore(file) };
    };
    const operations = await failEach(context, how, persistent, 1, prepare, async ({ name }, failed) => {
      const { imports } = await foundIn(name);
      const restored = JSON.stringify(imports) === JSON.stringify([contentOf(theirs)]);
      if (!failed) expect(restored).toBe(true);
      expect(imports).toEqual([contentOf(restored ? theirs : mine)]);
      const generations = new Set((await dumpOf(name)).get('imports')?.map((line) => (line as { generation: number }).generation)); // prettier-ignore
      expect(generations.size).toBe(restored ? 2 : 1);
    });
    expect(operations).toBeGreaterThan(15);
  });
});

test.for(['throws', 'aborts'] as const)(
  'what a failure left is recovered also where an operation of the recovery %s in its turn',
  async (how, { task }) => {
    const [first, large] = [await importOf(1, 10), await importOf(2, 30)];
    const fault = 'F6 Nth operation fails while recovering';
    let runs = 0;
    /** Fails an import from its operation `nth` on, as the storage does that has gone, and says whether half of it is left. */
    const failFirst = async (
      name: string,
      nth: number,
    ): Promise<{ readonly failed: boolean; readonly half: boolean }> => {
      const keeper = await scratchKeeper(name, { lotBytes: 1 });
      await keeper.load();
      await keeper.addImport(first);
      const failed = await whileFailing({ nth, how: 'throws', persistent: true }, () => keeper.addImport(large));
      await keeper.close();
      const lines = (await dumpOf(name)).get('imports') as { state: string }[];
      return { failed, half: lines.some(({ state }) => state === 'running') };
    };
    const halves: number[] = [];
    for (let nth = 1; ; nth += 1) {
      const { failed, half } = await failFirst(scratchName(), nth);
      await removeScratch();
      if (half) halves.push(nth);
      if (!failed) break;
    }
    expect(halves.length).toBeGreaterThan(3);
    for (const before of [halves[0]!, halves.at(-1)!]) {
      for (let [nth, failed] = [1, true]; failed; nth += 1) {
        runs += 1;
        task.meta.fault = { fault, runs, survived: runs - 1 };
        const name = scratchName();
        expect(await failFirst(name, before)).toEqual({ failed: true, half: true });
        const keeper = await openKeeper({ name, lotBytes: 1 });
        failed = await whileFailing({ nth, how, persistent: false }, async () => {
          await keeper.load();
          await keeper.addImport(large, state);
        });
        await keeper.close();
        const found = await foundIn(name);
        const whole = found.imports.length === 2;
        if (!failed) expect(whole).toBe(true);
        expect(found.imports).toEqual((whole ? [first, large] : [first]).map(contentOf));
        expect(found.state).toMatchObject(whole ? { bands: state.bands } : { bands: [] });
        const again = await scratchKeeper(name);
        await again.load();
        expect(await again.addImport(large, state)).toBe(whole ? 'known' : 'added');
        const [dump, hashes] = [await dumpOf(name), [first, large].map(({ record }) => record.hash)];
        for (const store of ['imports', 'details', 'chunks', 'originals'])
          expect(new Set(dump.get(store)!.map((record) => (record as { hash: string }).hash))).toEqual(new Set(hashes));
        expect((await foundIn(name)).imports).toEqual([first, large].map(contentOf));
        await removeScratch();
        task.meta.fault = { fault, runs, survived: runs };
      }
    }
    expect(runs).toBeGreaterThan(40);
  },
);

describe('an import that the tab did not live to finish', () => {
  /** Leaves an import half written, as a tab that dies does. */
  async function breakOff(name: string, one: NewImport): Promise<void> {
    const keeper = await scratchKeeper(name, { lotBytes: 1 });
    await keeper.load();
    await whileFailing({ nth: 60, how: 'throws', persistent: true }, () => keeper.addImport(one));
    await keeper.close();
    expect((await dumpOf(name)).get('imports')).toMatchObject([{ state: 'running' }]);
    expect((await dumpOf(name)).get('chunks')).not.toEqual([]);
  }

  test('is never loaded, is said to have been interrupted, and is cleared away', async () => {
    const name = scratchName();
    await breakOff(name, await importOf(1, 12 * CHUNK_ROWS, 'shift.csv'));
    const found = await foundIn(name);
    expect(found.imports).toEqual([]);
    expect(found.faults).toEqual(['Storing shift.csv was interrupted: nothing of it was kept. Bring it in again.']);
    const dump = await dumpOf(name);
    expect([dump.get('imports'), dump.get('chunks'), dump.get('originals')]).toEqual([[], [], []]);
    expect((await foundIn(name)).faults).toEqual([]);
  });

  test('can be brought in again at once, without what was left of it', async () => {
    const name = scratchName();
    await breakOff(name, await importOf(1, 12 * CHUNK_ROWS, 'shift.csv'));
    const again = await importOf(1, 12 * CHUNK_ROWS, 'shift.csv');
    const keeper = await scratchKeeper(name);
    expect(await keeper.addImport(again)).toBe('added');
    const found = await foundIn(name);
    expect([found.imports, found.faults]).toEqual([[contentOf(again)], []]);
  });

  test('does not keep the rest from loading where it cannot be cleared away', async () => {
    const name = scratchName();
    const kept = await importOf(2, 10);
    const first = await scratchKeeper(name);
    await first.load();
    await first.addImport(kept);
    await breakOffAfter(name);
    const keeper = await scratchKeeper(name);
    let found: unknown[] = [];
    await whileFailingToDelete(async () => {
      found = (await keeper.load()).bench.imports.map(contentOf);
    });
    expect(found).toEqual([contentOf(kept)]);
  });

  async function breakOffAfter(name: string): Promise<void> {
    const keeper = await scratchKeeper(name, { lotBytes: 1 });
    await keeper.load();
    const one = await importOf(1, 12 * CHUNK_ROWS, 'shift.csv');
    await whileFailing({ nth: 60, how: 'throws', persistent: true }, () => keeper.addImport(one));
    await keeper.close();
  }

  async function whileFailingToDelete(work: () => Promise<void>): Promise<void> {
    const original = Object.getOwnPropertyDescriptor(IDBObjectStore.prototype, 'delete')!;
    Object.defineProperty(IDBObjectStore.prototype, 'delete', {
      configurable: true,
      value: () => { throw new DOMException('Planted fault', 'UnknownError'); }, // prettier-ignore
    });
    try {
      await work();
    } finally {
      Object.defineProperty(IDBObjectStore.prototype, 'delete', original);
    }
  }
});

test.each([
  ['QuotaExceededError', 'full', /^The browser gives this page no more room/],
  ['UnknownError', 'full', /^The disk is full/],
])('a transaction aborted by %s is said in a sentence, and nothing is kept', async (kind, fault, sentence) => {
  const name = scratchName();
  const keeper = await scratchKeeper(name);
  await keeper.load();
  const before = await dumpOf(name);
  // The browser aborts the whole transaction without failing a request; here its commit is made to do so.
  const original = Object.getOwnPropertyDescriptor(IDBTransaction.prototype, 'commit')!;
  const errors = Object.getOwnPropertyDescriptor(IDBTransaction.prototype, 'error')!;
  Object.defineProperty(IDBTransaction.prototype, 'commit', {
    configurable: true,
    value(this: IDBTransaction) {
      Object.defineProperty(this, 'error', { value: new DOMException('FILE_ERROR_NO_SPACE'.repeat(Number(kind === 'UnknownError')), kind) }); // prettier-ignore
      this.abort();
    },
  });
  try {
    await expect(keeper.addImport(await importOf(1, 10), state)).rejects.toMatchObject({
      fault,
      message: expect.stringMatching(sentence) as string,
    });
  } finally {
    Object.defineProperty(IDBTransaction.prototype, 'commit', original);
    Object.defineProperty(IDBTransaction.prototype, 'error', errors);
  }
  expect(await dumpOf(name)).toEqual(before);
  expect(await keeper.addImport(await importOf(1, 10), state)).toBe('added');
});

describe('a connection that the browser breaks', () => {
  /** Breaks the connection of a keeper as a full disk does: with an event, and no failed request. */
  async function breakConnection(keeper: Keeper): Promise<void> {
    const spy = vi.spyOn(IDBDatabase.prototype, 'transaction');
    await keeper.ledger();
    const connection = spy.mock.contexts[0] as IDBDatabase;
    spy.mockRestore();
    connection.close();
    connection.dispatchEvent(new Event('close'));
  }

  test('is opened again, and all is there', async () => {
    const name = scratchName();
    const keeper = await scratchKeeper(name);
    await keeper.load();
    const one = await importOf(1, 10);
    await keeper.addImport(one);
    await breakConnection(keeper);
    await keeper.saveState(state);
    const found = await foundIn(name);
    expect([found.imports, found.state]).toEqual([[contentOf(one)], state]);
  });

  test('and with it what was kept is not written to as if it were empty', async () => {
    const name = scratchName();
    const keeper = await scratchKeeper(name);
    await keeper.load();
    await keeper.addImport(await importOf(1, 10));
    await breakConnection(keeper);
    await deleteDB(name);
    await expect(keeper.saveState(state)).rejects.toMatchObject({
      fault: 'lost',
      message: 'The browser has emptied its storage: reload this page and restore a backup.',
    });
    await expect(keeper.load()).rejects.toMatchObject({ fault: 'lost' });
  });

  test('ends what was running with a sentence', async () => {
    const keeper = await scratchKeeper(scratchName());
    await keeper.load();
    const original = Object.getOwnPropertyDescriptor(IDBDatabase.prototype, 'transaction')!;
    const begin = original.value as (...args: unknown[]) => IDBTransaction;
    Object.defineProperty(IDBDatabase.prototype, 'transaction', {
      configurable: true,
      value(this: IDBDatabase, ...args: unknown[]) {
        queueMicrotask(() => this.dispatchEvent(new Event('close')));
        return begin.apply(this, args);
      },
    });
    try {
      await expect(keeper.saveState(state)).rejects.toMatchObject({ fault: 'lost' });
    } finally {
      Object.defineProperty(IDBDatabase.prototype, 'transaction', original);
    }
  });
});

test('a writer whose import another has taken over is kept out, though nobody told it', async () => {
  const name = scratchName();
  const [slow, hasty] = [await BenchDatabase.open(name), await BenchDatabase.open(name)];
  const one = await importOf(1, 3 * CHUNK_ROWS);
  const options = { generation: 1, changes: [], note: { at: 0 }, again: false, signal: new AbortController().signal, lotBytes: 1 }; // prettier-ignore
  let theft: Promise<unknown> | undefined;
  const robbed = saveImport(slow, one, {
    ...options,
    report: () => { theft ??= saveImport(hasty, one, { ...options, report: () => undefined }); }, // prettier-ignore
  });
  await expect(robbed).rejects.toMatchObject({ fault: 'taken over' });
  expect(await theft).toBe('added');
  const found = await foundIn(name);
  expect([found.imports, found.faults]).toEqual([[contentOf(one)], []]);
  await slow.close();
  await hasty.close();
});
