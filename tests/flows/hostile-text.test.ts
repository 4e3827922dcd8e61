import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { launchChromium } from '../support/chromium-launch.ts';
import { HOSTILE_TEXTS, naughtyStrings } from '../support/hostile-texts.ts';
import { openPage, startEmpty } from './flow-page.ts';
import { addressesOf, filesOf, walk } from './walk-places.ts';

let browser: Browser;

beforeAll(async () => {
  browser = await launchChromium();
});

afterAll(() => browser.close());

/** What must never be made of a text: elements, handlers, a changed prototype; and all text that is shown, through every shadow root. */
function inspect(page: Page) {
  return page.evaluate(() => {
    const made: string[] = [];
    const texts: string[] = [];
    const visit = (root: ParentNode): void => {
      for (const element of root.querySelectorAll('*')) {
        if (/^(?:script|img|iframe|object|embed|base|link|meta)$/i.test(element.localName)) made.push(element.outerHTML);
        for (const { name, value } of element.attributes)
          if (name.startsWith('on') || name === 'action' || /^\s*javascript:/i.test(value) && name === 'href') made.push(`${name}=${value}`);
        if (element.shadowRoot) visit(element.shadowRoot);
        for (const node of element.childNodes) if (node.nodeType === Node.TEXT_NODE) texts.push(node.textContent ?? '');
      }
      for (const node of root.childNodes) if (node.nodeType === Node.TEXT_NODE) texts.push(node.textContent ?? '');
    };
    visit(document.querySelector('bt-app')!.shadowRoot!);
    return {
      made,
      text: texts.join('\n'),
      pwned: 'pwned' in window,
      prototype: Reflect.ownKeys(Object.prototype).map(String).sort(),
      stray: Object.keys({}).length,
    };
  }); // prettier-ignore
}

async function bringInAndWalk(texts: readonly string[], visited: readonly string[], fileName: string): Promise<string> {
  const flow = await openPage(browser);
  const { page, choose, faults } = flow;
  const dialogs: string[] = [];
  page.on('dialog', (dialog) => {
    dialogs.push(dialog.message());
    void dialog.dismiss();
  });
  await startEmpty(flow);
  const { prototype } = await inspect(page);
  await choose(...filesOf(texts, fileName));
  const shown: string[] = [];
  const addresses = [...new Set(visited.flatMap(addressesOf))];
  await walk(flow, addresses, async (address) => {
    const { text, ...found } = await inspect(page);
    expect(found, address).toEqual({ made: [], pwned: false, prototype, stray: 0 });
    expect(page.url(), address).toBe(new URL(address, page.url()).href);
    shown.push(text);
  });
  expect(dialogs).toEqual([]);
  expect(faults).toEqual([]);
  await page.context().close();
  return shown.join('\n');
}

test('hostile texts in every column and as a file’s name are shown as text in every place', async () => {
  const shown = await bringInAndWalk(
    HOSTILE_TEXTS,
    HOSTILE_TEXTS.slice(0, 17),
    '<img src=x onerror="window.pwned=1">.csv',
  );
  for (const text of [
    '<img src=x onerror="window.pwned=1">',
    '<script>window.pwned=1</script>',
    '__proto__',
    'constructor',
  ])
    expect(shown).toContain(text);
  expect(shown).toContain('<img src=x onerror="window.pwned=1">.csv');
});

const naughty = naughtyStrings();

// Max Woolf, Big List of Naughty Strings (MIT), where the file is at hand.
test.skipIf(naughty === undefined)(
  'five hundred naughty strings are shown as text in every place',
  async () => {
    const texts = naughty ?? [];
    expect(texts.length).toBeGreaterThan(400);
    const visited = texts.filter((_, at) => at % 45 === 0);
    const shown = await bringInAndWalk(
      texts,
      visited,
      `${texts.find((text) => text.includes('<script')) ?? 'naughty'}.csv`,
    );
    expect(shown).toContain('<script');
  },
  180_000,
);
