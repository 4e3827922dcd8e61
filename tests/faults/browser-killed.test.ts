import assert from 'node:assert/strict';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import process from 'node:process';
import { chromium, type Page } from 'playwright-core';
import { afterAll, inject, test } from 'vitest';
import { chromiumArguments, ensureChromium } from '../support/chromium.ts';
import { alertsOf, bringIn, choose, completeIn, expectWhole, OwnBench } from './bench-page.ts';
import { faultRuns } from './fault-runs.ts';
import { LogFolder } from './logs.ts';

const logs = new LogFolder();
const folder = mkdtempSync(join(tmpdir(), 'benchtally-killed-'));

afterAll(() => {
  killAll();
  rmSync(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
  logs.remove();
});

/** Ends every process of the browser that keeps its files in the folder, as the machine does that runs out of memory. */
function killAll(): void {
  for (const pid of readdirSync('/proc').filter((name) => /^\d+$/.test(name))) {
    try {
      if (readFileSync(`/proc/${pid}/cmdline`, 'utf8').includes(folder)) process.kill(Number(pid), 'SIGKILL');
    } catch {
      // It has ended by itself.
    }
  }
}

async function launch() {
  return chromium.launchPersistentContext(folder, {
    executablePath: ensureChromium(),
    args: [...chromiumArguments],
    locale: 'en-GB',
  });
}

/** Opens the browser and the bench in it. */
async function reopen(): Promise<{ readonly bench: OwnBench; readonly page: Page }> {
  const bench = new OwnBench(await launch(), inject('baseUrl'));
  return { bench, page: await bench.tab() };
}

test.skipIf(process.platform !== 'linux')(
  'a browser that is killed while it brings a file in has kept all that it said to have kept',
  async (context) => {
    let { bench, page } = await OwnBench.begin(await launch(), inject('baseUrl'));
    await bringIn(page, logs.log(500));
    let told = 0;
    await faultRuns(context, 'F4 browser killed', 20, async ({ number, random }) => {
      // Half of the kills come right after the page has said that a file is in.
      const said = logs.log(200);
      const log = logs.log(number % 5 === 0 ? 230_000 : 30_000);
      await bringIn(page, said);
      const kept = await completeIn(page);
      let isBegun = false;
      if (number % 2 === 0) {
        await choose(page, log);
        await page.waitForTimeout(random.uniform(0, number % 5 === 0 ? 1200 : 300));
        isBegun = (await page.getByRole('button', { name: 'Cancel' }).count()) > 0;
      }
      killAll();
      await bench.context.close().catch(() => undefined);
      ({ bench, page } = await reopen());
      const found = await expectWhole(bench, page, kept);
      if (number % 2 === 0 && found.length === kept.length) {
        const alerts = await alertsOf(page);
        const isTold = alerts.some((alert) => alert.includes(`Bringing in ${log.name} was interrupted`));
        if (isBegun) assert.ok(isTold, `${log.name} was begun, and the page tells: ${alerts.join(' ')}`);
        if (isTold) told += 1;
        await bringIn(page, log);
      }
    });
    assert.ok(told > 0, 'no run was interrupted');
    await bench.context.close();
  },
  300_000,
);
