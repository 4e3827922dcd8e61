import assert from 'node:assert/strict';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, inject, test } from 'vitest';
import { launchChromium } from '../support/chromium-launch.ts';
import { alertsOf, beginBench, bringIn, choose, completeIn, expectWhole, fateOf, readingsShown } from './bench-page.ts';
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

const TROUBLES = ['frozen', 'frozen', 'memory', 'memory', 'throttled', 'throttled'] as const;

test('a tab that is frozen, short of memory or slow brings its file in all the same', async (context) => {
  const { bench, page } = await beginBench(browser, inject('baseUrl'));
  await bringIn(page, logs.log(500));
  const devtools = await bench.context.newCDPSession(page);
  await faultRuns(context, 'F18 frozen, short of memory, slow', TROUBLES.length, async ({ number, random }) => {
    const trouble = TROUBLES[number - 1]!;
    const log = logs.log(100_000);
    const kept = await completeIn(page);
    const wanted = (await readingsShown(page))! + log.rows;
    if (trouble === 'throttled') await devtools.send('Emulation.setCPUThrottlingRate', { rate: 6 });
    await choose(page, log);
    await page.waitForTimeout(random.uniform(0, 300));
    if (trouble === 'frozen') {
      await devtools.send('Page.setWebLifecycleState', { state: 'frozen' });
      // Another tab, opened meanwhile, must not take the import for interrupted.
      const other = await bench.tab();
      await other.waitForTimeout(5000);
      assert.deepEqual(await alertsOf(other), []);
      await other.close();
      await devtools.send('Page.setWebLifecycleState', { state: 'active' });
    }
    if (trouble === 'memory') await devtools.send('Memory.simulatePressureNotification', { level: 'critical' });
    assert.equal(await fateOf(page, wanted), undefined);
    await devtools.send('Emulation.setCPUThrottlingRate', { rate: 1 });
    assert.equal((await expectWhole(bench, page, kept)).length, kept.length + 1);
  });
});
