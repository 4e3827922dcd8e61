import { existsSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, inject, test } from 'vitest';
import { launchChromium } from '../support/chromium-launch.ts';
import { openPage, startEmpty, type FlowPage } from './flow-page.ts';

const LOG = [
  'time,repair,family,point,stage,mode,specimen,reading,unit,meter',
  '2026-04-01T09:00:00,T-0501,HERON-48,5V standby,live,DC volts,board,5.02,V,M1',
  '2026-04-01T09:02:00,T-0501,HERON-48,backlight,live,DC volts,board,121.6,V,M1',
  '',
].join('\n');
const file = { name: 'april.csv', content: LOG };

let browser: Browser;
let flow: FlowPage;

beforeAll(async () => {
  browser = await launchChromium();
});

afterAll(() => browser.close());

beforeEach(async () => {
  flow = await openPage(browser);
  return () => flow.page.context().close();
});

/** What the head of the page says of the bench. */
const head = (page: Page): Promise<string> => page.locator('header').innerText();

describe('a bench of one’s own', () => {
  test('is there again after the page was closed, and the sample is not', async () => {
    const { page, choose, faults } = flow;
    await startEmpty({ page });
    await choose(file);
    await expect.poll(() => head(page)).toContain('2 readings · 1 repair');
    const context = page.context();
    await page.close();
    const again = await context.newPage();
    await again.goto(inject('baseUrl'));
    await expect.poll(() => head(again)).toContain('2 readings · 1 repair');
    expect(await head(again)).toContain('This bench');
    await again.getByText('Every change is kept in this browser, on this machine.').waitFor();
    await again.getByText('No backup was saved yet').waitFor();
    expect(faults).toEqual([]);
  });

  test('is read in another way after a reload, from the kept original', async () => {
    const { page, choose } = flow;
    await startEmpty({ page });
    await choose(file);
    await page.getByText('Every change is kept').waitFor();
    await page.reload();
    await page.getByRole('button', { name: 'Change how it was read: april.csv' }).click();
    await page.getByRole('heading', { name: 'How should april.csv be read instead?' }).waitFor();
  });

  test('is seen by another tab as it changes', async () => {
    const { page, choose } = flow;
    await startEmpty({ page });
    const other = await page.context().newPage();
    await other.goto(inject('baseUrl'));
    await choose(file);
    await expect.poll(() => head(page)).toContain('2 readings');
    await other.reload();
    await expect.poll(() => head(other)).toContain('2 readings');
    await page.getByRole('button', { name: /^Take back/ }).first().click(); // prettier-ignore
    await page.getByRole('button', { name: 'Take it back' }).click(); // prettier-ignore
    await expect.poll(() => head(other)).toContain('0 readings');
  });

  test('tells what the browser lost instead of opening the sample as if nothing had been', async () => {
    const { page, choose } = flow;
    await startEmpty({ page });
    await choose(file);
    await page.getByText('Every change is kept').waitFor();
    const context = page.context();
    const ledger = await page.evaluate(() => JSON.stringify(Object.fromEntries(Object.entries(localStorage))));
    expect(ledger).toContain('rows');
    await page.close();
    const session = await context.newPage();
    const devtools = await context.newCDPSession(session);
    const origin = inject('baseUrl').replace(/\/$/, '');
    await devtools.send('Storage.clearDataForOrigin', { origin, storageTypes: 'indexeddb' });
    await session.goto(inject('baseUrl'));
    await session.getByText('2 readings of 1 import are missing: restore a backup.').waitFor();
  });

  test('opens and works without a network after its first visit', async () => {
    const { page } = flow;
    await page.evaluate(async () => {
      await navigator.serviceWorker.ready;
    });
    await page.context().setOffline(true);
    await page.reload();
    await expect.poll(() => head(page)).toMatch(/readings · 1\d\d repairs/);
  });
});

describe('the portable file', () => {
  test('opens from disk, reads a log and keeps it', async () => {
    const path = inject('portablePath');
    expect(existsSync(path)).toBe(true);
    const context = await browser.newContext();
    const page = await context.newPage();
    const faults: string[] = [];
    page.on('console', (message) => {
      if (message.type() === 'error') faults.push(message.text());
    });
    page.on('pageerror', (error) => faults.push(error.message));
    await page.goto(pathToFileURL(path).href);
    await expect.poll(() => head(page)).toMatch(/readings · 1\d\d repairs/);
    await startEmpty({ page });
    await page.locator('input[type=file]').first().setInputFiles([{ name: file.name, mimeType: 'text/csv', buffer: Buffer.from(LOG) }]); // prettier-ignore
    await expect.poll(() => head(page)).toContain('2 readings · 1 repair');
    await page.getByText('Every change is kept').waitFor();
    await page.reload();
    await expect.poll(() => head(page)).toContain('2 readings · 1 repair');
    expect(faults).toEqual([]);
    await context.close();
  });
});
