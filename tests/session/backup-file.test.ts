import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { Session } from '../../src/session/session.ts';
import type { BackupFileState, KeptAnswer, Ledger } from '../../src/worker/contract/memory.ts';
import { fakeClient, type FakeAnswers } from './fake-client.ts';

const ledger: Ledger = { database: 'd', generation: 1, imports: [], edits: 0 };
const kept: KeptAnswer = { keeps: true, found: true, faults: [], misses: false, ledger, canUndoSwitch: false };
const behind: BackupFileState = { name: 'bench.backup', holds: 'behind', isAllowed: true };

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

function openedWith(answers: FakeAnswers) {
  const client = fakeClient({
    openKept: () => kept,
    summary: () => ({ readings: 1, repairs: 0, families: 0, bands: 0 }),
    ledger: () => ledger,
    changeSettings: () => ({ prices: [] }),
    backupFile: () => behind,
    ...answers,
  });
  const session = new Session(client, () => Promise.resolve([]), '.', {
    read: () => undefined,
    write: () => undefined,
  });
  const writes = (): number => client.calls.filter(({ name }) => name === 'writeBackupFile').length;
  return { client, session, writes };
}

test('changes in quick succession are written once, after a pause', async () => {
  const { session, writes } = openedWith({ writeBackupFile: () => ({ ...behind, holds: 'current' }) });
  await session.start();
  for (const fee of [1, 2, 3]) await session.ask('changeSettings', [{ prices: [], fee }]);
  await vi.advanceTimersByTimeAsync(4_000);
  expect(writes()).toBe(0);
  await vi.advanceTimersByTimeAsync(2_000);
  expect(writes()).toBe(1);
});

test('a file that the browser asks for again is left alone until it is allowed', async () => {
  let isAllowed = false;
  const handle = {} as FileSystemFileHandle;
  const { session, writes } = openedWith({
    backupFile: () => ({ ...behind, isAllowed }),
    backupHandle: () => handle,
    writeBackupFile: () => ({ ...behind, holds: 'current' }),
  });
  await session.start();
  await vi.advanceTimersByTimeAsync(60_000);
  expect(session.state.backupFile).toMatchObject({ holds: 'behind', isAllowed: false });
  expect(writes()).toBe(0);
  const asked: FileSystemFileHandle[] = [];
  await session.allowBackupFile((one) => {
    asked.push(one);
    isAllowed = true;
    return Promise.resolve(true);
  });
  await vi.advanceTimersByTimeAsync(6_000);
  expect([asked, writes()]).toEqual([[handle], 1]);
});

test('a failure is shown as a sentence until a later write succeeds', async () => {
  let fails = true;
  const { session } = openedWith({
    writeBackupFile: () => {
      if (fails) throw new Error('There is no room for bench.backup');
      return { ...behind, holds: 'current' };
    },
  });
  await session.start();
  await vi.advanceTimersByTimeAsync(6_000);
  expect(session.state.backupFile?.problem).toBe('There is no room for bench.backup.');
  expect(session.state.problem).toBe('There is no room for bench.backup.');
  await session.ask('changeSettings', [{ prices: [] }]);
  expect(session.state.backupFile?.problem).toBe('There is no room for bench.backup.');
  fails = false;
  await session.writeBackupFile();
  expect(session.state.backupFile?.problem).toBeUndefined();
});
