import { afterEach, describe, expect, test } from 'vitest';
import { CHUNK_ROWS } from '../../src/store/columns-codec.ts';
import { EMPTY_STATE } from '../../src/store/kept.ts';
import { bandOf, contentOf, importOf, repairOf, state, sumOf } from '../store/fixtures.ts';
import { dumpOf, foundIn, removeScratch, scratchKeeper, scratchName } from '../store/scratch-keeper.ts';

afterEach(removeScratch);

describe('what is kept', () => {
  test('is nothing at first', async () => {
    const keeper = await scratchKeeper(scratchName());
    const { bench, faults, ledger, canUndoSwitch } = await keeper.load();
    expect(bench).toEqual({ imports: [], ...EMPTY_STATE });
    expect([faults, ledger.imports, canUndoSwitch]).toEqual([[], [], false]);
  });

  test('comes back as it was, imports in their order', async () => {
    const name = scratchName();
    const keeper = await scratchKeeper(name);
    await keeper.load();
    const imports = [await importOf(2, 40), await importOf(1, CHUNK_ROWS + 10), await importOf(3, 0)];
    for (const one of imports) expect(await keeper.addImport(one)).toBe('added');
    await keeper.saveState(state);
    await keeper.close();
    const found = await foundIn(name);
    expect(found).toEqual({ imports: imports.map(contentOf), state, faults: [] });
  });

  test('of a table of repairs has no readings, and comes back with what it changed', async () => {
    const name = scratchName();
    const keeper = await scratchKeeper(name);
    await keeper.load();
    const { record, setAside, bytes } = await importOf(4, 3);
    const table = { record: { ...record, shape: 'repairs' as const }, setAside, bytes };
    await keeper.addImport(table, { repairs: [repairOf('T-0009')] }, { why: 'brought in' });
    const found = await foundIn(name);
    expect(found.imports).toEqual([contentOf(table)]);
    expect(found.state).toMatchObject({ repairs: [repairOf('T-0009')] });
    expect(await keeper.journal()).toMatchObject([{ step: 1, why: 'brought in' }]);
  });

  test('reports readings as they are stored and read', async () => {
    const keeper = await scratchKeeper(scratchName(), { lotBytes: 1_000_000 });
    await keeper.load();
    const stored: number[] = [];
    await keeper.addImport(await importOf(1, 2 * CHUNK_ROWS + 1), {}, { report: (done) => stored.push(done) });
    const read: (readonly [number, number])[] = [];
    await keeper.load((done, total) => read.push([done, total]));
    expect(stored.at(-1)).toBe(2 * CHUNK_ROWS + 1);
    expect(read.at(-1)).toEqual([2 * CHUNK_ROWS + 1, 2 * CHUNK_ROWS + 1]);
  });

  test('has the bytes of each file, compressed in a quiet moment', async () => {
    const name = scratchName();
    const keeper = await scratchKeeper(name);
    await keeper.load();
    const one = await importOf(7, 220_000);
    const noise = { ...(await importOf(8, 1)), bytes: crypto.getRandomValues(new Uint8Array(5000)) };
    const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', noise.bytes));
    const hash = Array.from(digest, (byte) => byte.toString(16).padStart(2, '0')).join('');
    const random = { ...noise, record: { ...noise.record, hash } };
    await keeper.addImport(one);
    await keeper.addImport(random);
    expect(sumOf(await keeper.originalBytes(one.record.hash))).toBe(sumOf(one.bytes));
    const sizeOf = async (): Promise<number> =>
      ((await dumpOf(name)).get('originals') as { bytes: Uint8Array }[]).reduce(
        (sum, { bytes }) => sum + bytes.length,
        0,
      );
    const plain = await sizeOf();
    expect(await keeper.compressOriginals()).toBe(3);
    expect(await sizeOf()).toBeLessThan(plain / 10);
    expect(await keeper.compressOriginals()).toBe(0);
    expect(sumOf(await keeper.originalBytes(one.record.hash))).toBe(sumOf(one.bytes));
    expect(await keeper.originalBytes(hash)).toEqual(random.bytes);
    await expect(keeper.originalBytes('no such hash')).rejects.toThrow('not kept');
  });
});

