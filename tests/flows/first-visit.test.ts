import { readdirSync } from 'node:fs';
import type { Browser } from 'playwright-core';
import { describe, expect, inject, test } from 'vitest';
import { openForEachTest, startEmpty, violations, type FlowPage } from './flow-page.ts';

let browser: Browser;
let flow: FlowPage;

openForEachTest((opened, openedIn) => {
  flow = opened;
  browser = openedIn;
});

describe('a first visit', () => {
  test('opens on the sample, marked as invented, with rows that add up', async () => {
    const { page, faults } = flow;
    await expect.poll(() => page.getByText('(sample, invented)').isVisible()).toBe(true);
    const counts = await page.locator('header').innerText();
    expect(counts).toMatch(/[1-9],\d{3} readings · 1\d\d repairs/);
    const rows = page.getByRole('table', { name: 'What did each file hold?' }).locator('tbody tr:has(th)');
    const sums = await rows.evaluateAll((list) =>
      list.map((row) =>
        [...row.querySelectorAll('td.number')].map((cell) => Number(cell.textContent.replaceAll(',', ''))),
      ),
    );
    expect(sums).toHaveLength(6);
    for (const [all, taken, aside, known] of sums) expect(all).toBe(taken! + aside! + known!);
    expect(faults).toEqual([]);
  });

  test('shows each place without a fault, and each is accessible', async () => {
    const { page, go, faults } = flow;
    for (const [hash, tag] of [
      ['#/shift', 'bt-shift-place'],
      ['#/readings', 'bt-readings-place'],
      ['#/repairs', 'bt-repairs-place'],
      ['#/repairs/T-0131', 'bt-repair-story'],
      ['#/bands', 'bt-bands-place'],
      ['#/families', 'bt-families-place'],
      ['#/families/HERON-48', 'bt-families-place'],
    ] as const) {
      await go(hash);
      await page.locator(tag).getByRole('heading', { level: 1 }).waitFor();
      await flow.settled();
      expect([hash, ...(await violations(page))]).toEqual([hash]);
    }
    expect(faults).toEqual([]);
  });

  test('judges the sample: a shorted transistor is wrong, a good rail is not', async () => {
    const { page, go } = flow;
    await go('#/repairs');
    await page.getByRole('searchbox', { name: 'Find' }).fill('HERON-48');
    await expect.poll(() => page.getByText(/of \d+ repairs/).isVisible()).toBe(true);
    await page.getByRole('link', { name: /^T-\d{4}$/ }).first().click(); // prettier-ignore
    await page.getByRole('heading', { name: 'What was measured, stage by stage?' }).waitFor();
    await expect.poll(() => page.getByText('✓').count()).toBeGreaterThan(0);
  });

  test('follows the theme of the system', async () => {
    const { page } = flow;
    const ground = () => page.evaluate(() => getComputedStyle(document.body).backgroundColor);
    await page.emulateMedia({ colorScheme: 'light' });
    expect(await ground()).toBe('rgb(251, 250, 246)');
    await page.emulateMedia({ colorScheme: 'dark' });
    expect(await ground()).toBe('rgb(22, 25, 29)');
  });

  test('fits a screen of 320 px, but for tables, which scroll by themselves', async () => {
    const { page, go } = flow;
    // 1280 px at 400 %: WCAG 2.2, success criterion 1.4.10.
    await page.setViewportSize({ width: 320, height: 640 });
    for (const hash of ['#/shift', '#/readings', '#/repairs', '#/repairs/T-0131', '#/bands', '#/families/HERON-48']) {
      await go(hash);
      await page.getByRole('heading', { level: 1 }).waitFor();
      await flow.settled();
      expect([hash, await page.evaluate(() => document.documentElement.scrollWidth)]).toEqual([hash, 320]);
    }
  });

  test('asks nothing of any other machine, and nothing of its own once its parts are there', async () => {
    const { page, go, faults, asked } = flow;
    // The parts that the first view does not need are loaded after it.
    const parts = readdirSync(`${inject('builtPath')}/assets`).filter((name) => name.endsWith('.js'));
    await expect.poll(() => parts.filter((name) => !asked.some((address) => address.endsWith(name)))).toEqual([]);
    await flow.settled();
    const later: string[] = [];
    page.context().on('request', (request) => later.push(request.url()));
    for (const hash of ['#/readings', '#/repairs', '#/bands', '#/families']) await go(hash);
    expect(later.filter((address) => !/\.woff2?$/.test(address))).toEqual([]);
    expect(faults).toEqual([]);
  });
});

test('an empty bench is begun by one action, and the sample can be had back', async () => {
  const { page, go, faults } = flow;
  await startEmpty(flow);
  expect(await page.locator('header').innerText()).toContain('0 readings · 0 repairs');
  expect(await violations(page)).toEqual([]);
  for (const hash of ['#/readings', '#/repairs', '#/bands', '#/families']) {
    await go(hash);
    await page.getByRole('heading', { level: 1 }).waitFor();
    await flow.settled();
    expect([hash, ...(await violations(page))]).toEqual([hash]);
  }
  await go('#/shift');
  await page.getByRole('button', { name: 'open the invented sample' }).click();
  await page.getByText('(sample, invented)').waitFor();
  expect(faults).toEqual([]);
});

test('a part that cannot be loaded says so, and is there when it is tried again', async () => {
  const context = await browser.newContext({ serviceWorkers: 'block' });
  const page = await context.newPage();
  const parts = /(?:readings-place|band-work)-[^/]*\.js$/;
  await context.route(parts, (route) => route.abort());
  await page.goto(`${inject('baseUrl')}#/readings`);
  await page.getByRole('alert').getByText('could not be loaded').waitFor();
  await page.getByRole('heading', { name: 'Readings', level: 1 }).waitFor();
  await page.getByRole('link', { name: 'Bands' }).click();
  await page.getByRole('heading', { level: 1 }).waitFor();
  expect(await page.getByRole('alert').count()).toBe(0);
  await page.goto(`${inject('baseUrl')}#/bands/proposals?family=SISKIN-40`);
  await page.getByText('A part of the page could not be loaded').first().waitFor();
  await context.unroute(parts);
  await page.getByRole('link', { name: 'Readings' }).click();
  // Until Readings is shown, the button is that of the place before.
  await page.getByRole('heading', { name: 'Readings', level: 1 }).waitFor();
  await page.getByRole('button', { name: 'Try again' }).click();
  await page.locator('bt-readings-place').getByRole('heading', { level: 1 }).waitFor();
  await context.close();
});
