import { deleteDB, openDB } from 'idb';
import { afterEach, describe, expect, test, vi } from 'vitest';
import { CHUNK_ROWS } from '../../src/store/columns-codec.ts';
import { MIGRATIONS, type Migration } from '../../src/store/migrations.ts';
import { openKeeper } from '../../src/store/keeper.ts';
import { bandOf, contentOf, importOf, state } from '../store/fixtures.ts';
import { dumpOf, foundIn, removeScratch, scratchKeeper, scratchName } from '../store/scratch-keeper.ts';
import { eventually } from '../support/eventually.ts';

/** Waits until a tab holds the lock for long writes. */
async function heldBySomebody(name: string): Promise<void> {
  const holders = async () => (await navigator.locks.query()).held ?? [];
  await expect.poll(async () => (await holders()).map((lock) => lock.name)).toContain(`${name} writes`);
}

afterEach(removeScratch);

describe('two tabs', () => {
  test('that bring the same file in at once keep one import', async () => {
    const name = scratchName();
    const waiting: string[] = [];
    const options = { lotBytes: 1, onWaiting: (sentence: string) => waiting.push(sentence) };
    const tabs = [await scratchKeeper(name, options), await scratchKeeper(name, options)];
    const one = await importOf(1, 3 * CHUNK_ROWS, 'shift.csv');
    const outcomes = await Promise.all(tabs.map((tab) => tab.addImport(one)));
    expect([...outcomes].sort()).toEqual(['added', 'known']);
    expect(waiting[0]).toBe('Another tab is storing something: this one waits.');
    const found = await foundIn(name);
    expect([found.imports, found.faults]).toEqual([[contentOf(one)], []]);
  });

  test('that bring different files in at once keep both', async () => {
    const name = scratchName();
    const tabs = [await scratchKeeper(name, { lotBytes: 1 }), await scratchKeeper(name, { lotBytes: 1 })];
    const imports = [await importOf(1, 50), await importOf(2, 60)];
    await Promise.all(tabs.map((tab, index) => tab.addImport(imports[index]!)));
    expect(new Set((await foundIn(name)).imports)).toEqual(new Set(imports.map(contentOf)));
  });

  test('that change different bands both have their way', async () => {
    const name = scratchName();
    const [one, other] = [await scratchKeeper(name), await scratchKeeper(name)];
    await one.load();
    await other.load();
    await Promise.all([one.saveState({ bands: [bandOf('bulk', 5)] }), other.saveState({ bands: [bandOf('12V main', 4)] })]); // prettier-ignore
    expect(new Set((await one.loadState()).bands)).toEqual(new Set([bandOf('bulk', 5), bandOf('12V main', 4)]));
    expect(await other.loadState()).toEqual(await one.loadState());
    await other.saveState({ bands: [bandOf('12V main', 4)] });
    expect((await one.loadState()).bands).toEqual([bandOf('12V main', 4)]);
    expect(await one.journal()).toHaveLength(3);
  });

  test('tell each other of every change, and not themselves', async () => {
    const name = scratchName();
    const heard: string[] = [];
    const own: string[] = [];
    const one = await scratchKeeper(name, { onChange: (what) => own.push(what) });
    await scratchKeeper(name, { onChange: (what) => heard.push(what) });
    await one.load();
    const kept = await importOf(1, 5);
    await one.addImport(kept);
    await one.addImport(kept);
    await one.saveState(state);
    await one.saveState(state);
    await one.removeImport(kept.record.hash);
    await one.clear();
    await eventually(() => { expect(heard).toEqual(['imports', 'state', 'imports', 'bench']); }); // prettier-ignore
    expect(own).toEqual([]);
  });

  test('never mix two benches: what one has cleared the other cannot write to', async () => {
    const name = scratchName();
    const [one, other] = [await scratchKeeper(name), await scratchKeeper(name)];
    await one.load();
    await other.load();
    await one.clear();
    await expect(other.saveState(state)).rejects.toMatchObject({ fault: 'replaced' });
    await expect(other.addImport(await importOf(1, 5))).rejects.toMatchObject({ fault: 'replaced' });
    await other.load();
    expect(await other.addImport(await importOf(1, 5), state)).toBe('added');
  });

  test('never write over each other’s change of one thing unseen, and keep different settings of both', async () => {
    const name = scratchName();
    const [one, other] = [await scratchKeeper(name), await scratchKeeper(name)];
    await one.saveState(state);
    await other.loadState();
    const [family] = state.families;
    const changed = (boost: boolean) => ({ families: [{ ...family!, points: [], boost }] });
    await one.saveState({ ...changed(!family!.boost), settings: [{ prices: [], fee: 51 }] });
    await expect(other.saveState(changed(family!.boost))).rejects.toMatchObject({ fault: 'outdated' });
    await other.saveState({ settings: [{ ...state.settings[0]!, technician: 'B. Dunlin' }] });
    const { families, settings } = await other.loadState();
    expect(families).toEqual(changed(!family!.boost).families);
    expect(settings).toEqual([{ prices: [], fee: 51, technician: 'B. Dunlin' }]);
  });

  test('that load while the other stores see nothing half stored', async () => {
    const name = scratchName();
    const [one, other] = [await scratchKeeper(name, { lotBytes: 1 }), await scratchKeeper(name)];
    const large = await importOf(1, 4 * CHUNK_ROWS, 'shift.csv');
    const during: Promise<unknown>[] = [];
    const report = (): void => { during.push(other.load().then(({ bench, faults }) => [bench.imports.length, faults])); }; // prettier-ignore
    await one.addImport(large, {}, { report });
    const found = await Promise.all(during);
    expect(found.length).toBeGreaterThan(4);
    for (const [imports, faults] of found as [number, string[]][]) {
      expect([0, 1]).toContain(imports);
      expect(faults).toEqual([]);
    }
    expect((await foundIn(name)).imports).toEqual([contentOf(large)]);
  });
});

