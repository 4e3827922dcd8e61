import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { afterEach, describe, expect, test } from 'vitest';
import { logOf, openForEachTest, startEmpty, violations, type FlowPage } from './flow-page.ts';

let flow: FlowPage;

openForEachTest((opened) => {
  flow = opened;
});

afterEach(() => {
  expect(flow.faults).toEqual([]);
});

async function openReadings(query = ''): Promise<Page> {
  const { page, go } = flow;
  await go(`#/readings${query}`);
  await page.locator('bt-readings-grid .row').nth(2).waitFor();
  await page.locator('bt-readings-grid [aria-busy=false]').waitFor();
  return page;
}

const cell = (page: Page, row: number, column: string) =>
  page.locator(`[aria-rowindex="${row + 1}"] > [data-column="${column}"]`);

describe('from a row one action leads', () => {
  const ways = [
    ['repair', 'to its repair', /#\/repairs\/T-0001$/],
    ['point', 'to the band of its point', /#\/bands\/check\?family=HERON-48&point=.+&stage=as\+received&mode=diode$/],
    ['tape', 'to the band of its point', /#\/bands\/check\?family=HERON-48&point=.+&stage=as\+received&mode=diode$/],
    ['origin', 'to the lines of its file', /#\/readings\?file=.+\.csv&sort=line$/],
  ] as const;

  test.each(ways)('from its %s cell by Ctrl and Enter %s', async (column, _, address) => {
    const page = await openReadings();
    await cell(page, 1, column).click();
    await page.keyboard.press('Control+Enter');
    await expect.poll(() => page.url()).toMatch(address);
  });

  test.each(ways)('from its %s cell by Ctrl and a click %s', async (column, _, address) => {
    const page = await openReadings();
    await cell(page, 1, column).click({ modifiers: ['Control'] });
    await expect.poll(() => page.url()).toMatch(address);
  });

  test('to the check itself, which the Bands place opens', async () => {
    const page = await openReadings('?family=HERON-48&point=bulk&stage=live');
    await cell(page, 1, 'reading').click({ modifiers: ['Control'] });
    await page.getByRole('heading', { name: /bulk/ }).first().waitFor();
    expect(page.url()).toContain('#/bands/check?family=HERON-48&point=bulk&stage=live&mode=DC+volts');
  });
});

test('a view kept on an own bench is there after the page is loaded again', async () => {
  const { page, choose } = flow;
  await startEmpty(flow);
  await choose(logOf('shift.csv', '2026-04-01 09:00,T-0501,HERON-48,bulk,live,DC volts,390.1,V,M1'));
  await flow.go('#/readings?point=bulk&sort=-reading&group=family&columns=point+reading');
  await page.getByRole('button', { name: 'views' }).click();
  await page.getByLabel('keep this view as').fill('bulk, highest first');
  await page.keyboard.press('Enter');
  await page.getByText('“bulk, highest first” is kept.').waitFor();
  await flow.go('#/readings');
  await page.reload();
  await page.getByRole('button', { name: 'views' }).click();
  await page.getByRole('link', { name: 'bulk, highest first' }).click();
  expect(page.url()).toContain('#/readings?point=bulk&sort=-reading&group=family&columns=point+reading');
  await page.getByText('point is bulk').waitFor();
});

describe('assistive technology', () => {
  test('is told the grid’s name and size, and of the focused cell its column, its point and what it says', async () => {
    const page = await openReadings('?point=bulk&stage=live');
    await cell(page, 3, 'reading').click();
    const session = await page.context().newCDPSession(page);
    const { nodes } = await session.send('Accessibility.getFullAXTree');
    const named = (role: string) => nodes.filter((node) => node.role?.value === role).map((node) => String(node.name?.value)); // prettier-ignore
    expect(named('grid')).toEqual(['Readings']);
    expect(named('columnheader')).toContain('verdict');
    const focused = nodes.filter(({ role }) => role?.value === 'gridcell').find(({ properties }) => properties?.some(({ name, value }) => name === 'focused' && value.value === true)); // prettier-ignore
    const reading = await cell(page, 3, 'reading').textContent();
    expect(String(focused?.name?.value).replaceAll(/\s+/g, '')).toBe(
      `readingbulk${String(reading).replaceAll(/\s+/g, '')}`,
    );
    const count = /([\d,]+) readings of/.exec((await page.locator('[role=status]').first().textContent()) ?? '')?.[1];
    const rows = await page.locator('[role=grid]').getAttribute('aria-rowcount');
    expect(Number(rows)).toBe(Number(count?.replace(',', '')) + 1);
  });

  const FORCED = 'in forced colours';
  const STATES: Readonly<Record<string, (page: Page) => Promise<void>>> = {
    'with filters and an order': async () => {
      await openReadings('?family=HERON-48&verdict=fail&text=Q1&sort=-reading+repair');
    },
    grouped: async () => {
      await openReadings('?group=point&sort=-margin&columns=point*+reading+tape+margin+ratio');
    },
    'with a reading explained': async (page) => {
      await cell(page, 3, 'reading').dblclick();
      await page.locator('bt-readings-details').waitFor();
    },
    'with a selection': async (page) => {
      await cell(page, 3, 'reading').click();
      await page.keyboard.press('Shift+PageDown');
      await page.getByText('readings selected').waitFor();
    },
    'choosing columns': async (page) => {
      await page.getByRole('button', { name: 'columns' }).click();
    },
    [FORCED]: async (page) => {
      await page.emulateMedia({ forcedColors: 'active' });
    },
    'in the dark': async (page) => {
      await page.emulateMedia({ colorScheme: 'dark' });
    },
    'in letters of twice the size': async (page) => {
      await page.evaluate(() => {
        document.documentElement.style.fontSize = '200%';
      });
    },
  };
  test.each(Object.entries(STATES))('meets no barrier that axe-core knows of %s', async (state, enter) => {
    const page = await openReadings();
    await enter(page);
    const found = await violations(page);
    // Forced colours are the system's own; axe-core reads those of the page.
    expect(found.filter((one) => state !== FORCED || !one.startsWith('color-contrast'))).toEqual([]);
  });
});

describe('in a window of 320 by 640 pixels', () => {
  test('everything but the grid goes into its width, and the page scrolls to what is below', async () => {
    const { page } = flow;
    await page.setViewportSize({ width: 320, height: 640 });
    await openReadings('?family=HERON-48&verdict=fail&text=Q1');
    const sizes = await page.evaluate(() => {
      const { scrollWidth, clientWidth } = document.documentElement;
      return { scrollWidth, clientWidth };
    });
    expect(sizes.scrollWidth).toBe(sizes.clientWidth);
    const box = async (selector: string) =>
      (await page.locator(selector).first().boundingBox()) ?? { y: NaN, height: NaN };
    const asked = await box('bt-readings-place .asked');
    const scroller = await box('bt-readings-grid .scroller');
    const under = await box('bt-readings-grid .under');
    expect(asked.y + asked.height).toBeLessThanOrEqual(scroller.y);
    expect(scroller.height).toBeGreaterThan(150);
    expect(scroller.y + scroller.height).toBeLessThanOrEqual(under.y + 1);
  });

  test('letters set wider by a reader (WCAG 2.2, 1.4.12) are all to be seen', async () => {
    const { page } = flow;
    await page.addInitScript(() => {
      const sheet = new CSSStyleSheet();
      sheet.replaceSync('* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important }'); // prettier-ignore
      const attach = Object.getOwnPropertyDescriptor(Element.prototype, 'attachShadow')
        ?.value as Element['attachShadow'];
      Element.prototype.attachShadow = function (this: Element, init) {
        const root = attach.call(this, init);
        queueMicrotask(() => {
          root.adoptedStyleSheets = [...root.adoptedStyleSheets, sheet];
        });
        return root;
      };
    });
    await page.reload();
    await openReadings();
    const cut = await page.locator('bt-readings-grid .row:nth-of-type(-n + 12) > [role=gridcell]').evaluateAll((cells) =>
      cells
        .filter((one) => !one.matches('[data-column=origin], [data-column=tape]') && one.scrollWidth > one.clientWidth + 1)
        .map((one) => one.textContent.trim()),
    ); // prettier-ignore
    expect(cut).toEqual([]);
  });
});

test('readings that were saved as CSV are the same on an empty bench, in both forms', async () => {
  const { page, choose, go } = flow;
  const save = async (way: string): Promise<string> => {
    await go('#/readings');
    await page.getByRole('button', { name: 'save as CSV', exact: true }).click();
    const download = page.waitForEvent('download');
    await page.getByRole('button', { name: way }).click();
    const content = await readFile(await (await download).path(), 'utf8');
    await page.getByRole('button', { name: 'Done' }).click();
    return content;
  };
  const exact = await save('Save as CSV, exact');
  const guarded = await save('Save for a spreadsheet');
  expect(exact.split('\r\n').length).toBeGreaterThan(1000);
  await startEmpty(flow);
  await choose({ name: 'exact.csv', content: exact });
  expect(await save('Save as CSV, exact')).toBe(exact);
  await choose({ name: 'for a spreadsheet.csv', content: guarded });
  // All of them were known already.
  expect(await save('Save as CSV, exact')).toBe(exact);
});
