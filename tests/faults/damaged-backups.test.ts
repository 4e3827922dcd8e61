import assert from 'node:assert/strict';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, inject, test } from 'vitest';
import { launchChromium } from '../support/chromium-launch.ts';
import { damagedBackups } from '../store/damaged-backups.ts';
import { backupOf } from '../store/backup-file.ts';
import { importOf, state } from '../store/fixtures.ts';
import { beginBench, bringIn, expectWhole } from './bench-page.ts';
import { faultRuns } from './fault-runs.ts';
import { LogFolder } from './logs.ts';
import { readStored } from './stored.ts';

const logs = new LogFolder();
let browser: Browser;

beforeAll(async () => {
  browser = await launchChromium();
});

afterAll(async () => {
  await browser.close();
  logs.remove();
});

test('a damaged backup of every kind is refused with the reason, and the bench stays as it was', async (context) => {
  const edits = [
    { step: 1, at: Date.UTC(2026, 2, 14), changes: state.bands.map((band) => ({ part: 'bands' as const, new: band })) },
  ];
  const sound = await backupOf(state, edits, [await importOf(1, 40), await importOf(2, 30)]);
  const kinds = new Map((await damagedBackups(sound, 20_260_314)).map((one) => [one.damage.replace(/\d+/g, '#'), one]));
  const sample = [...kinds.values()];
  const { bench, page } = await beginBench(browser, inject('baseUrl'));
  await bringIn(page, logs.log(500));
  await page.reload();
  await page.getByText('Every change is kept').waitFor();
  const before = await readStored(page);
  const choose = async (file: Blob): Promise<void> => {
    const buffer = Buffer.from(await file.arrayBuffer());
    await page
      .getByLabel('Backup to restore')
      .setInputFiles({ name: 'bench.backup', mimeType: 'application/octet-stream', buffer });
  };
  await faultRuns(context, 'F9 damaged backup, in the page', sample.length, async ({ number }) => {
    const { damage, file } = sample[number - 1]!;
    await choose(file);
    const refusal = page.getByRole('region', { name: 'What is kept?' }).getByRole('alert');
    await refusal.waitFor();
    assert.match(await refusal.innerText(), /\w.*\.$/s, damage);
    assert.equal(await page.getByRole('button', { name: 'Put it in place' }).count(), 0, damage);
    assert.deepEqual(await readStored(page), before, damage);
    // The refusal goes with the next file that is chosen.
    await choose(sound);
    await page.getByRole('button', { name: 'Leave it' }).click();
    await refusal.waitFor({ state: 'detached' });
  });
  assert.ok(sample.length >= 20, `${sample.length} kinds of damage`);
  await page.reload();
  await expectWhole(bench, page, before.imports);
  await choose(sound);
  await page.getByRole('button', { name: 'Put it in place' }).click();
  await page.locator('header').getByText('70 readings').waitFor();
});
