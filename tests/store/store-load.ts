import { deleteDB } from 'idb';
import { appendLog } from '../../src/columns/append.ts';
import { LogBuilder } from '../../src/columns/log-builder.ts';
import type { ReadingLog } from '../../src/columns/reading-log.ts';
import { openKeeper } from '../../src/store/keeper.ts';
import { createBench } from '../../src/worker/bench/bench.ts';
import { keptMemory } from '../../src/worker/bench/memory.ts';
import type { NewImport } from '../../src/store/kept.ts';
import { hexOf, sha256 } from '../../src/store/sha-256.ts';
import { simulateBench } from '../support/bench/simulate.ts';
import { longForm } from '../support/bench/write-logs.ts';
import { importOf } from './fixtures.ts';

/** What one round measured; times in milliseconds, sizes in bytes. */
export interface StoreFigures {
  readonly readings: number;
  readonly fileBytes: number;
  readonly store: number;
  readonly reopen: number;
  /** Opened again, judged, and the first page of the grid answered. */
  readonly usable: number;
  readonly compress: number;
  readonly backUp: number;
  readonly confirm: number;
  readonly restore: number;
  readonly chunkBytes: number;
  readonly originalBytes: number;
  readonly backupBytes: number;
}

/** Stores, reopens, backs up and restores a log of `readings` invented readings, in a database of its own. */
export async function measureStore(readings: number): Promise<StoreFigures> {
  const name = `benchtally-bench-${crypto.randomUUID()}`;
  const given = await largeImport(readings);
  let keeper = await openKeeper({ name });
  await keeper.load();
  const store = await timed(() => keeper.addImport(given));
  await keeper.close();
  const reopen = await timed(async () => {
    keeper = await openKeeper({ name });
    const { bench, faults } = await keeper.load();
    if (bench.imports[0]?.log?.count !== readings || faults.length > 0) throw new Error('The bench did not come back.');
  });
  const usable = await timed(async () => {
    const bench = createBench(keptMemory(() => openKeeper({ name })));
    const context = { signal: new AbortController().signal, report: () => undefined };
    await bench.openKept(context);
    const query = { filters: [], sort: [] };
    const counted = await bench.count(context, query);
    const rows = await bench.window(context, query, 0, 60);
    if (counted.readings !== readings || rows.length !== 60) throw new Error('The grid did not come back.');
  });
  const compress = await timed(() => keeper.compressOriginals());
  const sizes = await sizesIn(name);
  let backup: Awaited<ReturnType<typeof keeper.backUp>> | undefined;
  const backUp = await timed(async () => (backup = await keeper.backUp()));
  const { file, seal } = backup!;
  const confirm = await timed(() => keeper.confirmBackup(file, seal));
  const restore = await timed(() => keeper.restore(file));
  await keeper.close();
  await deleteDB(name);
  return { readings, fileBytes: given.bytes.length, store, reopen, usable, compress, backUp, confirm, restore, ...sizes, backupBytes: file.size }; // prettier-ignore
}

/** A year of the simulated bench, repeated until there are enough readings; the file is its table in long form. */
async function largeImport(readings: number): Promise<NewImport> {
  const simulated = simulateBench({ seed: 20260314, repairs: 3000 }).readings;
  const builder = new LogBuilder(undefined, simulated.length);
  for (const reading of simulated) builder.add(reading);
  const piece = builder.finish();
  let log: ReadingLog = piece;
  while (log.count < readings) log = appendLog(log, piece);
  log = cut(log, readings);
  const text = longForm(simulated);
  const body = text.slice(text.indexOf('\n') + 1);
  const bytes = new TextEncoder().encode(text + body.repeat(Math.ceil(readings / simulated.length) - 1));
  const { record, setAside } = await importOf(1, 1);
  return { record: { ...record, hash: hexOf(await sha256(bytes)), taken: readings }, log, setAside, bytes };
}

function cut(log: ReadingLog, count: number): ReadingLog {
  const columns = Object.entries(log).map(([name, column]: [string, unknown]) => [
    name,
    ArrayBuffer.isView(column) ? (column as Uint8Array).slice(0, count) : column,
  ]);
  return { ...(Object.fromEntries(columns) as unknown as ReadingLog), count };
}

async function timed(work: () => Promise<unknown>): Promise<number> {
  const start = performance.now();
  await work();
  return performance.now() - start;
}

function sizesIn(name: string): Promise<{ readonly chunkBytes: number; readonly originalBytes: number }> {
  return new Promise((resolve, reject) => {
    const opening = indexedDB.open(name);
    opening.onerror = () => { reject(new Error('The database did not open.')); }; // prettier-ignore
    opening.onsuccess = () => {
      const connection = opening.result;
      const transaction = connection.transaction(['chunks', 'originals']);
      const sums = { chunkBytes: 0, originalBytes: 0 };
      const add = (store: string, field: keyof typeof sums): void => {
        const cursor = transaction.objectStore(store).openCursor();
        cursor.onsuccess = () => {
          if (cursor.result === null) return;
          sums[field] += (cursor.result.value as { bytes: Uint8Array }).bytes.length;
          cursor.result.continue();
        };
      };
      add('chunks', 'chunkBytes');
      add('originals', 'originalBytes');
      transaction.oncomplete = () => {
        connection.close();
        resolve(sums);
      };
    };
  });
}
