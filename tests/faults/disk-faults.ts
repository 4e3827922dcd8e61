import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { closeSync, openSync, readdirSync, readFileSync, rmSync, statfsSync, statSync, truncateSync, writeFileSync, writeSync } from 'node:fs'; // prettier-ignore
import { join } from 'node:path';
import { chromium, type Page } from 'playwright-core';
import { chromiumArguments, ensureChromium } from '../support/chromium.ts';
import {
  alertsOf,
  bringIn,
  completeIn,
  expectWhole,
  OwnBench,
  readingsShown,
  tryToBringIn,
  until,
} from './bench-page.ts';
import type { LogFolder } from './logs.ts';
import type { StoredImport } from './stored.ts';

/** A browser with a bench whose files lie in a folder, and the backup of it outside. */
interface Kept {
  readonly profile: string;
  readonly address: string;
  readonly imports: readonly StoredImport[];
  readonly readings: number;
  readonly backup: string;
}

async function launch(profile: string) {
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: ensureChromium(),
    args: [...chromiumArguments],
    locale: 'en-GB',
    acceptDownloads: true,
  });
  // Without file handles the backup goes to the downloads.
  await context.addInitScript(() => Reflect.deleteProperty(globalThis, 'showSaveFilePicker'));
  return context;
}

/** Makes a bench of two files, saves a backup of it, and closes the browser as a person does. */
async function keep(profile: string, address: string, logs: LogFolder): Promise<Kept> {
  const context = await launch(profile);
  const { page } = await OwnBench.begin(context, address);
  await bringIn(page, logs.log(20_000), logs.log(500));
  const imports = await completeIn(page);
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save a backup…' }).click();
  const backup = join(logs.path, 'bench.backup');
  await (await download).saveAs(backup);
  await page.getByLabel('The backup that was just saved').setInputFiles(backup);
  await page.getByText('The backup was saved and read back whole.').waitFor();
  await context.close();
  return { profile, address, imports, readings: 20_500, backup };
}

/** Opens the bench anew: all of it is there, or the page says that something is missing; a backup brings all of it back. */
async function expectNoticed({ profile, address, imports, readings, backup }: Kept): Promise<void> {
  const context = await launch(profile);
  const bench = new OwnBench(context, address);
  const page: Page = await bench.tab();
  const shown = (await readingsShown(page)) ?? 0;
  const alerts = await alertsOf(page);
  const isOwn = (await page.locator('header').innerText()).includes('This bench');
  if (!isOwn || shown < readings)
    assert.ok(alerts.some((sentence) => /missing|damaged/.test(sentence)), `${shown} readings, and nothing is said: ${alerts.join(' ')}`); // prettier-ignore
  await page.goto(`${address}#/shift`);
  await page.getByLabel('Backup to restore').setInputFiles(backup);
  await page.getByRole('button', { name: 'Put it in place' }).click();
  await until(() => readingsShown(page), readings, 'readings shown');
  const again = await bench.tab();
  await expectWhole(bench, again, imports);
  await context.close();
}

/** A file system of its own that can be filled; undefined where mounting is not allowed. */
function mountSmall(folder: string): boolean {
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=220m', 'tmpfs', folder], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
}

/** Fills the disk while a file is brought in. @returns false where no small disk can be had */
export async function fillDisk(folder: string, address: string, logs: LogFolder, free: number): Promise<boolean> {
  if (!mountSmall(folder)) return false;
  try {
    const kept = await keep(join(folder, 'profile'), address, logs);
    const context = await launch(kept.profile);
    const page = await new OwnBench(context, address).tab();
    const filler = join(folder, 'filler');
    const { bavail, bsize } = statfsSync(folder);
    writeFileSync(filler, Buffer.alloc(Math.max(0, bavail * bsize - free)));
    let refused = false;
    for (let files = 0; files < 40 && !refused; files += 1)
      refused = await tryToBringIn(page, logs.log(100_000)).then((sentence) => sentence !== undefined, () => true); // prettier-ignore
    assert.ok(refused, 'the disk was never full');
    await context.close();
    rmSync(filler);
    await expectNoticed(kept);
    return true;
  } finally {
    execFileSync('umount', ['-l', folder]);
  }
}

/** The largest file of a folder and all below it. */
function largestIn(folder: string): string {
  const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  const paths = files.map(({ parentPath, name }) => join(parentPath, name));
  const largest = paths.sort((one, other) => statSync(other).size - statSync(one).size)[0];
  assert.ok(largest, `${folder} holds no file`);
  return largest;
}

/** Ways in which files that the browser keeps go bad. */
export const DAMAGES: Readonly<Record<string, (storage: string) => void>> = {
  'sixty-four bytes of the database flipped': (storage) => {
    const path = largestIn(databaseIn(storage, '.leveldb'));
    const middle = Math.floor(statSync(path).size / 2);
    const bytes = readFileSync(path).subarray(middle, middle + 64).map((byte) => byte ^ 0xff); // prettier-ignore
    const file = openSync(path, 'r+');
    writeSync(file, bytes, 0, bytes.length, middle);
    closeSync(file);
  },
  'the database cut in half': (storage) => {
    const path = largestIn(databaseIn(storage, '.leveldb'));
    truncateSync(path, Math.floor(statSync(path).size / 2));
  },
  'a file of the database gone': (storage) => {
    rmSync(largestIn(databaseIn(storage, '.leveldb')));
  },
  'the whole database gone': (storage) => {
    rmSync(databaseIn(storage, '.leveldb'), { recursive: true });
  },
};

function databaseIn(storage: string, ending: string): string {
  const found = readdirSync(storage).find((name) => name.endsWith(ending));
  assert.ok(found, `${storage} holds no database`);
  return join(storage, found);
}

/** Damages what the browser wrote while it is closed. */
export async function damageFiles(
  folder: string,
  address: string,
  logs: LogFolder,
  damage: (storage: string) => void,
): Promise<void> {
  const kept = await keep(join(folder, 'profile'), address, logs);
  damage(join(kept.profile, 'Default', 'IndexedDB'));
  await expectNoticed(kept);
}
