import { appendFileSync, rmSync } from 'node:fs';
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

/** What happens to a file after it was chosen. */
const CHANGES = [
  (path: string): void => { appendFileSync(path, '2026-05-01T09:00:00,T-1,HERON-48,12V main,live,DC volts,board,12.0,V,M1\n'); },
  (path: string): void => { rmSync(path); },
]; // prettier-ignore

test('a file that changes or vanishes before it is read is left out whole, and the page says so', async (context) => {
  const { bench, page } = await beginBench(browser, inject('baseUrl'));
  let rows = 0;
  await faultRuns(context, 'F16 source file changed or gone', 4, async ({ number }) => {
    const large = logs.log(number > 2 ? 230_000 : 60_000);
    const small = logs.log(100);
    const kept = await completeIn(page);
    await choose(page, large, small);
    // Before and after the page has looked at its first lines.
    if (number > 2) await page.waitForTimeout(20);
    CHANGES[number % 2]!(small.path);
    await until(async () => ((await readingsShown(page)) ?? 0) >= rows + large.rows, true, 'the first file is in');
    await page.getByRole('button', { name: 'Cancel' }).waitFor({ state: 'detached' });
    const isRead = (await readingsShown(page)) === rows + large.rows + small.rows;
    // It may have been read whole before it changed; never in part, and never at once.
    if (number <= 2) assert.ok(!isRead);
    if (!isRead) await page.getByRole('listitem').filter({ hasText: small.name }).filter({ hasText: 'could not be read: it was moved, deleted or changed since it was chosen.' }).waitFor(); // prettier-ignore
    assert.equal((await expectWhole(bench, page, kept)).length, kept.length + (isRead ? 2 : 1));
    rows += large.rows + (isRead ? small.rows : 0);
    const again = logs.log(50);
    await bringIn(page, again);
    rows += again.rows;
  });
});
