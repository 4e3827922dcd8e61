import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { launchChromium } from '../support/chromium-launch.ts';
import {
  alertsOf,
  beginBench,
  bringIn,
  choose,
  completeIn,
  expectWhole,
  takeBack,
  type OwnBench,
} from './bench-page.ts';
import { faultRuns } from './fault-runs.ts';
import { LogFolder, type LogFile } from './logs.ts';
import type { StoredImport } from './stored.ts';

const logs = new LogFolder();
let browser: Browser;
let bench: OwnBench;
let page: Page;
/** Two sizes: one import is stored at once, the other in two lots; with what each comes to where nothing disturbs it. */
const undisturbed: { readonly log: LogFile; readonly stored: StoredImport }[] = [];

async function storedAs(log: LogFile): Promise<StoredImport | undefined> {
  return (await completeIn(page)).find(({ file }) => file === log.name);
}

beforeAll(async () => {
  browser = await launchChromium();
  ({ bench, page } = await beginBench(browser, inject('baseUrl')));
  await bringIn(page, logs.log(500, 'kept.csv'));
  for (const log of [logs.log(40_000), logs.log(230_000)]) {
    await bringIn(page, log);
    undisturbed.push({ log, stored: (await storedAs(log))! });
    await takeBack(page, log);
  }
});

afterAll(async () => {
  await browser.close();
  logs.remove();
});

/** A tab dies while it brings a file in; the next one finds the file whole or not at all, says so, and can bring it in. */
async function dieWhileBringingIn(number: number, moment: number, die: (page: Page) => Promise<void>): Promise<void> {
  const { log, stored } = undisturbed[number % 4 === 0 ? 1 : 0]!;
  const kept = await completeIn(page);
  await choose(page, log);
  await new Promise((resolve) => setTimeout(resolve, moment));
  await die(page);
  page = await bench.tab();
  const found = await expectWhole(bench, page, kept);
  if (found.length === kept.length) {
    expect(await alertsOf(page)).toContainEqual(expect.stringContaining(log.name));
    await bringIn(page, log);
  }
  expect(await storedAs(log)).toEqual(stored);
  await takeBack(page, log);
}

test('a tab that is closed while it brings a file in leaves it whole or not at all', async (context) => {
  await faultRuns(context, 'F2 tab closed', 20, async ({ number, random }) => {
    await dieWhileBringingIn(number, random.uniform(20, number % 4 === 0 ? 1500 : 400), async (dying) => {
      await dying.close();
    });
  });
});

test('a tab that crashes while it brings a file in leaves it whole or not at all', async (context) => {
  await faultRuns(context, 'F3 tab crashed', 20, async ({ number, random }) => {
    await dieWhileBringingIn(number, random.uniform(20, number % 4 === 0 ? 1500 : 500), async (dying) => {
      const devtools = await bench.context.newCDPSession(dying);
      const crashed = dying.waitForEvent('crash');
      void devtools.send('Page.crash').catch(() => undefined);
      await crashed;
      await dying.close();
    });
  });
});
