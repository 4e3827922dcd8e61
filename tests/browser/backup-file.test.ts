import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { LedgerCopy } from '../../src/session/ledger-copy.ts';
import { loadSample } from '../../src/session/sample.ts';
import { Session } from '../../src/session/session.ts';
import { createBenchClient, type BenchClient } from '../../src/worker/client.ts';

/** The worker's own database, and a file of the page's own that stands in for one chosen by the person. */
const NAME = 'benchtally';
const FILE = 'bench.backup';
const clients: BenchClient[] = [];

/** Longer than the pause after a change. */

function visit(): Session {
  let noted: ReturnType<LedgerCopy['read']>;
  const copy: LedgerCopy = { read: () => noted, write: (ledger) => { noted = ledger; } }; // prettier-ignore
  const client = createBenchClient();
  clients.push(client);
  return new Session(client, () => Promise.resolve([]), '.', copy);
}

async function forget(): Promise<void> {
  for (const client of clients.splice(0)) client.close();
  await new Promise((resolve, reject) => {
    const request = indexedDB.deleteDatabase(NAME);
    request.onsuccess = resolve;
    request.onerror = reject;
  });
  const folder = await navigator.storage.getDirectory();
  await folder.removeEntry(FILE).catch(() => undefined);
}

async function chosen(): Promise<FileSystemFileHandle> {
  const folder = await navigator.storage.getDirectory();
  return folder.getFileHandle(FILE, { create: true });
}

async function ownBench(): Promise<Session> {
  const session = visit();
  await session.startEmpty();
  await session.bringIn(await loadSample());
  return session;
}

async function importsInFile(session: Session): Promise<number> {
  return (await session.ask('lookIntoBackup', [await (await chosen()).getFile()])).imports;
}

const setFee = (session: Session, fee: number) => session.ask('changeSettings', [{ prices: [], fee }]);

beforeEach(forget);
afterEach(forget);

test('a chosen file holds all that is kept, and again after each change', async () => {
  const session = await ownBench();
  await session.keepBackupIn(await chosen());
  expect(session.state.backupFile).toMatchObject({ name: FILE, holds: 'current', isAllowed: true });
  expect(await importsInFile(session)).toBe(6);
  expect(session.state.kept.ledger?.lastBackup?.imports).toBe(6);
  const before = await (await chosen()).getFile();
  await setFee(session, 40);
  await expect.poll(() => session.state.backupFile?.holds).toBe('behind');
  await expect.poll(() => session.state.backupFile?.holds).toBe('current');
  expect((await (await chosen()).getFile()).lastModified).toBeGreaterThan(before.lastModified);
});

test('it is known after a reload, and written again where it was changed or is behind', async () => {
  const session = await ownBench();
  await session.keepBackupIn(await chosen());
  const writable = await (await chosen()).createWritable();
  await writable.write('something else');
  await writable.close();
  clients.at(-1)?.close();
  const next = visit();
  await next.start();
  await expect.poll(() => next.state.backupFile?.holds).toBe('behind');
  await expect.poll(() => next.state.backupFile?.holds).toBe('current');
  expect(await importsInFile(next)).toBe(6);
});

test('a file that was deleted is written anew; one that cannot be written is said, and another can be chosen', async () => {
  const session = await ownBench();
  await session.keepBackupIn(await chosen());
  const folder = await navigator.storage.getDirectory();
  await folder.removeEntry(FILE);
  await session.writeBackupFile();
  expect(await importsInFile(session)).toBe(6);
  await folder.removeEntry(FILE);
  await folder.getDirectoryHandle(FILE, { create: true });
  await session.writeBackupFile();
  expect(session.state.problem).toMatch(/^bench\.backup could not be written \(.*\): it holds what it held before\.$/);
  expect(session.state.backupFile?.problem).toBe(session.state.problem);
  await folder.removeEntry(FILE);
  await session.keepBackupIn(await chosen());
  expect(session.state.backupFile).toMatchObject({ holds: 'current' });
  expect(session.state.backupFile?.problem).toBeUndefined();
});

test('a bench that takes the place of another is not written over its backup unasked', async () => {
  const session = await ownBench();
  await session.keepBackupIn(await chosen());
  await session.startEmpty();
  await setFee(session, 40);
  await expect.poll(() => session.state.backupFile?.holds).toBe('other bench');
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
  // However long nothing is changed.
  await vi.advanceTimersByTimeAsync(3_600_000);
  vi.useRealTimers();
  expect(await importsInFile(session)).toBe(6);
  await session.writeBackupFile();
  expect(session.state.backupFile?.holds).toBe('current');
  expect(await importsInFile(session)).toBe(0);
});

test('a file that is let be is written no more', async () => {
  const session = await ownBench();
  await session.keepBackupIn(await chosen());
  await session.leaveBackupFile();
  expect(session.state.backupFile).toBeUndefined();
  await setFee(session, 40);
  expect(await session.ask('backupFile', [])).toBeUndefined();
});