describe('the lock for long writes', () => {
  test('of a frozen tab is taken over after its silence', async () => {
    const name = scratchName();
    // A frozen tab keeps its lock and says nothing.
    const frozen = navigator.locks.request(`${name} writes`, () => new Promise(() => undefined));
    const robbed = frozen.catch((cause: unknown) => (cause as DOMException).name);
    await heldBySomebody(name);
    const keeper = await scratchKeeper(name, { silence: 100 });
    expect(await keeper.addImport(await importOf(1, 5))).toBe('added');
    expect(await robbed).toBe('AbortError');
  });

  test('of a frozen tab is offered, and taken over only on the page’s word', async () => {
    const name = scratchName();
    const frozen = navigator.locks.request(`${name} writes`, () => new Promise(() => undefined));
    const robbed = frozen.catch((cause: unknown) => (cause as DOMException).name);
    await heldBySomebody(name);
    const offered: string[] = [];
    const keeper = await scratchKeeper(name, { silence: 100, onSilent: (sentence) => offered.push(sentence) });
    const adding = keeper.addImport(await importOf(1, 5));
    let isAdded = false;
    void adding.then(() => { isAdded = true; }); // prettier-ignore
    await expect.poll(() => offered).toEqual([expect.stringContaining('no sign of life')]);
    expect(isAdded).toBe(false);
    keeper.takeOver();
    expect(await adding).toBe('added');
    expect(await robbed).toBe('AbortError');
  });

  test('that is offered is not taken any more once its tab has spoken again', async () => {
    const name = scratchName();
    let release: () => void = () => undefined;
    void navigator.locks.request(`${name} writes`, () => new Promise<void>((resolve) => { release = resolve; })); // prettier-ignore
    await heldBySomebody(name);
    const offered: string[] = [];
    const told: string[] = [];
    const keeper = await scratchKeeper(name, {
      silence: 3000,
      onSilent: (sentence) => offered.push(sentence),
      onWaiting: (sentence) => told.push(sentence),
    });
    const adding = keeper.addImport(await importOf(1, 5));
    await expect.poll(() => offered).toHaveLength(1);
    const channel = new BroadcastChannel(`${name} news`);
    channel.postMessage({ kind: 'busy', what: 'storing night.csv' });
    await expect.poll(() => told).toContain('Another tab is storing night.csv: this one waits.');
    keeper.takeOver();
    const first = await Promise.race([adding, new Promise((resolve) => setTimeout(resolve, 100, 'still waiting'))]);
    expect(first).toBe('still waiting');
    channel.close();
    release();
    expect(await adding).toBe('added');
  });

  test('of a tab that gives signs of life is waited for', async () => {
    const name = scratchName();
    let release: () => void = () => undefined;
    const held = navigator.locks.request(`${name} writes`, () => new Promise<void>((resolve) => { release = resolve; })); // prettier-ignore
    const channel = new BroadcastChannel(`${name} news`);
    const pulse = setInterval(() => { channel.postMessage({ kind: 'busy', what: 'storing night.csv' }); }, 20); // prettier-ignore
    await heldBySomebody(name);
    const waiting: string[] = [];
    const keeper = await scratchKeeper(name, { silence: 3000, onWaiting: (sentence) => waiting.push(sentence) });
    const adding = keeper.addImport(await importOf(1, 5));
    const first = await Promise.race([adding, new Promise((resolve) => setTimeout(resolve, 4000, 'still waiting'))]);
    expect(first).toBe('still waiting');
    expect(waiting).toContain('Another tab is storing night.csv: this one waits.');
    clearInterval(pulse);
    channel.close();
    release();
    await held;
    expect(await adding).toBe('added');
  });

  test('that was taken over leaves the robbed tab unable to write, and one whole import', async () => {
    const name = scratchName();
    const slow = await scratchKeeper(name, { lotBytes: 1, heartbeat: 1_000_000 });
    const hasty = await scratchKeeper(name, { lotBytes: 1, silence: 0 });
    const one = await importOf(1, 6 * CHUNK_ROWS, 'shift.csv');
    let theft: Promise<unknown> | undefined;
    const robbed = slow.addImport(one, {}, { report: () => { theft ??= hasty.addImport(one); } }); // prettier-ignore
    await expect(robbed).rejects.toMatchObject({ fault: 'taken over' });
    expect(await theft).toBe('added');
    const found = await foundIn(name);
    expect([found.imports, found.faults]).toEqual([[contentOf(one)], []]);
  });

  test('is waited for no longer once the import is cancelled', async () => {
    const name = scratchName();
    void navigator.locks.request(`${name} writes`, () => new Promise(() => undefined)).catch(() => undefined);
    await heldBySomebody(name);
    const keeper = await scratchKeeper(name);
    const cancel = new AbortController();
    const adding = keeper.addImport(await importOf(1, 5), {}, { signal: cancel.signal });
    setTimeout(() => { cancel.abort(); }, 30); // prettier-ignore
    await expect(adding).rejects.toMatchObject({ fault: 'cancelled' });
    await navigator.locks.request(`${name} writes`, { steal: true }, () => undefined);
  });
});

