import assert from 'node:assert/strict';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, inject, test } from 'vitest';
import { launchChromium } from '../support/chromium-launch.ts';
import { alertsOf, bringIn, choose, completeIn, expectWhole, OwnBench, patchWorker } from './bench-page.ts';
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

/** Makes the page one of the version after this one, whose stores are the same. */
const NEXT_VERSION = `{
  const { open } = IDBFactory.prototype;
  IDBFactory.prototype.open = function (name, version) {
    return open.call(this, name, version === undefined ? version : version + 1);
  };
}`;

async function oldBench(): Promise<{ readonly bench: OwnBench; readonly page: Page }> {
  const context = await browser.newContext({ serviceWorkers: 'block' });
  const { bench, page } = await OwnBench.begin(context, inject('baseUrl'));
  await bringIn(page, logs.log(500));
  return { bench, page };
}

/** Opens the next version of the page; does not wait until it shows a bench. */
async function openNext(bench: OwnBench): Promise<Page> {
  const next = await bench.context.newPage();
  await patchWorker(next, NEXT_VERSION);
  await next.goto(bench.address);
  return next;
}

async function shown(page: Page): Promise<void> {
  await page
    .locator('header')
    .getByText(/\d readings?\b/)
    .waitFor();
}

test('a new version of the page and an old tab never hang each other', async (context) => {
  await faultRuns(context, 'F8 new version, old tab', 12, async ({ number, random }) => {
    const { bench, page } = await oldBench();
    const before = await completeIn(page);
    const log = logs.log(60_000);
    let next: Page;
    if (number % 4 === 0) {
      // An old tab that does nothing says that it is out of date, and keeps nothing more.
      next = await openNext(bench);
      await shown(next);
      await page
        .getByRole('alert')
        .getByText('A newer version of this page is open in another tab: reload this one.')
        .waitFor();
      await choose(page, log);
      await page
        .getByRole('alert')
        .getByText(/newer version/)
        .waitFor();
    } else if (number % 4 === 1) {
      await choose(page, log);
      await page.waitForTimeout(random.uniform(0, 400));
      next = await openNext(bench);
      await shown(next);
      await page
        .getByRole('alert')
        .getByText(/newer version/)
        .waitFor();
    } else if (number % 4 === 2) {
      // A tab of an old program that does not let go.
      await page.close();
      const deaf = await bench.context.newPage();
      await deaf.goto(`${bench.address}offline.js`);
      await deaf.evaluate(
        () =>
          new Promise((resolve) => {
            indexedDB.open('benchtally').onsuccess = resolve;
          }),
      );
      next = await openNext(bench);
      await next
        .getByText('Another tab holds the storage open in an older version: close that tab to go on here.')
        .waitFor();
      await deaf.close();
      await shown(next);
      await next.getByText('close that tab').waitFor({ state: 'detached' });
    } else {
      // The old version again, from a cache, after the new one.
      await page.close();
      next = await openNext(bench);
      await shown(next);
      const late = await bench.tab();
      await late.getByText('A newer version of this page has used the storage: reload this page.').waitFor();
      await late.close();
    }
    const found = await expectWhole(bench, next, before);
    if (found.length === before.length) await bringIn(next, log);
    else assert.equal(found.length, before.length + 1);
    assert.deepEqual(await alertsOf(next), []);
    await expectWhole(bench, next, before);
    await bench.context.close();
  });
});
