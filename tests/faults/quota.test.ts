import assert from 'node:assert/strict';
import type { Browser, BrowserContext } from 'playwright-core';
import { afterAll, beforeAll, inject, test } from 'vitest';
import { launchChromium } from '../support/chromium-launch.ts';
import { bringIn, expectWhole, OwnBench, tryToBringIn } from './bench-page.ts';
import { faultRuns } from './fault-runs.ts';
import { LogFolder, type LogFile } from './logs.ts';

const logs = new LogFolder();
let browser: Browser;

beforeAll(async () => {
  browser = await launchChromium();
});

afterAll(async () => {
  await browser.close();
  logs.remove();
});

/** Limits how much the browser gives the page's origin, as long as the tab that asked for it lives. @returns lifts the limit */
async function limitQuota(context: BrowserContext, quotaSize: number): Promise<() => Promise<void>> {
  const devtools = await context.newCDPSession(await context.newPage());
  const { origin } = new URL(inject('baseUrl'));
  await devtools.send('Storage.overrideQuotaForOrigin', { origin, quotaSize });
  return async () => {
    await devtools.send('Storage.overrideQuotaForOrigin', { origin });
  };
}

const SIZES = [1, 2, 5, 10, 20];

test('a browser without more room keeps a file whole or not at all, and says so', async (testing) => {
  await faultRuns(testing, 'F1 quota', SIZES.length, async ({ number }) => {
    const context = await browser.newContext();
    // Set before the storage is first used: the browser remembers for a while how much room there was.
    const lift = await limitQuota(context, SIZES[number - 1]! * 1_000_000);
    const { bench, page } = await OwnBench.begin(context, inject('baseUrl'));
    await bringIn(page, logs.log(100));
    // The browser lets its limit be overrun for a while, so it takes some files more than the limit holds.
    let log: LogFile;
    let sentence: string | undefined;
    do {
      log = logs.log(100_000);
      sentence = await tryToBringIn(page, log);
    } while (sentence === undefined);
    assert.match(sentence, /The browser gives this page no more room: nothing of this was kept\./);
    await lift();
    await page.close();
    const again = await bench.tab();
    const found = await expectWhole(bench, again, []);
    assert.ok(found.every(({ file }) => file !== log.name));
    await bringIn(again, log);
    await expectWhole(bench, again, found);
    await bench.context.close();
  });
});