describe('a new version of the page', () => {
  /** A later step that changes every line, as one that is released some day will. */
  const renameFiles: Migration = async (_connection, transaction) => {
    const store = transaction.objectStore('imports');
    for (const line of await store.getAll()) await store.put({ ...line, file: `${line.file} (moved)` });
  };
  const addStore: Migration = async (connection) => {
    (connection as unknown as IDBDatabase).createObjectStore('later', { keyPath: 'key' });
    await Promise.resolve();
  };
  const later = [...MIGRATIONS, renameFiles, addStore];

  test.each(later.map((_step, version) => version))(
    'brings version %i up to date with all that it holds',
    async (version) => {
      const name = scratchName();
      const one = await importOf(1, 20);
      if (version > 0) {
        const old = await scratchKeeper(name, { migrations: later.slice(0, version) });
        await old.load();
        await old.addImport(one, state);
        await old.close();
      }
      const keeper = await scratchKeeper(name, { migrations: later });
      const { bench, faults } = await keeper.load();
      expect(bench.imports.map(contentOf)).toEqual(version > 0 ? [contentOf(one)] : []);
      expect([bench.bands.length, faults]).toEqual([version > 0 ? 2 : 0, []]);
      const dump = await dumpOf(name);
      expect(dump.has('later')).toBe(true);
      if (version === 1) expect(dump.get('imports')).toMatchObject([{ file: `${one.record.file} (moved)` }]);
    },
  );

  test('whose step fails leaves the old version as it was', async () => {
    const name = scratchName();
    const old = await scratchKeeper(name);
    await old.load();
    await old.addImport(await importOf(1, 20), state);
    await old.close();
    const before = await dumpOf(name);
    const failing: Migration = async (connection, transaction) => {
      await addStore(connection, transaction);
      await renameFiles(connection, transaction);
      throw new Error('Planted fault');
    };
    await expect(openKeeper({ name, migrations: [...MIGRATIONS, failing] })).rejects.toThrow('Planted fault');
    expect(await dumpOf(name)).toEqual(before);
  });

  test('closes the old one, which says so and can write no more', async () => {
    const name = scratchName();
    const closed: string[] = [];
    const old = await scratchKeeper(name, { onClosed: (sentence) => closed.push(sentence) });
    await old.load();
    const young = await scratchKeeper(name, { migrations: later });
    expect(closed).toEqual([expect.stringContaining('A newer version of this page is open in another tab: reload this one.')]); // prettier-ignore
    await expect(old.saveState(state)).rejects.toMatchObject({ fault: 'closed' });
    expect((await young.load()).bench.bands).toEqual([]);
    await expect(openKeeper({ name })).rejects.toMatchObject({
      fault: 'newer',
      message: 'A newer version of this page has used the storage: reload this page.',
    });
  });

  test('ends an import that the old one is storing, with nothing of it kept', async () => {
    const name = scratchName();
    const old = await scratchKeeper(name, { lotBytes: 1 });
    await old.load();
    let young: ReturnType<typeof scratchKeeper> | undefined;
    const large = await importOf(1, 8 * CHUNK_ROWS, 'shift.csv');
    const adding = old.addImport(large, {}, { report: () => { young ??= scratchKeeper(name, { migrations: [...MIGRATIONS, addStore] }); } }); // prettier-ignore
    await expect(adding).rejects.toMatchObject({ fault: 'closed' });
    const { bench, faults } = await (await young!).load();
    expect([bench.imports, faults]).toEqual([[], ['Storing shift.csv was interrupted: nothing of it was kept. Bring it in again.']]); // prettier-ignore
    expect((await dumpOf(name)).get('chunks')).toEqual([]);
  });

  test('says which tab to close where an old one does not let go, and goes on once it has', async () => {
    const name = scratchName();
    await (await scratchKeeper(name)).close();
    const deaf = await openDB(name);
    const blocked = new Promise<string>((resolve) => {
      void scratchKeeper(name, { migrations: later, onBlocked: resolve });
    });
    expect(await blocked).toBe('Another tab holds the storage open in an older version: close that tab to go on here.');
    deaf.close();
    const keeper = await scratchKeeper(name, { migrations: later });
    expect((await keeper.load()).faults).toEqual([]);
  });
});

