import assert from 'node:assert/strict';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, inject, test } from 'vitest';
import { launchChromium } from '../support/chromium-launch.ts';
import { bringIn, completeIn, expectWhole, OwnBench, readingsShown, takeBack, until } from './bench-page.ts';
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

test('without a network the page does all that it does with one, and asks nothing of it', async (testing) => {
  await faultRuns(testing, 'F17 offline', 1, async () => {
    const context = await browser.newContext({ acceptDownloads: true });
    // Without file handles the backup goes to the downloads.
    await context.addInitScript(() => Reflect.deleteProperty(globalThis, 'showSaveFilePicker'));
    const { bench, page } = await OwnBench.begin(context, inject('baseUrl'));
    await page.evaluate(async () => {
      await navigator.serviceWorker.ready;
    });
    await page.reload();
    await context.setOffline(true);
    const failed: string[] = [];
    context.on('requestfailed', (request) => {
      const why = request.failure()?.errorText ?? '';
      // The reload breaks off what is still being answered; that asked nothing of the network.
      if (why !== 'net::ERR_ABORTED') failed.push(`${request.url()}: ${why}`);
    });

    await page.reload();
    await page
      .locator('header')
      .getByText(/\d readings?\b/)
      .waitFor();
    if (!(await page.locator('header').innerText()).includes('This bench')) {
      await page.getByRole('button', { name: /Start an empty bench/ }).click();
      await page.getByRole('heading', { name: 'Nothing has been brought in yet' }).waitFor();
    }
    const [first, second] = [logs.log(1200), logs.log(300)];
    await bringIn(page, first);
    await bringIn(page, second);
    const kept = await completeIn(page);
    const download = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save a backup…' }).click();
    const backup = await (await download).path();
    await page.getByLabel('The backup that was just saved').setInputFiles(backup);
    await page.getByText('The backup was saved and read back whole.').waitFor();
    for (const place of ['#/readings', '#/repairs', '#/bands', '#/families', '#/families/HERON-48', '#/shift']) {
      await page.goto(`${bench.address}${place}`);
      await page.getByRole('main').getByRole('heading').first().waitFor();
    }
    await takeBack(page, second);
    await page.getByLabel('Backup to restore').setInputFiles(backup);
    await page.getByRole('button', { name: 'Put it in place' }).click();
    await until(() => readingsShown(page), first.rows + second.rows, 'readings shown');
    const again = await bench.tab();
    await expectWhole(bench, again, kept);
    assert.deepEqual(failed, []);
    await context.close();
  });
});
