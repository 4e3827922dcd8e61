import assert from 'node:assert/strict';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, inject, test } from 'vitest';
import { launchChromium } from '../support/chromium-launch.ts';
import { beginBench, bringIn, choose, completeIn, expectWhole, readingsShown } from './bench-page.ts';
import { faultRuns } from './fault-runs.ts';
import { LogFolder, linesOf, type LogFile } from './logs.ts';

const logs = new LogFolder();
let browser: Browser;

beforeAll(async () => {
  browser = await launchChromium();
});

afterAll(async () => {
  await browser.close();
  logs.remove();
});

const ROWS = 2000;
const lines = linesOf(99, ROWS);

/** A first file, a second that holds some of the same, and what the page must say of the second. */
const TWICE: readonly (readonly [first: () => LogFile, second: () => LogFile, added: number, says: RegExp])[] = [
  [() => logs.file('shift.csv', lines, ROWS), () => logs.file('copy.csv', lines, 0), 0, /brought in before as shift\.csv: nothing was added/],
  [() => logs.file('shift.csv', lines, ROWS), () => logs.file('shift.csv', lines, 0), 0, /brought in before: nothing was added/],
  [() => logs.file('shift.csv', lines, ROWS), () => logs.file('shuffled.csv', [...lines].reverse(), 0), 0, /0 taken, 0 set aside, 2,000 known already/],
  [() => logs.file('shift.csv', lines.slice(0, 1286), 1286), () => logs.file('grown.csv', lines, ROWS - 1286), ROWS - 1286, /714 taken, 0 set aside, 1,286 known already/],
  [() => logs.file('shift.csv', lines.slice(0, 1286), 1286), () => logs.file('shift.csv', lines, ROWS - 1286), ROWS - 1286, /714 taken, 0 set aside, 1,286 known already/],
  [() => logs.file('shift.csv', lines.slice(500), ROWS - 500), () => logs.file('early.csv', lines.slice(0, 900), 500), 500, /500 taken, 0 set aside, 400 known already/],
]; // prettier-ignore

test('what is brought in twice is there once, and the page says how much was known', async (context) => {
  await faultRuns(context, 'F11 duplicates', TWICE.length, async ({ number }) => {
    const [first, second, added, says] = TWICE[number - 1]!;
    const { bench, page } = await beginBench(browser, inject('baseUrl'));
    await bringIn(page, first());
    const kept = await completeIn(page);
    const before = (await readingsShown(page))!;
    // The files of a pair may have the same name: the second is written after the first was read.
    await choose(page, second());
    await page.getByRole('region', { name: 'What became of the files brought in last?' }).getByText(says).waitFor();
    await page.reload();
    await page
      .locator('header')
      .getByText(/\d readings?\b/)
      .waitFor();
    await expectWhole(bench, page, kept);
    assert.equal(await readingsShown(page), before + added);
    await bringIn(page, logs.log(10));
    await bench.context.close();
  });
});
