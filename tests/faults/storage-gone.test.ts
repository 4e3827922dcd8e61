import assert from 'node:assert/strict';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, inject, test } from 'vitest';
import { launchChromium } from '../support/chromium-launch.ts';
import {
  alertsOf,
  beginBench,
  bringIn,
  completeIn,
  expectWhole,
  OwnBench,
  patchWorker,
  readingsShown,
  until,
} from './bench-page.ts';
import { faultRuns } from './fault-runs.ts';
import { LogFolder } from './logs.ts';

const logs = new LogFolder();
let browser: Browser;

beforeAll(async () => {
  browser = await launchChromium();
});

afterAll(async () => {
  await browser.close();
  logs.remove();
});

test('what the browser throws away is missed at the next start, and a backup brings it back', async (context) => {
  const kinds = ['indexeddb', 'all'] as const;
  await faultRuns(context, 'F15 evicted', kinds.length, async ({ number }) => {
    const own = await browser.newContext({ acceptDownloads: true });
    // Without file handles the backup goes to the downloads.
    await own.addInitScript(() => Reflect.deleteProperty(globalThis, 'showSaveFilePicker'));
    const { bench, page } = await OwnBench.begin(own, inject('baseUrl'));
    await bringIn(page, logs.log(1200), logs.log(800));
    const kept = await completeIn(page);
    const download = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save a backup…' }).click();
    const backup = await (await download).path();
    await page.getByLabel('The backup that was just saved').setInputFiles(backup);
    await page.getByText('The backup was saved and read back whole.').waitFor();
    await page.close();
    const emptying = await own.newPage();
    const devtools = await own.newCDPSession(emptying);
    const { origin } = new URL(bench.address);
    await devtools.send('Storage.clearDataForOrigin', { origin, storageTypes: kinds[number - 1]! });
    await emptying.close();
    const again = await bench.tab();
    if (number === 1) {
      assert.deepEqual(await alertsOf(again), ['▲ 2,000 readings of 2 imports are missing: restore a backup.']);
      assert.equal(await readingsShown(again), 0);
    }
    await again.goto(`${bench.address}#/shift`);
    await again.getByLabel('Backup to restore').setInputFiles(backup);
    await again.getByRole('button', { name: 'Put it in place' }).click();
    await until(() => readingsShown(again), 2000, 'readings shown');
    await expectWhole(bench, again, kept);
    assert.deepEqual(await alertsOf(again), []);
    await own.close();
  });
});

const REFUSALS = [
  `IDBFactory.prototype.open = () => { throw new DOMException('Denied', 'SecurityError'); }`,
  `Object.defineProperty(globalThis, 'indexedDB', { value: undefined })`,
];

test('a page without storage works, and says that nothing will be kept', async (context) => {
  await faultRuns(context, 'F19 storage refused', REFUSALS.length, async ({ number }) => {
    const own = await browser.newContext({ serviceWorkers: 'block' });
    await patchWorker(own, REFUSALS[number - 1]!);
    const { bench, page } = await OwnBench.begin(own, inject('baseUrl'));
    await page
      .getByText(/nothing will be kept/)
      .first()
      .waitFor();
    await bringIn(page, logs.log(500));
    await page
      .getByText(/nothing will be kept/)
      .first()
      .waitFor();
    assert.deepEqual(bench.faults, []);
    await page.reload();
    await page.locator('header').getByText('Tern Lane').waitFor();
    await own.close();
  });
});

test('the bench is kept where it can be', async () => {
  const { bench, page } = await beginBench(browser, inject('baseUrl'));
  await bringIn(page, logs.log(10));
  await page.getByText('Every change is kept in this browser').waitFor();
  assert.deepEqual(bench.faults, []);
});
