import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { openForEachTest, violations, type FlowPage } from './flow-page.ts';

let flow: FlowPage;

openForEachTest((opened) => {
  flow = opened;
});

/** Goes to a family’s page and waits for its figures. */
async function openFamily(family: string, query = ''): Promise<void> {
  await flow.go(`#/families/${family}${query}`);
  await flow.page.getByRole('heading', { name: `Which parts fail in ${family}?` }).waitFor();
}

describe('the families', () => {
  test('lead from the list to one, and from a bar of it to its readings', async () => {
    const { page, go, faults } = flow;
    await go('#/families');
    await page.getByRole('link', { name: 'CURLEW-60' }).click();
    await page.getByRole('heading', { name: 'Which parts fail in CURLEW-60?' }).waitFor();
    await page.getByRole('link', { name: /^D11: / }).first().focus(); // prettier-ignore
    await page.keyboard.press('Enter');
    await page.waitForURL(/#\/readings\?family=CURLEW-60&point=D11/);
    await expect.poll(() => page.getByText(/reading.* of \d+ repairs?, .* out of band/).count()).toBeGreaterThan(0);
    await page.goBack();
    await page.getByRole('heading', { name: 'Which parts fail in CURLEW-60?' }).waitFor();
    expect(faults).toEqual([]);
  });

  test('are printed dark on light from a dark screen', async () => {
    const { page, faults } = flow;
    await page.emulateMedia({ colorScheme: 'dark' });
    await openFamily('HERON-48');
    await page.emulateMedia({ media: 'print' });
    const ink = 'rgb(29, 36, 48)';
    expect(await page.evaluate(() => getComputedStyle(document.body).color)).toBe(ink);
    const name = page.locator('bt-interval-rows text.name').first();
    expect(await name.evaluate((drawn) => getComputedStyle(drawn).fill)).toBe(ink);
    expect(faults).toEqual([]);
  });

  test('are drawn in the system’s own colours where it forces them', async () => {
    const { page, faults } = flow;
    await page.emulateMedia({ forcedColors: 'active', colorScheme: 'dark' });
    await openFamily('HERON-48');
    const fillOf = (selector: string) =>
      page
        .locator(selector)
        .first()
        .evaluate((drawn) => getComputedStyle(drawn).fill);
    const ink = await page.evaluate(() => getComputedStyle(document.body).color);
    for (const words of ['.label', '.tick', '.name']) expect(await fillOf(`bt-interval-rows text${words}`)).toBe(ink);
    expect(await fillOf('bt-steps-chart .area')).not.toBe(ink);
    expect(await fillOf('bt-interval-rows .dot')).not.toBe('rgb(86, 180, 233)');
    expect(faults).toEqual([]);
  });

  test('narrow the page by complaint, keep it in the address, and give it back by Back', async () => {
    const { page, faults } = flow;
    await openFamily('HERON-48');
    await page.getByRole('group', { name: 'Which repairs' }).getByLabel('Complaint').selectOption('no standby light');
    await page.getByText('11 of 48 repairs fit.').waitFor();
    expect(page.url()).toContain('complaint=no+standby+light');
    await page.reload();
    await page.getByText('11 of 48 repairs fit.').waitFor();
    await page.goBack();
    await page.getByText('All 48 repairs.').waitFor();
    expect(faults).toEqual([]);
  });

  test('tell what to probe on the board on the bench', async () => {
    const { page, faults } = flow;
    await openFamily('HERON-48');
    const table = page.getByRole('region', { name: 'Numbers of HERON-48: What to probe first?' });
    await expect.poll(() => table.getByText(/ Q1 /).count()).toBe(1);
    await page.getByRole('group', { name: 'Measured good on it so far' }).getByLabel('Q1', { exact: true }).check();
    await expect.poll(() => table.getByText(/ Q1 /).count()).toBe(0);
    expect(page.url()).toContain('good=Q1');
    expect(faults).toEqual([]);
  });

  test('tell the cheapest kit once each part has its price', async () => {
    const { page, faults } = flow;
    await openFamily('PLOVER-32');
    await page.getByText(/^Prices \(0 of/).click();
    const fields = page.locator('.prices input');
    const count = await fields.count();
    expect(count).toBeGreaterThan(2);
    for (let at = 0; at < count; at++) {
      await fields.nth(at).fill(String(at + 1));
      await page.keyboard.press('Tab');
      await page.getByText(`Prices (${String(at + 1)} of`).waitFor();
    }
    await page.getByText(/The cheapest kit, at \d+\.\d\d, holds/).waitFor();
    expect(faults).toEqual([]);
  });

  test('save a chart and its numbers as files', async () => {
    const { page, faults } = flow;
    await openFamily('HERON-48');
    const [csv] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save as CSV' }).first().click(),
    ]);
    expect(csv.suggestedFilename()).toBe('HERON-48 Which parts fail in HERON-48.csv');
    expect(readFileSync(await csv.path(), 'utf8').split('\r\n')[0]).toMatch(/^part,failed,shorted,leaky,open/);
    const [svg] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save as SVG' }).first().click(),
    ]);
    expect(readFileSync(await svg.path(), 'utf8')).toMatch(/^<svg /);
    expect(faults).toEqual([]);
  });

  test('stand side by side', async () => {
    const { page, faults } = flow;
    await openFamily('HERON-48');
    await page.getByLabel('Show another family beside it').selectOption('CURLEW-60');
    await page.getByRole('heading', { name: 'Which parts fail in CURLEW-60?' }).waitFor();
    await page.getByRole('heading', { name: 'Which parts fail in HERON-48?' }).waitFor();
    expect(await violations(page)).toEqual([]);
    expect(faults).toEqual([]);
  });

  test('name the meter that reads high', async () => {
    const { page, go, faults } = flow;
    await go('#/families');
    await page.getByRole('link', { name: 'Meters', exact: true }).click();
    await page.getByText(/reads 1\.\d\d.% too high, since about 2026-02/).waitFor();
    expect(await violations(page)).toEqual([]);
    expect(faults).toEqual([]);
  });

  test('never show a number that is none', async () => {
    const { page, faults } = flow;
    for (const family of ['PLOVER-32', 'HERON-48', 'CURLEW-60', 'SISKIN-40']) {
      await openFamily(family);
      await page.getByRole('heading', { name: 'What do boards under power read at each point?' }).waitFor();
      expect(await page.locator('main').innerText()).not.toMatch(/NaN|Infinity|undefined/);
      expect([family, ...(await violations(page))]).toEqual([family]);
    }
    expect(faults).toEqual([]);
  });

  test('fit a screen of 320 px, but for tables and charts, which scroll by themselves', async () => {
    const { page } = flow;
    // 1280 px at 400 %: WCAG 2.2, success criterion 1.4.10.
    await page.setViewportSize({ width: 320, height: 640 });
    await openFamily('CURLEW-60');
    await flow.settled();
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(320);
  });
});
