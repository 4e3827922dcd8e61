import type { Browser } from 'playwright-core';
import { expect, test } from 'vitest';
import { openForEachTest, openPage, startEmpty, violations, type FlowPage } from './flow-page.ts';

let browser: Browser;
let flow: FlowPage;

openForEachTest((opened, openedIn) => {
  flow = opened;
  browser = openedIn;
});

/** What the grid says of the readings of a rail of the new family. */
async function grid(): Promise<string> {
  await flow.go('#/readings?family=SISKIN-40&point=5V+standby&stage=live');
  const rows = flow.page.getByRole('grid');
  await rows.getByText('5V standby').first().waitFor();
  return rows.innerText();
}

/** The first share of boards in a row of the trial's table, such as `0 of 44`. */
async function stopped(name: RegExp): Promise<string> {
  const text = await flow.page.getByRole('row', { name }).innerText();
  return /\d+ of \d+/.exec(text)?.[0] ?? '';
}

/** The file of all bands, as the page saves it. */
async function savedBands({ page, go }: FlowPage): Promise<string> {
  await go('#/bands');
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save all bands as CSV' }).click();
  const stream = await (await download).createReadStream();
  const pieces: Buffer[] = [];
  for await (const piece of stream) pieces.push(piece as Buffer);
  return Buffer.concat(pieces).toString('utf8');
}

test('bands are proposed for a new family, accepted, judged by, and taken back', async () => {
  const { page, go, faults } = flow;
  expect(await grid()).not.toMatch(/✓\s*pass/);

  await go('#/bands?family=SISKIN-40');
  await page.getByRole('link', { name: 'Propose bands for SISKIN-40' }).click();
  await page.getByRole('heading', { name: 'What should the points of SISKIN-40 read?' }).waitFor();
  // So few boards found none of them well, so each is ticked by itself.
  await page.getByRole('checkbox', { name: 'Tick all well-founded proposals' }).waitFor();
  for (const box of await page.getByRole('checkbox', { name: /^Tick (?!all )/ }).all()) await box.check();
  await page.getByLabel('set by').fill('Tern Lane');
  await page.getByRole('button', { name: /^Accept \d+ ticked bands$/ }).click();
  await page.getByText(/bands of SISKIN-40 set\./).waitFor();
  expect(await page.getByRole('list', { name: 'Verdicts that changed' }).innerText()).toMatch(/no band → ✓ pass: \d+/);
  expect(await violations(page)).toEqual([]);

  expect(await grid()).toMatch(/✓\s*pass/);

  await go('#/bands/check?family=SISKIN-40&point=5V+standby&stage=live&mode=DC+volts');
  await page.getByRole('slider', { name: 'Low limit' }).press('Shift+ArrowRight');
  await page.getByLabel('set by').and(page.getByRole('textbox')).waitFor();
  expect(await page.getByLabel('set by').inputValue()).toBe('Tern Lane');
  await page.getByRole('button', { name: 'Accept' }).click();
  await page.getByRole('button', { name: 'Undo' }).click();
  await page.getByText('Taken back: bands').waitFor();
  expect(await violations(page)).toEqual([]);
  expect(faults).toEqual([]);
});

test('a limit is dragged by the mouse, and the counts beside it follow', async () => {
  const { page, go, faults } = flow;
  await go('#/bands/check?family=HERON-48&point=24V+main&stage=live&mode=DC+volts');
  const handle = page.getByRole('slider', { name: 'High limit' });
  const before = Number(await handle.getAttribute('aria-valuenow'));
  await expect.poll(() => stopped(/^being set/)).toMatch(/^0 of /);
  const { x, y, height } = (await handle.boundingBox())!;
  await page.mouse.move(x + 12, y + height / 2);
  await page.mouse.down();
  await page.mouse.move(x - 400, y + height / 2, { steps: 10 });
  await expect.poll(async () => Number(await handle.getAttribute('aria-valuenow'))).toBeLessThan(before - 0.5);
  await expect.poll(() => stopped(/^being set/)).toMatch(/^[1-9]\d* of /);
  await page.mouse.up();
  expect(await stopped(/^present/)).toMatch(/^0 of /);
  expect(await page.evaluate(() => String(getSelection()))).toBe('');
  expect(faults).toEqual([]);
});

test('fits a screen of 320 px, but for what scrolls by itself', async () => {
  const { page, go } = flow;
  await page.setViewportSize({ width: 320, height: 640 });
  for (const hash of [
    '#/bands/check?family=HERON-48&point=24V+main&stage=live&mode=DC+volts',
    '#/bands/check?family=PLOVER-32&point=bulk&mode=DC+volts',
    '#/bands/proposals?family=SISKIN-40',
    '#/bands/family?family=CURLEW-60',
    '#/bands/meters',
  ]) {
    await go(hash);
    await page.locator('bt-bands-place').getByRole('heading', { level: 1 }).waitFor();
    await flow.settled();
    expect([hash, await page.evaluate(() => document.documentElement.scrollWidth)]).toEqual([hash, 320]);
    expect([hash, ...(await violations(page))]).toEqual([hash]);
  }
});

test('accepted proposals can be undone at once, and the grid is without verdicts again', async () => {
  const { page, go, faults } = flow;
  await go('#/bands/proposals?family=SISKIN-40');
  await page.getByRole('button', { name: /^Accept 5V standby, live/ }).click();
  await page.getByText(/5V standby should read/).waitFor();
  await page.getByRole('button', { name: 'Undo' }).click();
  await page.getByText('Taken back: bands').waitFor();
  const text = await grid();
  expect(text).toMatch(/no band/);
  expect(text).not.toMatch(/✓\s*pass/);
  expect(faults).toEqual([]);
});

test('a family is made from nothing and given a band, and both come back from the saved file', async () => {
  const { page, go, faults } = flow;
  await startEmpty(flow);
  await go('#/bands/family');
  await page.getByLabel('name', { exact: true }).fill('WREN-24');
  await page.getByLabel('Name of point 1').fill('12V main');
  await page.getByRole('button', { name: 'Save the family' }).click();
  await page.getByText('WREN-24 has 1 test point and 0 parts now.').waitFor();
  await go('#/bands/check?family=WREN-24&point=12V+main&stage=live&mode=DC+volts');
  await page.getByRole('button', { name: 'Accept' }).click();
  await page.getByText('12V main should read 12 V ± 5 % now.').waitFor();
  const content = await savedBands(flow);
  expect(content).toContain('WREN-24,no,12V main,main,,,,live,DC volts,percent,,,12,5,V,board marking,');
  const other = await openPage(browser);
  await startEmpty(other);
  await other.choose({ name: 'bands.csv', content });
  await other.go('#/bands');
  const table = other.page.getByRole('table', { name: 'What should each point read?' });
  await table.waitFor();
  expect(await table.innerText()).toMatch(/WREN-24\s+12V main\s+live\s+DC volts\s+12\sV ± 5\s%/);
  await other.page.context().close();
  expect([...faults, ...other.faults]).toEqual([]);
});

test('all bands that are saved and brought in elsewhere are the same there, to the last character', async () => {
  const content = await savedBands(flow);
  expect(content.trim().split(/\r?\n/).length).toBeGreaterThan(100);
  const other = await openPage(browser);
  await startEmpty(other);
  await other.choose({ name: 'bands.csv', content });
  expect(await savedBands(other)).toBe(content);
  await other.page.context().close();
  expect([...flow.faults, ...other.faults]).toEqual([]);
});
