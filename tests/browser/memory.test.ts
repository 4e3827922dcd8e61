import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { createBenchClient, type BenchClient } from '../../src/worker/client.ts';
import { loadSample } from '../../src/session/sample.ts';

/** The worker's own database. */
const NAME = 'benchtally';
const clients: BenchClient[] = [];

function open(onChanged?: () => void): BenchClient {
  const client = createBenchClient(undefined, undefined, onChanged);
  clients.push(client);
  return client;
}

function forget(): Promise<void> {
  for (const client of clients.splice(0)) client.close();
  return new Promise((resolve, reject) => {
    const request = indexedDB.deleteDatabase(NAME);
    request.onsuccess = () => { resolve(); }; // prettier-ignore
    request.onerror = () => { reject(request.error ?? new Error('The database was not deleted.')); }; // prettier-ignore
  });
}

async function ownBench(): Promise<BenchClient> {
  const client = open();
  await client.call('startOwn', []);
  await client.call('bringIn', [await loadSample()]);
  return client;
}

beforeEach(forget);
afterEach(forget);

describe('what outlasts the page', () => {
  test('nothing, until there is a bench of the technician’s own', async () => {
    expect(await open().call('openKept', [])).toMatchObject({ keeps: false, found: false, faults: [] });
  });

  test('readings, bands, repairs and answers come back as they were, judged the same', async () => {
    const first = await ownBench();
    await first.call('setBands', [
      [
        {
          family: 'SISKIN-40',
          point: '5V standby',
          mode: 'DC volts',
          expects: { kind: 'percent', nominal: 5, percent: 5 },
          basis: 'board marking',
        },
      ],
    ]);
    await first.call('answerNames', [[{ kind: 'family', name: 'SISKIN-40' }]]);
    const query = { filters: [], sort: [] };
    const before = {
      summary: await first.call('summary', []),
      verdicts: await first.call('facet', [query, 'verdict']),
      story: await first.call('repair', ['T-0003']),
      shift: await first.call('shift', []),
    };
    first.close();

    const second = open();
    expect(await second.call('openKept', [])).toMatchObject({ keeps: true, found: true, faults: [] });
    expect(await second.call('summary', [])).toEqual(before.summary);
    expect(await second.call('facet', [query, 'verdict'])).toEqual(before.verdicts);
    expect(await second.call('repair', ['T-0003'])).toEqual(before.story);
    expect(await second.call('shift', [])).toEqual(before.shift);
  });

  test('an import is taken back after a reload as well, a table with what it brought', async () => {
    const first = await ownBench();
    const { imports } = await first.call('shift', []);
    first.close();

    const second = open();
    await second.call('openKept', []);
    for (const { hash } of imports) await second.call('takeBack', [hash]);
    expect(await second.call('summary', [])).toEqual({ readings: 0, repairs: 0, families: 0, bands: 0 });
    second.close();
    expect(await open().call('openKept', [])).toMatchObject({ faults: [] });
  });

  test('the first file of an own bench, broken off, is told of, and the bench is kept from there on', async () => {
    const first = open();
    await first.call('startOwn', []);
    await first.call('beginImport', [['a.csv']]);
    expect(await open().call('importsElsewhere', [])).toEqual(['a.csv']);
    first.close();

    const second = open();
    await expect.poll(() => second.call('importsElsewhere', [])).toEqual([]);
    const faults = ['Bringing in a.csv was interrupted: nothing of it was kept. Bring it in again.'];
    expect(await second.call('openKept', [])).toMatchObject({ keeps: true, faults });
    await second.call('bringIn', [await loadSample()]);
    const kept = await second.call('summary', []);
    second.close();
    const third = open();
    expect(await third.call('openKept', [])).toMatchObject({ found: true, faults: [] });
    expect(await third.call('summary', [])).toEqual(kept);
  });

  test('the sample is never kept, and leaves what is kept alone', async () => {
    const first = await ownBench();
    const { readings } = await first.call('summary', []);
    await first.call('clear', []);
    await first.call('bringIn', [[new File(['time,repair,family,point,stage,mode,reading\n'], 'x.csv')]]);
    await first.call('openKept', []);
    expect((await first.call('summary', [])).readings).toBe(readings);
  });

  test('a bench that lost its readings says how many are missing', async () => {
    const first = await ownBench();
    const copy = await first.call('ledger', []);
    await forget();
    const { faults } = await open().call('openKept', copy ? [copy] : []);
    expect(faults.join(' ')).toMatch(/3,715 readings of 6 imports are missing: restore a backup/);
  });

  test('a backup is verified, restored into an empty bench, and the bench before comes back once', async () => {
    const first = await ownBench();
    const before = await first.call('summary', []);
    const { file, seal } = await first.call('backUp', []);
    await first.call('confirmBackup', [file, seal]);
    expect((await first.call('ledger', []))?.lastBackup?.imports).toBe(6);
    await first.call('startOwn', []);
    expect((await first.call('summary', [])).readings).toBe(0);
    expect(await first.call('lookIntoBackup', [file])).toMatchObject({
      imports: 6,
      readings: 3715,
      changes: [
        { part: 'bands', added: 106, changed: 0, gone: 0 },
        { part: 'families', gone: 0 },
        { part: 'repairs', added: 150 },
        { part: 'meters', added: 3 },
      ],
    });
    await first.call('restore', [file]);
    expect(await first.call('summary', [])).toEqual(before);
    await first.call('undoSwitch', []);
    expect((await first.call('summary', [])).readings).toBe(0);
  });

  test('a damaged backup is refused with a sentence, and nothing changes', async () => {
    const first = await ownBench();
    const before = await first.call('summary', []);
    const { file } = await first.call('backUp', []);
    const cut = file.slice(0, file.size - 7);
    await expect(first.call('restore', [cut])).rejects.toThrow(/\.$/);
    expect(await first.call('summary', [])).toEqual(before);
  });

  test('who and why, settings and views come back; undo and redo go on after a reload, and after a backup', async () => {
    const band = {
      family: 'SISKIN-40',
      point: '5V standby',
      mode: 'DC volts',
      expects: { kind: 'percent', nominal: 5, percent: 5 },
      basis: 'board marking',
    } as const;
    const goodRule = { heldDays: 90, withoutFault: false, newParts: true };
    const hasBand = async (client: BenchClient): Promise<boolean> =>
      (await client.call('bands', [])).bands.some((line) => line.band.family === 'SISKIN-40');
    const first = await ownBench();
    await first.call('changeSettings', [{ prices: [], fee: 40, technician: 'A. Tern', goodRule }]);
    await first.call('setView', [{ name: 'worst first', address: '#/readings?sort=-margin' }]);
    await first.call('setBands', [[band]]);
    const { lines } = await first.call('history', [undefined, 0, 9]);
    await first.call('explain', [lines[0]!.step!, 'read on the board']);
    await first.call('setRepair', [{ ...(await first.call('repairs', []))[0]!.repair, complaint: 'no picture' }]);
    await first.call('undo', []);
    first.close();

    const second = open();
    await second.call('openKept', []);
    expect(await second.call('settings', [])).toEqual({ prices: [], fee: 40, technician: 'A. Tern', goodRule });
    expect(await second.call('views', [])).toMatchObject([{ name: 'worst first' }]);
    expect((await second.call('history', ['bands', 0, 1])).lines).toMatchObject([
      { who: 'A. Tern', why: 'read on the board', changes: [{ part: 'bands', new: band }] },
    ]);
    expect((await second.call('undoable', [])).redo?.changes).toMatchObject([{ new: { complaint: 'no picture' } }]);
    await second.call('undo', []);
    expect(await hasBand(second)).toBe(false);
    const { file, seal } = await second.call('backUp', []);
    await second.call('confirmBackup', [file, seal]);
    second.close();

    const third = open();
    await third.call('openKept', []);
    await third.call('redo', []);
    expect(await hasBand(third)).toBe(true);
    await third.call('restore', [file]);
    expect(await hasBand(third)).toBe(false);
    await third.call('redo', []);
    await third.call('redo', []);
    expect(await hasBand(third)).toBe(true);
    expect((await third.call('repairs', []))[0]!.repair.complaint).toBe('no picture');
    expect(await third.call('redo', [])).toBeUndefined();
  });

  test('another tab is told of a change, and sees it', async () => {
    const first = await ownBench();
    let told = 0;
    const second = open(() => {
      told += 1;
    });
    await second.call('openKept', []);
    const { imports } = await first.call('shift', []);
    await first.call('takeBack', [imports[4]!.hash]);
    await expect.poll(() => told).toBeGreaterThan(0);
    await second.call('openKept', []);
    expect(await second.call('summary', [])).toEqual(await first.call('summary', []));
  });
});
