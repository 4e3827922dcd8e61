import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { focused, openForEachTest, type FlowPage } from './flow-page.ts';

let flow: FlowPage;

openForEachTest((opened) => {
  flow = opened;
});

/** Presses Tab until what has the focus is called so. */
async function tabTo(page: Page, name: RegExp): Promise<string> {
  for (let presses = 0; presses < 60; presses++) {
    await page.keyboard.press('Tab');
    const text = await focused(page);
    if (name.test(text)) return text;
  }
  throw new Error(`Nothing called ${String(name)} is reached by the keyboard.`);
}

test('the keyboard alone goes from the first place to one repair and back', async () => {
  const { page, faults } = flow;
  await tabTo(page, /^Repairs$/);
  await page.keyboard.press('Enter');
  await page.locator('bt-repairs-place').getByRole('table').waitFor();
  const repair = await tabTo(page, /^T-\d{4}$/);
  await page.keyboard.press('Enter');
  await page.getByRole('heading', { level: 1, name: repair }).waitFor();
  await page.goBack();
  await page.getByRole('heading', { level: 1, name: 'Repairs' }).waitFor();
  expect(faults).toEqual([]);
});

test('whatever has the focus by keyboard shows it by a ring of two pixels', async () => {
  const { page } = flow;
  const rings: string[] = [];
  for (;;) {
    await page.keyboard.press('Tab');
    const ring = await page.evaluate(() => {
      let element = document.activeElement;
      while (element?.shadowRoot?.activeElement) element = element.shadowRoot.activeElement;
      if (element === null || element === document.body) return undefined;
      const { outlineStyle, outlineWidth } = getComputedStyle(element);
      return `${outlineStyle} ${outlineWidth}`;
    });
    if (ring === undefined || rings.length > 60) break;
    rings.push(ring);
  }
  // Five places, the empty bench, the files, two ways for each import, and the rest of Shift.
  expect(rings.length).toBeGreaterThan(17);
  expect(new Set(rings)).toEqual(new Set(['solid 2px']));
});

test('a column is ordered by the keyboard, and the list is found in by typing', async () => {
  const { page, go, faults } = flow;
  await go('#/repairs');
  await page.locator('bt-repairs-place').getByRole('table').waitFor();
  await tabTo(page, /^family$/);
  await page.keyboard.press('Space');
  await expect.poll(() => page.url()).toMatch(/sort=family$/);
  expect(await focused(page)).toMatch(/^family/);
  await page.getByRole('searchbox', { name: 'Find' }).focus();
  await page.keyboard.type('plover');
  await expect.poll(() => page.url()).toMatch(/text=plover/);
  expect(faults).toEqual([]);
});
