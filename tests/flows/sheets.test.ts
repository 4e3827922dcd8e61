import { describe, expect, test } from 'vitest';
import { CAUTIONS } from '../../src/ui/cautions.ts';
import { pdfPages } from '../support/pdf-text.ts';
import { openForEachTest, violations, type FlowPage } from './flow-page.ts';

let flow: FlowPage;

openForEachTest((opened) => {
  flow = opened;
});

/** The sample's board whose fuse nobody measured, with a meter that reads high. */
const BOARD = 'T-0117';

/** Width of the paper between the sheet's margins of 15 mm, in CSS pixels (96 to the inch). */
const WIDTHS = { A4: 680, Letter: 702 } as const;

/** Each sheet by its address: its element, the pages that it takes, and what it has to say. */
const SHEETS = [
  [
    `#/repairs/${BOARD}/sheet`,
    'bt-sheet-board',
    1,
    [
      /complaint light on but will not start/,
      /Failed: D5 \(shorted\)\. Replaced: D5 and D4\. Not every part that was replaced had failed\./,
      /D5 A ?→ ?K 0\.025 V ▼ shorted 0\.388 V ✓ good/,
      /24V main not read 24\.63 V ✓ pass/,
      /The fuse is good\. not measured ?: F1 was not measured in circuit\./,
      /M2 reads \d\.\d % high against the other meters/,
    ],
  ],
  [
    '#/repairs?sheet=2026-03-10',
    'bt-sheet-shift',
    1,
    [
      /2 boards, 64 readings, 7 out of band\./,
      /T-0116 .*T-0117 /,
      /fail: 7 · pass: 57\. No board had come back\./,
      /M2 ?: 24 readings\. ▲ \d\.\d % high/,
      /shifts-2026-03-tab\.tsv/,
    ],
  ],
  [
    '#/families/HERON-48/sheet',
    'bt-sheet-family',
    2,
    [
      /^HERON-48 Family sheet From 48 repairs\./,
      /Which parts fail\? .*Q1 \d+ \d+ \d+ \d+ \d+ \d+ \d+ \d+ \d+ % \(\d+ to \d+ %\)/,
      /What to probe first\? .* 1\. Q1 D ?→ ?S \d+ \d+ % \d+ %/,
      /no standby light \d+ F1 \d+ %/,
      /46 boards went back, 3 came back by 2026-03-27\./,
      /24V main DC volts 24 V ± 5 % board marking/,
    ],
  ],
  [
    '#/families/HERON-48/kit',
    'bt-sheet-kit',
    1,
    [
      /^Parts kit for HERON-48 Kit list/,
      /The smallest kit that covers at least 90 % of the repairs that needed a part: 11 parts cover 41 of 44, 93 %\./,
      /part repairs that needed it replaced in to stock ☐ BR1 \d+ \d+ \d+ ☐ D1/,
      /as many as suffice for the next 4 weeks with 95 % probability/,
      /Needed now and then, and not in it: Q2 \(2 repairs\) and C1 \(1 repair\)/,
    ],
  ],
] as const;

describe.each(SHEETS)('the sheet %s', (address, element, pages, says) => {
  test.each(['A4', 'Letter'] as const)('is printed alone, black on white, whole, on %s', async (format) => {
    const { page, go, faults } = flow;
    await page.emulateMedia({ colorScheme: 'dark' });
    await go(address);
    await page.locator(element).locator('table').first().waitFor();
    const printed = pdfPages(await page.pdf({ format }));
    expect(printed).toHaveLength(pages);
    const text = printed.join(' ');
    for (const words of says) expect(text).toMatch(words);
    for (const caution of CAUTIONS) expect(text).toContain(caution);
    expect(text).toContain('Local electrical codes and licensed practice come before anything on this sheet.');
    expect(text).not.toMatch(/Bring in logs|Print, or save as PDF|Back to the/);

    await page.emulateMedia({ media: 'print' });
    await page.setViewportSize({ width: WIDTHS[format], height: 900 });
    const seen = await page.evaluate((tag) => {
      const shown = document.querySelector('bt-app')!;
      const place = [...shown.shadowRoot!.querySelectorAll('main > *')][0]!;
      const sheet = place.shadowRoot!.querySelector<HTMLElement>(tag)!;
      return {
        ink: getComputedStyle(sheet).color,
        paper: getComputedStyle(document.body).backgroundColor,
        tooWide: document.documentElement.scrollWidth - document.documentElement.clientWidth,
        top: sheet.getBoundingClientRect().top,
      };
    }, element);
    expect(seen).toEqual({ ink: 'rgb(0, 0, 0)', paper: 'rgb(255, 255, 255)', tooWide: 0, top: 0 });
    expect(faults).toEqual([]);
  });

  test('is accessible on the screen', async () => {
    const { page, go } = flow;
    await go(address);
    await page.locator(element).locator('table').first().waitFor();
    expect(await violations(page)).toEqual([]);
  });
});

test('a family leads to its sheets and back, with the repairs that it was narrowed to', async () => {
  const { page, go } = flow;
  await go('#/families/HERON-48?complaint=no+standby+light');
  await page.getByRole('link', { name: 'Sheet to print', exact: true }).click();
  await page.getByText('From 11 of 48 repairs: those under “no standby light”.').waitFor();
  await page.getByRole('link', { name: 'Kit list to print' }).click();
  await page.getByRole('heading', { name: 'Parts kit for HERON-48' }).waitFor();
  await page.getByRole('link', { name: 'Back to the family' }).click();
  await page.getByText('11 of 48 repairs fit.').waitFor();
});

test('the kit’s list has prices where they are given, their sum, and names the part without one', async () => {
  const { page, go } = flow;
  const parts = ['BR1', 'C1', 'D1', 'D4', 'D5', 'D6', 'F1', 'Q1', 'Q2', 'Q3', 'R1', 'U1', 'U2'];
  const priced = (names: readonly string[]): string => names.map((part) => `price.${part}=1.5`).join('&');
  await go(`#/families/HERON-48/kit?${priced(parts)}`);
  await page.getByText(/^The cheapest kit that covers/).waitFor();
  await page.getByRole('columnheader', { name: 'price of one' }).waitFor();
  await page.getByText('One of each: 16.50').waitFor();
  await go(`#/families/HERON-48/kit?${priced(parts.slice(1))}`);
  await page.getByText(/each part that a repair needed has to have a price: BR1 has none yet/).waitFor();
});