describe('a storage that is not to be had', () => {
  test('because another program has one of this name is left alone', async () => {
    const name = scratchName();
    const foreign = await openDB(name, 1, { upgrade: (connection) => { connection.createObjectStore('theirs'); } }); // prettier-ignore
    await foreign.put('theirs', 'value', 'key');
    foreign.close();
    await expect(openKeeper({ name })).rejects.toMatchObject({ fault: 'foreign' });
    await expect(openKeeper({ name, migrations: [...MIGRATIONS, ...MIGRATIONS] })).rejects.toMatchObject({ fault: 'foreign' }); // prettier-ignore
    expect(await dumpOf(name)).toEqual(new Map([['theirs', ['value']]]));
  });

  test.each([
    ['is refused', () => { throw new DOMException('Denied', 'SecurityError'); }], // prettier-ignore
    ['fails to open', () => { throw new DOMException('Internal error', 'UnknownError'); }], // prettier-ignore
  ])('because it %s is said plainly', async (_name, open) => {
    const spy = vi.spyOn(indexedDB, 'open').mockImplementation(open);
    try {
      await expect(openKeeper({ name: scratchName() })).rejects.toMatchObject({
        fault: 'no storage',
        message: expect.stringContaining('nothing will be kept') as string,
      });
    } finally {
      spy.mockRestore();
    }
  });

  test('because it was deleted from another tab is said, and nothing more is written', async () => {
    const name = scratchName();
    const closed: string[] = [];
    const keeper = await scratchKeeper(name, { onClosed: (sentence) => closed.push(sentence) });
    await keeper.load();
    await deleteDB(name);
    expect(closed).toEqual(['The storage is being deleted from another tab: reload this page.']);
    await expect(keeper.saveState(state)).rejects.toMatchObject({ fault: 'closed' });
  });
});
