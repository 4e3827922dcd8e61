import type { Browser, Locator } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { launchChromium } from '../support/chromium-launch.ts';
import { logOf, openPage, startEmpty, violations, type FlowPage } from './flow-page.ts';

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

/** All that an element shows, with single spaces. */
async function textIn(element: Locator): Promise<string> {
  const texts = await element.evaluate((host) =>
    [...host.shadowRoot!.children].map((child) => (child instanceof HTMLElement ? child.innerText : '')),
  );
  return texts.join(' ').replaceAll(/\s+/g, ' ');
}

/** The sample's board whose fuse nobody measured, with a meter that reads high. */
const BOARD = 'T-0117';

describe('whether a board may go back', () => {
  test('a line is overruled with a reason, which is kept, printed, and taken back', async () => {
    const { page, go, faults } = flow;
    await go(`#/repairs/${BOARD}`);
    await page.getByText('Not yet: 1 line does not hold, 1 was not measured.').waitFor();
    await page.getByRole('button', { name: 'Overrule: The fuse is good.' }).click();
    await page.keyboard.type('the board draws current, so it conducts');
    await page.keyboard.press('Enter');
    await page.getByText('Not yet: 1 line does not hold.').waitFor();
    await page.getByRole('link', { name: 'Sheet to print' }).click();
    await page.getByText('Overruled: the board draws current, so it conducts').waitFor();
    await page.goBack();
    await page.getByRole('button', { name: 'Take back: The fuse is good.' }).click();
    await page.getByText('Not yet: 1 line does not hold, 1 was not measured.').waitFor();
    expect(faults).toEqual([]);
  });

  test('a board brought in with odd data shows it as found', async () => {
    const { page, go, choose } = flow;
    await startEmpty(flow);
    await choose(
      logOf(
        'odd.csv',
        '2026-03-14 09:10,T-1,WREN-19,Q1 D→S,refitted,resistance,250.1,kΩ,M1',
        '2026-03-14 09:20,T-1,WREN-19,Q1 D→S,part out,resistance,0.4,Ω,M1',
        '2026-03-14 09:05,T-1,WREN-19,D1 A→K,as received,diode,0.41,V,M1',
        '2026-03-14 09:20,T-1,WREN-19,D2 A→K,part out,diode,0.42,V,M2',
      ),
    );
    await go('#/repairs/T-1');
    const found = page.getByRole('region', { name: 'What stands out?' });
    await found.getByText(/^As found: Nobody has declared the family WREN-19/).waitFor();
    await found.getByText('Q1 reads as refitted before it came out').waitFor();
    await found.getByText('M1 and M2 read at the same moment, once').waitFor();
    await found.getByText('In odd.csv, 2 readings have an earlier line').waitFor();
  });

  test('the time to discharge is told from what is typed, with the caution', async () => {
    const { page, go } = flow;
    await go(`#/repairs/${BOARD}`);
    await page.getByLabel('Capacitance').fill('470');
    await page.getByLabel('Bleeder').fill('100');
    await page.getByLabel('Charged to').fill('400');
    // 400 V to 60 V through 100 kΩ from 470 µF: 89.16 s by t = RC·ln(V₀/V).
    await page.getByText('About 89 s from 400 V to 60 V d.c., if the bleeder is whole.').waitFor();
    await page.getByText('Only a measurement counts.').waitFor();
    await go('#/repairs/T-0003');
    await page.getByRole('heading', { name: 'T-0003' }).waitFor();
    expect(await page.getByLabel('Capacitance').inputValue()).toBe('470');
  });
});

describe('a repair by hand', () => {
  test('is added, refused where it cannot be, and linked with its comeback both ways', async () => {
    const { page, go, faults } = flow;
    await go('#/repairs?add');
    await page.getByRole('textbox', { name: 'Repair', exact: true }).fill('T-0200');
    await page.getByLabel('Board family').fill('WREN-19');
    await page.getByLabel('Received').fill('2026-01-03');
    await page.getByLabel('Comeback of').fill('T-0003');
    await page.getByRole('button', { name: 'Keep' }).click();
    await page.getByText('T-0200 was received before T-0003 was returned').waitFor();
    await page.getByLabel('Received').fill('2026-04-02');
    await page.getByRole('button', { name: 'Keep' }).click();
    await page.getByRole('heading', { name: 'T-0200' }).waitFor();
    await page.getByText('Nobody has declared the family WREN-19').waitFor();
    await page.getByRole('link', { name: 'T-0003' }).click();
    await page.getByRole('heading', { name: 'T-0003' }).waitFor();
    await page.getByRole('link', { name: 'T-0200' }).waitFor();
    await go('#/repairs?text=T-0200');
    await page.getByRole('row', { name: /^T-0200 WREN-19/ }).waitFor();
    expect(faults).toEqual([]);
  });
});

