import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { page } from 'vitest/browser';
import type { BackupFileState } from '../../src/worker/contract/memory.ts';
import { Session } from '../../src/session/session.ts';
import '../../src/ui/panels/backup-file.ts';
import '../../src/ui/panels/start-anew.ts';
import { fakeClient } from '../session/fake-client.ts';
import { show, violations } from './app-page.ts';

const ledger = { database: 'd', generation: 1, imports: [{ hash: 'h', rows: 2, crc: 1 }], edits: 3 };
const behind: BackupFileState = { name: 'bench.backup', holds: 'behind', isAllowed: true };

/** A kept bench with a chosen file of one state. */
async function opened(
  state: BackupFileState | undefined,
  lastBackup = { at: 0, seal: 's', imports: 1, holdsAll: true },
) {
  const kept = { ...ledger, lastBackup };
  let present = state;
  const client = fakeClient({
    openKept: () => ({ keeps: true, found: true, faults: [], misses: false, ledger: kept, canUndoSwitch: false }),
    summary: () => ({ readings: 2, repairs: 1, families: 1, bands: 0 }),
    ledger: () => kept,
    backupFile: () => present,
    chooseBackupFile: ([handle]) => (present = handle && behind),
    writeBackupFile: () => (present = { ...behind, holds: 'current', at: 0 }),
    backupHandle: () => undefined,
    startOwn: () => ({ readings: 0, repairs: 0, families: 0, bands: 0 }),
  });
  const session = new Session(client, () => Promise.resolve([]), '.', {
    read: () => undefined,
    write: () => undefined,
  });
  await session.start();
  return { client, session };
}

async function showFile(state: BackupFileState | undefined) {
  const { client, session } = await opened(state);
  await expect.poll(() => session.state.backupFile?.holds).toBe(state?.holds);
  return { client, session, element: await show('bt-backup-file', { session }) };
}

beforeEach(() => {
  vi.stubGlobal('showSaveFilePicker', () => Promise.resolve({ name: 'bench.backup' }));
});
afterEach(() => {
  vi.unstubAllGlobals();
});

describe('<bt-backup-file>', () => {
  test('renders', async () => {
    await showFile({ ...behind, holds: 'current', at: Date.UTC(2026, 2, 14, 12) });
    await expect.element(page.getByText(/bench\.backup is kept up to date: it holds everything\. It was last read back whole on 2026-03-14/)).toBeVisible(); // prettier-ignore
  });

  test('is accessible', async () => {
    const { element } = await showFile({ ...behind, isAllowed: false });
    expect(await violations(element)).toEqual([]);
  });

  test('says so where the browser has no file handles', async () => {
    vi.stubGlobal('showSaveFilePicker', undefined);
    await showFile(undefined);
    await expect.element(page.getByText(/save backups by hand/)).toBeVisible();
  });

  test('chooses a file, writes it, and lets it be', async () => {
    const { client } = await showFile(undefined);
    await page.getByRole('button', { name: 'Keep a file up to date…' }).click();
    await expect.element(page.getByText(/is kept up to date: it holds everything/)).toBeVisible();
    await page.getByRole('button', { name: 'Keep no file up to date' }).click();
    await expect.element(page.getByRole('button', { name: 'Keep a file up to date…' })).toBeVisible();
    expect(client.calls.filter(({ name }) => name === 'chooseBackupFile').map(({ args }) => args)).toEqual([
      [{ name: 'bench.backup' }],
      [undefined],
    ]);
  });

  test('asks for permission again by a button', async () => {
    const { client } = await showFile({ ...behind, isAllowed: false });
    await page.getByRole('button', { name: 'Allow writing bench.backup' }).click();
    await expect.poll(() => client.calls.some(({ name }) => name === 'backupHandle')).toBe(true);
  });

  test('writes over another bench only when it is told to', async () => {
    const { client } = await showFile({ ...behind, holds: 'other bench' });
    expect(client.calls.some(({ name }) => name === 'writeBackupFile')).toBe(false);
    await page.getByRole('button', { name: 'Write this bench into it' }).click();
    await expect.poll(() => client.calls.some(({ name }) => name === 'writeBackupFile')).toBe(true);
  });

  test('leaves the file of a damaged bench as it is', async () => {
    await showFile({ ...behind, holds: 'damaged bench' });
    await expect.element(page.getByText(/bench\.backup is left as it is: restore from it/)).toBeVisible();
    await expect.element(page.getByRole('button', { name: /Write/ })).not.toBeInTheDocument();
  });
});

describe('<bt-start-anew>', () => {
  test('renders', async () => {
    const { session } = await opened(undefined);
    await show('bt-start-anew', { session });
    await page.getByRole('button', { name: 'Start anew…' }).click();
    await expect.element(page.getByText('The last backup holds all of it.')).toBeVisible();
  });

  test('is accessible', async () => {
    const { session } = await opened(undefined);
    const element = await show('bt-start-anew', { session });
    await page.getByRole('button', { name: 'Start anew…' }).click();
    expect(await violations(element)).toEqual([]);
  });

  test('asks for a fresh backup first, and can be left', async () => {
    const { session, client } = await opened(undefined, { at: 0, seal: 's', imports: 1, holdsAll: false });
    const element = await show('bt-start-anew', { session });
    const wanted = vi.fn();
    element.addEventListener('backup-wanted', wanted);
    await page.getByRole('button', { name: 'Start anew…' }).click();
    await expect.element(page.getByText('No backup holds all of it: save one first.')).toBeVisible();
    await page.getByRole('button', { name: 'Save a backup…' }).click();
    expect(wanted).toHaveBeenCalledOnce();
    await page.getByRole('button', { name: 'Leave it' }).click();
    expect(client.calls.some(({ name }) => name === 'startOwn')).toBe(false);
    await page.getByRole('button', { name: 'Start anew…' }).click();
    await page.getByRole('button', { name: 'Empty this bench without a backup' }).click();
    await expect.poll(() => client.calls.some(({ name }) => name === 'startOwn')).toBe(true);
  });
});
