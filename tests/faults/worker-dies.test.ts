import assert from 'node:assert/strict';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, inject, test } from 'vitest';
import { launchChromium } from '../support/chromium-launch.ts';
import {
  beginBench,
  bringIn,
  choose,
  completeIn,
  expectWhole,
  fateOf,
  readingsShown,
  takeBack,
  until,
  type OwnBench,
} from './bench-page.ts';
import { faultRuns } from './fault-runs.ts';
import { LogFolder } from './logs.ts';

const logs = new LogFolder();
let browser: Browser;
let bench: OwnBench;
let page: Page;

beforeAll(async () => {
  browser = await launchChromium();
  ({ bench, page } = await beginBench(browser, inject('baseUrl')));
  await bringIn(page, logs.log(500, 'kept.csv'));
});

afterAll(async () => {
  await browser.close();
  logs.remove();
});

/** Ways in which the worker ends: without a word, as where the browser takes it away, or by an error that nobody caught. */
const DEATHS = [
  () => {
    close();
  },
  () => {
    setTimeout(() => {
      throw new Error('planted');
    });
  },
];

test('a worker that ends is told of, and what is kept is opened again', async (context) => {
  await faultRuns(context, 'F5 worker ended', 20, async ({ number, random }) => {
    const log = logs.log(number % 5 === 0 ? 230_000 : 40_000);
    const kept = await completeIn(page);
    await choose(page, log);
    await page.waitForTimeout(random.uniform(0, number % 5 === 0 ? 1200 : 350));
    await page.workers()[0]!.evaluate(DEATHS[number % 2]!);
    const sentence = await fateOf(page, -1);
    assert.match(sentence ?? '', /holds the readings stopped.*opened again as it is kept/s);
    bench.forgive('planted');
    const found = await expectWhole(bench, page, kept);
    if (found.length === kept.length) await bringIn(page, log);
    await page.reload();
    await until(() => readingsShown(page), 500 + log.rows, 'readings shown');
    await expectWhole(bench, page, found);
    await takeBack(page, log);
  });
});
