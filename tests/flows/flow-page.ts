import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, inject } from 'vitest';
import { launchChromium } from '../support/chromium-launch.ts';

/** A file as a test chooses or drops it. */
export interface GivenFile {
  readonly name: string;
  readonly content: string | Uint8Array;
}

/** The page as a technician has it before them, and everything that went wrong behind it. */
export interface FlowPage {
  readonly page: Page;
  /** Errors and warnings of the console, errors that nobody caught, breaches of the page's policy, requests to elsewhere. */
  readonly faults: readonly string[];
  /** Addresses that the page and its worker have asked for so far, apart from what its offline copy fetches. */
  readonly asked: readonly string[];
  /** Goes to a place by its address. */
  readonly go: (hash: string) => Promise<void>;
  /** Waits until every question that the page has asked of its worker is answered, and what was answered is drawn. */
  readonly settled: () => Promise<void>;
  /** Chooses files with the page's button, and waits until they are read. */
  readonly choose: (...files: readonly GivenFile[]) => Promise<void>;
  /** Lets files go over the page, and waits until they are read. */
  readonly drop: (...files: readonly GivenFile[]) => Promise<void>;
}

/**
 * Opens one browser for the tests of a file, and in it the page anew for each of them.
 * @param take - given each test's page before it, and the browser that it is in
 */
export function openForEachTest(take: (flow: FlowPage, browser: Browser) => void | Promise<void>): void {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launchChromium();
  });
  afterAll(() => browser.close());
  beforeEach(async () => {
    const flow = await openPage(browser);
    await take(flow, browser);
    return () => flow.page.context().close();
  });
}

/** Opens the built page in a browser of its own and waits until the sample is there. */
export async function openPage(browser: Browser): Promise<FlowPage> {
  const baseUrl = inject('baseUrl');
  const context = await browser.newContext({ locale: 'en-GB', viewport: { width: 1280, height: 800 } });
  const page = await context.newPage();
  const faults: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') faults.push(message.text());
  });
  page.on('pageerror', (error) => faults.push(error.message));
  const asked: string[] = [];
  context.on('request', (request) => {
    const address = request.url();
    if (request.serviceWorker() === null) asked.push(address);
    if (!address.startsWith(baseUrl) && !/^(?:data|blob):/.test(address)) faults.push(`asked for ${address}`);
  });
  await page.addInitScript(countQuestions);
  await page.addInitScript(() => {
    document.addEventListener('securitypolicyviolation', (event) => {
      console.error(`policy: ${event.violatedDirective} ${event.blockedURI}`);
    });
  });
  await page.goto(baseUrl);
  await page.getByText(/files on the bench:/).waitFor();

  const read = async (): Promise<void> => {
    await page.getByRole('button', { name: 'Cancel' }).waitFor({ state: 'detached' });
  };
  return {
    page,
    faults,
    asked,
    go: async (hash) => {
      await page.goto(`${baseUrl}${hash}`);
    },
    settled: async () => {
      await page.waitForFunction(() => Reflect.get(window, 'openQuestions') === 0);
      // What an answer leads to is asked in the frame that draws it.
      await page.evaluate(() => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve))));
      await page.waitForFunction(() => Reflect.get(window, 'openQuestions') === 0);
      await page.evaluate(() => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve))));
    },
    choose: async (...files) => {
      const input = page.locator('bt-app').locator('input[type=file]').first();
      await input.setInputFiles(files.map(({ name, content }) => ({ name, mimeType: 'text/csv', buffer: Buffer.from(content) }))); // prettier-ignore
      await read();
    },
    drop: async (...files) => {
      const given = files.map(({ name, content }) => ({ name, bytes: [...Buffer.from(content)] }));
      const transfer = await page.evaluateHandle((list) => {
        const data = new DataTransfer();
        for (const { name, bytes } of list) data.items.add(new File([new Uint8Array(bytes)], name));
        return data;
      }, given);
      await page.dispatchEvent('body', 'dragenter', { dataTransfer: transfer });
      await page.getByText('Let go to bring these files in.').waitFor();
      await page.dispatchEvent('body', 'drop', { dataTransfer: transfer });
      await read();
    },
  };
}

/** Begins an empty bench by the page's own action. */
export async function startEmpty({ page }: Pick<FlowPage, 'page'>): Promise<void> {
  await page.getByRole('button', { name: /Start an empty bench/ }).click();
  await page.getByText('This bench').waitFor();
  await page.getByRole('heading', { name: 'Nothing has been brought in yet' }).waitFor();
}

/** The text or name of what has the focus, through every shadow root. */
export function focused(page: Page): Promise<string> {
  return page.evaluate(() => {
    let element = document.activeElement;
    while (element?.shadowRoot?.activeElement) element = element.shadowRoot.activeElement;
    return (
      element?.getAttribute('aria-label') ??
      (element as HTMLInputElement | null)?.labels?.[0]?.textContent ??
      element?.textContent ??
      ''
    ).trim();
  });
}

/** What axe-core finds wrong with the whole page as it stands. */
export async function violations(page: Page): Promise<readonly string[]> {
  await page.evaluate(readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8'));
  return page.evaluate(async () => {
    const { axe } = window as unknown as { axe: typeof import('axe-core') };
    const runOnly = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
    const { violations: found } = await axe.run(document, { runOnly, rules: { 'target-size': { enabled: true } } });
    return found.map(({ id, nodes }) => `${id}: ${nodes.map(({ target }) => target.join(' ')).join('; ')}`);
  });
}

const HEADER = 'time,repair,family,point,stage,mode,reading,unit,meter';

/** A log in the project's own long form; each row is a time of day, a point, a mode, a reading and its unit. */
export function logOf(name: string, ...rows: readonly string[]): GivenFile {
  return { name, content: [HEADER, ...rows, ''].join('\n') };
}

export const BANDS: GivenFile = {
  name: 'bands.csv',
  content: [
    'family,point,mode,kind,low,high,nominal,percent,unit,basis',
    'HERON-48,12V main,DC volts,percent,,,12,5,V,board marking',
    'HERON-48,Q1 D→S,resistance,at least,100,,,,kΩ,common practice',
    '',
  ].join('\n'),
};

/** Runs in the page before its own scripts: keeps `window.openQuestions`, how many calls to the worker wait for their answer. */
function countQuestions(): void {
  const open = new Set<number>();
  const heard = new WeakSet<Worker>();
  Reflect.set(window, 'openQuestions', 0);
  const note = (): void => {
    Reflect.set(window, 'openQuestions', open.size);
  };
  const post = Reflect.get(Worker.prototype, 'postMessage') as (...given: unknown[]) => void;
  Worker.prototype.postMessage = function (this: Worker, ...given: unknown[]) {
    const [message] = given as [{ readonly id?: number; readonly call?: string }];
    if (message.id !== undefined && message.call !== undefined) open.add(message.id);
    if (!heard.has(this)) {
      heard.add(this);
      this.addEventListener(
        'message',
        ({ data }: MessageEvent<{ readonly id?: number; readonly progress?: unknown }>) => {
          if (data.id !== undefined && data.progress === undefined) open.delete(data.id);
          note();
        },
      );
    }
    note();
    post.apply(this, given);
  };
}
