import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { launchChromium } from '../support/chromium-launch.ts';
import { openPage, startEmpty } from './flow-page.ts';
import { addressesOf, filesOf, walk } from './walk-places.ts';

let browser: Browser;
let server: Server;
let elsewhere: string;
const hits: string[] = [];

beforeAll(async () => {
  server = createServer((request, response) => {
    hits.push(request.url ?? '');
    response.writeHead(200, { 'Access-Control-Allow-Origin': '*', 'Content-Type': 'text/javascript' }).end();
  });
  await new Promise<void>((resolve) => {
    server.listen(0, '127.0.0.1', resolve);
  });
  elsewhere = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  browser = await launchChromium();
});

afterAll(async () => {
  await browser.close();
  server.close();
});

/** Texts that make careless programs ask for an address. */
function textsWith(address: string): readonly string[] {
  return [
    `${address}/plain`,
    `<img src="${address}/img">`,
    `<link rel="prefetch" href="${address}/prefetch">`,
    `<script src="${address}/script"></script>`,
    `url(${address}/style)`,
    `@import "${address}/import";`,
    `=HYPERLINK("${address}/hyperlink","T-1")`,
    `=WEBSERVICE("${address}/webservice")`,
    `=IMAGE("${address}/image")`,
    `![](${address}/markdown)`,
    `javascript:fetch('${address}/fetch')`,
    `//${address.slice(7)}/relative`,
  ];
}

test('nothing that is read makes the page or its worker ask anything of anywhere else', async () => {
  const flow = await openPage(browser);
  const { page, choose, go, faults } = flow;
  await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
  await startEmpty(flow);
  const texts = textsWith(elsewhere);
  await choose(...filesOf(texts, `${elsewhere.replaceAll('/', ':')} <img src="${elsewhere}/name">.csv`));
  await walk(flow, [...new Set(texts.slice(0, 6).flatMap(addressesOf))], () => Promise.resolve());

  await go('#/readings');
  await page.getByRole('grid').getByText('12.02').first().click();
  await page.keyboard.press('Control+a');
  await page.keyboard.press('Control+c');
  await expect.poll(() => page.evaluate(() => navigator.clipboard.readText())).toContain(elsewhere);
  await page.emulateMedia({ media: 'print' });
  await flow.settled();
  await page.emulateMedia({ media: 'screen' });
  expect(hits).toEqual([]);
  expect(faults).toEqual([]);

  // Whatever got into the worker or the page would still find every way out closed.
  const tried = await page.workers()[0]!.evaluate(async (address) => {
    const ways: Record<string, () => unknown> = {
      fetch: () => fetch(`${address}/worker-fetch`),
      import: () => import(/* @vite-ignore */ `${address}/worker-import`),
      cache: async () => (await caches.open('x')).add(`${address}/worker-cache`),
      socket: () => new WebSocket(`${address.replace('http', 'ws')}/worker-socket`),
      source: () => new EventSource(`${address}/worker-source`),
      worker: () => new Promise((resolve, reject) => {
        const worker = new Worker(`${address}/worker-worker`);
        worker.onmessage = resolve;
        worker.onerror = () => { reject(new Error('refused')); };
      }),
    };
    const open: string[] = [];
    for (const [name, way] of Object.entries(ways)) {
      try {
        await way();
        open.push(name);
      } catch {
        // Refused, as it must be.
      }
    }
    return open;
  }, elsewhere); // prettier-ignore
  expect(tried).toEqual([]);
  const fromPage = await page.evaluate(
    (address) => fetch(`${address}/page-fetch`).then(() => 'asked', () => 'refused'), elsewhere); // prettier-ignore
  expect(fromPage).toBe('refused');
  expect(hits).toEqual([]);
  await page.context().close();
});

test('the counter counts a page that does ask', async () => {
  const page = await browser.newPage();
  await page.setContent(`<img src="${elsewhere}/control">`);
  await expect.poll(() => hits).toEqual(['/control']);
  await page.close();
});
