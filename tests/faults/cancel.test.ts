import assert from 'node:assert/strict';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, inject, test } from 'vitest';
import { launchChromium } from '../support/chromium-launch.ts';
import {
  bringIn,
  choose,
  completeIn,
  expectWhole,
  fateOf,
  OwnBench,
  patchWorker,
  readingsShown,
} from './bench-page.ts';
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

/** Presses the button once so much of the file is read, as soon as the page shows that. */
function cancelAt(share: number): void {
  const look = (): void => {
    const strip = document
      .querySelector('bt-app')
      ?.shadowRoot?.querySelector('section[aria-label="Import in progress"]');
    const progress = strip?.querySelector('progress');
    if (progress && progress.value / progress.max >= share) strip?.querySelector('button')?.click();
    else setTimeout(look);
  };
  look();
}

/** Tells when the worker ends the transaction that makes an import complete. */
const TELL_OF_COMMIT = `{
  const { commit } = IDBTransaction.prototype;
  IDBTransaction.prototype.commit = function () {
    if (this.mode === 'readwrite') new BroadcastChannel('commits').postMessage('');
    return commit.call(this);
  };
}`;

function cancelAtCommit(): void {
  new BroadcastChannel('commits').onmessage = () => {
    const strip = document
      .querySelector('bt-app')
      ?.shadowRoot?.querySelector('section[aria-label="Import in progress"]');
    strip?.querySelector('button')?.click();
  };
}

test('a cancelled import stops and leaves nothing, or was complete before', async (testing) => {
  const context = await browser.newContext({ serviceWorkers: 'block' });
  await patchWorker(context, TELL_OF_COMMIT);
  const { bench, page } = await OwnBench.begin(context, inject('baseUrl'));
  await bringIn(page, logs.log(500));
  const moments = [0, 0.01, 0.5, 0.99, 'commit'] as const;
  await faultRuns(testing, 'F12 cancelled', moments.length, async ({ number }) => {
    const moment = moments[number - 1]!;
    const log = logs.log(230_000);
    const kept = await completeIn(page);
    const before = (await readingsShown(page))!;
    if (moment === 'commit') await page.evaluate(cancelAtCommit);
    else await page.evaluate(cancelAt, moment);
    await choose(page, log);
    const sentence = await fateOf(page, before + log.rows);
    const isIn = (await expectWhole(bench, page, kept)).length > kept.length;
    assert.equal(sentence === undefined, isIn, sentence);
    if (sentence !== undefined) {
      assert.match(sentence, /The import was cancelled: its files were left out\./);
      await page.getByRole('button', { name: 'Understood' }).click();
    }
    if (moment !== 'commit' && moment < 0.9) assert.ok(!isIn);
    await page.reload();
    await page
      .locator('header')
      .getByText(/\d readings?\b/)
      .waitFor();
    await expectWhole(bench, page, kept);
    if (!isIn) await bringIn(page, log);
  });
});
