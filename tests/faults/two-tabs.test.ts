import assert from 'node:assert/strict';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, inject, test } from 'vitest';
import { launchChromium } from '../support/chromium-launch.ts';
import { beginBench, bringIn, choose, completeIn, expectWhole, readingsShown, until } from './bench-page.ts';
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

test('two tabs that bring the same file in at once end with one import, and one of them says so', async (context) => {
  const { bench, page } = await beginBench(browser, inject('baseUrl'));
  await bringIn(page, logs.log(500, 'kept.csv'));
  const other = await bench.tab();
  let rows = 500;
  await faultRuns(context, 'F7 two tabs, same file', 10, async ({ random }) => {
    const log = logs.log(30_000);
    const kept = await completeIn(page);
    const second = page.waitForTimeout(random.uniform(0, 10)).then(() => choose(other, log));
    await Promise.all([choose(page, log), second]);
    rows += log.rows;
    for (const tab of [page, other]) {
      await until(() => readingsShown(tab), rows, 'readings shown');
      await tab.getByRole('button', { name: 'Cancel' }).waitFor({ state: 'detached' });
    }
    const saysSo = async (): Promise<number> => {
      const ways = [page, other].map((tab) => tab.getByRole('listitem').filter({ hasText: log.name }).filter({ hasText: 'nothing was added' }).count()); // prettier-ignore
      return (await Promise.all(ways)).reduce((sum, count) => sum + count);
    };
    await until(saysSo, 1, 'tabs that say that the file was there already');
    assert.equal((await expectWhole(bench, page, kept)).length, kept.length + 1);
  });
});

test('a tab that waits for another says what that one does, and goes on after it', async () => {
  const { bench, page } = await beginBench(browser, inject('baseUrl'));
  await page.evaluate(() => {
    const channel = new BroadcastChannel('benchtally news');
    void navigator.locks.request('benchtally writes', async () => {
      const pulse = setInterval(() => { channel.postMessage({ kind: 'busy', what: 'storing night.csv' }); }, 20); // prettier-ignore
      await new Promise((resolve) => { addEventListener('release', resolve); }); // prettier-ignore
      clearInterval(pulse);
    });
  });
  const other = await bench.tab();
  await other.close();
  const log = logs.log(100);
  await choose(page, log);
  await page.getByText('Another tab is storing night.csv: this one waits.').waitFor();
  await page.evaluate(() => dispatchEvent(new Event('release')));
  await until(() => readingsShown(page), log.rows, 'readings shown');
  await page.getByText('this one waits').waitFor({ state: 'detached' });
  await expectWhole(bench, page, []);
});