describe('an import', () => {
  test('of the same bytes adds nothing, whatever its name', async () => {
    const name = scratchName();
    const keeper = await scratchKeeper(name);
    await keeper.load();
    const one = await importOf(1, 20);
    await keeper.addImport(one);
    const before = await dumpOf(name);
    const renamed = { ...one, record: { ...one.record, file: 'again.csv' } };
    expect(await keeper.addImport(renamed, { bands: [bandOf('bulk', 1)] })).toBe('known');
    expect(await dumpOf(name)).toEqual(before);
  });

  test('that was changed is put in place of itself in one step, in its place among the others', async () => {
    const name = scratchName();
    const keeper = await scratchKeeper(name, { lotBytes: 500 });
    await keeper.load();
    const imports = [await importOf(1, 2000), await importOf(2, 10)];
    for (const one of imports) await keeper.addImport(one);
    const mended = { ...imports[0]!, record: { ...imports[0]!.record, setAside: 0 }, setAside: [] };
    const stop = new AbortController();
    const stopped = keeper.addImport(mended, {}, { replaces: true, signal: stop.signal, report: () => { stop.abort(); } }); // prettier-ignore
    await expect(stopped).rejects.toMatchObject({ fault: 'cancelled' });
    expect((await foundIn(name)).imports).toEqual(imports.map(contentOf));
    expect(await keeper.addImport(mended, {}, { replaces: true })).toBe('added');
    expect((await foundIn(name)).imports).toEqual([mended, imports[1]!].map(contentOf));
    expect((await foundIn(name)).faults).toEqual([]);
  });

  test('that is taken away leaves no bytes and is missed by nobody; it can come again', async () => {
    const name = scratchName();
    const keeper = await scratchKeeper(name);
    await keeper.load();
    const one = await importOf(1, 20);
    await keeper.addImport(one);
    const copy = await keeper.ledger();
    await keeper.removeImport(one.record.hash);
    const dump = await dumpOf(name);
    expect([dump.get('chunks'), dump.get('details'), dump.get('originals')]).toEqual([[], [], []]);
    const { bench, faults } = await keeper.load(undefined, copy);
    expect([bench.imports, faults]).toEqual([[], []]);
    expect(await keeper.addImport(one)).toBe('added');
    expect((await foundIn(name)).imports).toEqual([contentOf(one)]);
  });

  test.each([1, 1_000_000_000])('that is cancelled leaves nothing behind, in lots of %i bytes', async (lotBytes) => {
    const name = scratchName();
    const keeper = await scratchKeeper(name, { lotBytes });
    await keeper.load();
    const before = await dumpOf(name);
    const cancel = new AbortController();
    cancel.abort();
    const adding = keeper.addImport(await importOf(1, 20), state, { signal: cancel.signal });
    await expect(adding).rejects.toMatchObject({ fault: 'cancelled' });
    expect(await dumpOf(name)).toEqual(before);
  });

  test('that is cancelled half way leaves nothing behind', async () => {
    const name = scratchName();
    const keeper = await scratchKeeper(name, { lotBytes: 1 });
    await keeper.load();
    const before = await dumpOf(name);
    const cancel = new AbortController();
    const report = (done: number): void => { if (done > CHUNK_ROWS) cancel.abort(); }; // prettier-ignore
    const adding = keeper.addImport(await importOf(1, 3 * CHUNK_ROWS), {}, { signal: cancel.signal, report });
    await expect(adding).rejects.toMatchObject({ fault: 'cancelled' });
    expect(await dumpOf(name)).toEqual(before);
  });
});

describe('the journal', () => {
  test('holds every change with what was, what is, when, who and why', async () => {
    const keeper = await scratchKeeper(scratchName(), { now: () => Date.UTC(2026, 2, 14) });
    await keeper.load();
    await keeper.saveState({ bands: [bandOf('bulk', 5)] }, { who: 'A. Tern', why: 'marked on the board' });
    await keeper.saveState({ bands: [bandOf('bulk', 4)], earlierBands: [bandOf('bulk', 5)] });
    await keeper.saveState({ bands: [bandOf('bulk', 4)] });
    expect(await keeper.journal()).toEqual([
      {
        step: 1,
        at: Date.UTC(2026, 2, 14),
        who: 'A. Tern',
        why: 'marked on the board',
        changes: [{ part: 'bands', new: bandOf('bulk', 5) }],
      },
      {
        step: 2,
        at: Date.UTC(2026, 2, 14),
        changes: [
          { part: 'bands', old: bandOf('bulk', 5), new: bandOf('bulk', 4) },
          { part: 'earlierBands', new: bandOf('bulk', 5) },
        ],
      },
    ]);
  });

  test('keeps changes made in quick succession apart', async () => {
    const name = scratchName();
    const keeper = await scratchKeeper(name);
    await keeper.load();
    await Promise.all(
      Array.from({ length: 10 }, (_none, index) =>
        keeper.saveState({ repairs: Array.from({ length: index + 1 }, (_also, id) => repairOf(`T-${id}`)) }),
      ),
    );
    expect((await keeper.journal()).map(({ changes }) => changes.length)).toEqual(Array(10).fill(1));
    expect((await foundIn(name)).state).toMatchObject({ repairs: Array.from({ length: 10 }, (_none, id) => repairOf(`T-${id}`)) }); // prettier-ignore
  });
});

describe('a cleared bench', () => {
  test('is empty, is missed by nobody, and comes back once and again', async () => {
    const keeper = await scratchKeeper(scratchName());
    await keeper.load();
    const one = await importOf(1, 20);
    await keeper.addImport(one, state);
    const copy = await keeper.ledger();
    await keeper.clear();
    const cleared = await keeper.load(undefined, copy);
    expect([cleared.bench.imports, cleared.bench.bands, cleared.faults, cleared.canUndoSwitch]).toEqual([[], [], [], true]); // prettier-ignore
    expect(await keeper.undoSwitch()).toBe(true);
    const back = await keeper.load();
    expect(back.bench.imports.map(contentOf)).toEqual([contentOf(one)]);
    expect(back.bench.bands).toEqual(state.bands);
    await keeper.undoSwitch();
    expect((await keeper.load()).bench.imports).toEqual([]);
  });

  test('gives the space of the bench before the last back', async () => {
    const name = scratchName();
    const keeper = await scratchKeeper(name);
    await keeper.load();
    for (let round = 0; round < 4; round += 1) {
      await keeper.addImport(await importOf(round, 20));
      await keeper.clear();
    }
    expect((await dumpOf(name)).get('chunks')).toHaveLength(1);
  });
});