describe.each([
  ['A4', `#/repairs/${BOARD}/sheet`, 'bt-sheet-board'],
  ['Letter', `#/repairs/${BOARD}/sheet`, 'bt-sheet-board'],
  ['A4', '#/repairs?sheet=2026-03-10', 'bt-sheet-shift'],
  ['Letter', '#/repairs?sheet=2026-03-10', 'bt-sheet-shift'],
] as const)('on %s the sheet %s', (format, address, element) => {
  test('is printed alone, black on white, whole, on one page', async () => {
    const { page, go, faults } = flow;
    await page.emulateMedia({ colorScheme: 'dark' });
    await go(address);
    await page.locator(element).getByText('Local electrical codes and licensed practice').waitFor();
    const pdf = await page.pdf({ format });
    expect(pdf.subarray(0, 5).toString()).toBe('%PDF-');
    expect(pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)).toHaveLength(1);

    await page.emulateMedia({ media: 'print' });
    // The width of the paper between the sheet's margins of 15 mm, in CSS pixels (96 to the inch).
    await page.setViewportSize({ width: format === 'A4' ? 680 : 702, height: 900 });
    const seen = await page.evaluate((tag) => {
      const shown = document.querySelector('bt-app')!;
      const place = [...shown.shadowRoot!.querySelectorAll('main > *')][0]!;
      const sheet = place.shadowRoot!.querySelector<HTMLElement>(tag)!;
      const style = getComputedStyle(sheet);
      return {
        header: getComputedStyle(shown.shadowRoot!.querySelector('header')!).display,
        controls: getComputedStyle(sheet.shadowRoot!.querySelector('.controls')!).display,
        ink: style.color,
        paper: getComputedStyle(document.body).backgroundColor,
        tooWide: document.documentElement.scrollWidth - document.documentElement.clientWidth,
        top: sheet.getBoundingClientRect().top,
      };
    }, element);
    expect(seen).toEqual({
      header: 'none',
      controls: 'none',
      ink: 'rgb(0, 0, 0)',
      paper: 'rgb(255, 255, 255)',
      tooWide: 0,
      top: 0,
    });
    expect(faults).toEqual([]);
  });
});

test('the board’s sheet says what the customer asked, what was found and replaced, and how it reads now', async () => {
  const { page, go } = flow;
  await go(`#/repairs/${BOARD}/sheet`);
  const sheet = page.locator('bt-sheet-board');
  await sheet.getByText('Repair sheet').waitFor();
  const text = await textIn(sheet);
  expect(text).toContain('complaint light on but will not start');
  expect(text).toContain('Failed: D5 (shorted). Replaced: D5 and D4. Not every part that was replaced had failed.');
  expect(text).toMatch(/D5 A→K 0\.025 V ▼ shorted 0\.388 V ✓ good/);
  expect(text).toMatch(/24V main not read 24\.63 V ✓ pass/);
  expect(text).toContain('The bulk capacitor holds a lethal charge after mains is off.');
  expect(await violations(page)).toEqual([]);
});

test('the shift’s sheet says which boards, verdicts, meters and set-aside rows a day held', async () => {
  const { page, go } = flow;
  await go('#/repairs');
  await page.getByRole('link', { name: 'Shift summary to print' }).click();
  await page.getByLabel('Day').fill('2026-03-10');
  const sheet = page.locator('bt-sheet-shift');
  await sheet.getByText('2 boards, 64 readings, 7 out of band.').waitFor();
  const text = await textIn(sheet);
  expect(text).toMatch(/T-0116 .*T-0117 /);
  expect(text).toMatch(/M2: 24 readings\. ▲ \d\.\d % high/);
  expect(text).toContain('shifts-2026-03-tab.tsv');
  expect(await violations(page)).toEqual([]);
});
