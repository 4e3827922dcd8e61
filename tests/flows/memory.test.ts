import { existsSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { describe, expect, inject, test } from 'vitest';
import { openForEachTest, startEmpty, type FlowPage } from './flow-page.ts';

const LOG = [
  'time,repair,family,point,stage,mode,specimen,reading,unit,meter',
  '2026-04-01T09:00:00,T-0501,HERON-48,5V standby,live,DC volts,board,5.02,V,M1',
  '2026-04-01T09:02:00,T-0501,HERON-48,backlight,live,DC volts,board,121.6,V,M1',
  '',
].join('\n');
const file = { name: 'april.csv', content: LOG };

let browser: Browser;
let flow: FlowPage;

openForEachTest((opened, openedIn) => {
  flow = opened;
  browser = openedIn;
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
    await expect.poll(() => head(page)).toContain('2 readings');
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
    await expect.poll(() => page.evaluate(() => localStorage.getItem('benchtally ledger'))).toContain('"rows":2');
    await page.close();
    const session = await context.newPage();
    const devtools = await context.newCDPSession(session);
    const origin = inject('baseUrl').replace(/\/$/, '');
    await devtools.send('Storage.clearDataForOrigin', { origin, storageTypes: 'indexeddb' });
    await session.goto(inject('baseUrl'));
    await session.getByText('2 readings of 1 import are missing: restore a backup.').waitFor();
  });

  test('is named in another tab while it is brought in', async () => {
    const { page, choose } = flow;
    await startEmpty({ page });
    await choose(file);
    const other = await page.context().newPage();
    await other.goto(inject('baseUrl'));
    await expect.poll(() => head(other)).toContain('2 readings');
    const rows = Array.from({ length: 500_000 }, (_, row) => `2026-04-02T09:00:00,T-0600,HERON-48,bulk,live,DC volts,board,${380 + row / 1_000_000},V,M1`); // prettier-ignore
    const [header] = LOG.split('\n');
    const chosen = choose({ name: 'shift-07.csv', content: [header, ...rows].join('\n') });
    await other.getByText('Another tab is bringing in shift-07.csv.').waitFor();
    await chosen;
    await other.getByText('Another tab is bringing in shift-07.csv.').waitFor({ state: 'detached' });
    await expect.poll(() => head(other)).toContain('500,002 readings');
  });

  test('is backed up, emptied after asking, restored after showing what will change, and emptied again by one undo', async () => {
    const { page, choose, faults } = flow;
    await startEmpty({ page });
    await choose(file);
    await page.getByText('No backup was saved yet').waitFor();
    await page.getByRole('button', { name: 'Start anew…' }).click();
    await page.getByText('No backup holds all of it: save one first.').waitFor();
    const saving = page.waitForEvent('download');
    await page.evaluate(() => Reflect.deleteProperty(window, 'showSaveFilePicker'));
    await page.getByRole('button', { name: 'Save a backup…' }).last().click();
    const saved = await (await saving).path();
    await page.getByText(/The browser took benchtally .* to its downloads/).waitFor();
    await page.getByText('No backup holds all of it: save one first.').waitFor();
    await page.getByLabel('The backup that was just saved').setInputFiles(saved);
    await page.getByText('The backup was saved and read back whole.').waitFor();
    await page.getByText('The last backup holds all of it.').waitFor();
    await page.getByRole('button', { name: 'Empty this bench' }).click();
    await expect.poll(() => head(page)).toContain('0 readings');
    await page.getByLabel('Backup to restore').setInputFiles(saved);
    await page.getByText(/It holds 2 readings of 1 import/).waitFor();
    await page.getByRole('button', { name: 'Put it in place' }).click();
    await expect.poll(() => head(page)).toContain('2 readings');
    await page.getByRole('button', { name: 'Bring the bench before back' }).click();
    await expect.poll(() => head(page)).toContain('0 readings');
    expect(faults).toEqual([]);
  });

  test('says who changed what and why, also after a reload, and goes back from there', async () => {
    const { page, choose } = flow;
    await startEmpty({ page });
    await choose(file);
    await page.getByLabel('Who works here?').fill('A. Tern');
    await page.getByRole('button', { name: 'Keep the name' }).click();
    await page.getByText('technician A. Tern').waitFor();
    await page.getByRole('button', { name: 'say why' }).click();
    await page.getByRole('textbox', { name: 'why' }).fill('new at the bench');
    await page.getByRole('button', { name: 'Keep', exact: true }).click();
    await page.getByText('“new at the bench”').waitFor();
    await page.reload();
    await page.getByText('“new at the bench”').waitFor();
    await page.getByRole('button', { name: 'Take back: Settings' }).click();
    await page.getByText('taken back:').waitFor();
    await page.reload();
    await page.getByRole('button', { name: 'Do again: Settings' }).click();
    await expect.poll(() => page.getByLabel('Who works here?').inputValue()).toBe('A. Tern');
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

describe.each([
  ['missing', () => { Object.defineProperty(window, 'indexedDB', { value: undefined }); }], // prettier-ignore
  [
    'refused',
    () => {
      const refuse = (): never => {
        throw new DOMException('The user denied permission to access the database.', 'SecurityError');
      };
      Object.defineProperty(IDBFactory.prototype, 'open', { value: refuse });
    },
  ],
] as const)('where storage is %s', (_, withhold) => {
  test('the page works for the visit, and says plainly that nothing will be kept', async () => {
    const context = await browser.newContext({ serviceWorkers: 'block' });
    // The worker opens the storage: what is withheld from it comes before its own text.
    await context.route(/\/assets\/entry.*\.js$/, async (route) => {
      // A server may close a connection that has been idle just as it is used again.
      const response = await route.fetch({ maxRetries: 3 });
      const text = await response.text();
      await route.fulfill({ response, body: `var window = self; (${withhold.toString()})();\n${text}` });
    });
    const page = await context.newPage();
    const faults: string[] = [];
    page.on('pageerror', (error) => faults.push(error.message));
    await page.goto(inject('baseUrl'));
    await page.getByText(/nothing will be kept/).waitFor();
    await startEmpty({ page });
    await page.getByText(/nothing will be kept/).waitFor();
    await page.locator('input[type=file]').first().setInputFiles([{ name: file.name, mimeType: 'text/csv', buffer: Buffer.from(LOG) }]); // prettier-ignore
    await expect.poll(() => head(page)).toContain('2 readings · 1 repair');
    await page.getByText(/nothing will be kept/).waitFor();
    expect(await page.getByText('Every change is kept').count()).toBe(0);
    expect(faults).toEqual([]);
    await context.close();
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
