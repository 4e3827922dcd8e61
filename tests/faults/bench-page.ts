import assert from 'node:assert/strict';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { PATIENCE } from '../support/patience.ts';
import type { LogFile } from './logs.ts';
import { readStored, type StoredImport } from './stored.ts';

/** Asks again and again until the answer is the wanted one. @throws Error with the last answer */
export async function until<Answer>(ask: () => Promise<Answer>, wanted: Answer, what: string): Promise<void> {
  const end = performance.now() + PATIENCE;
  for (;;) {
    const answer = await ask();
    if (answer === wanted) return;
    if (performance.now() > end) throw new Error(`${what} should be ${String(wanted)} and stays ${String(answer)}`);
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}

/** A technician's own bench in a browser, whatever becomes of its tabs. */
export class OwnBench {
  readonly context: BrowserContext;
  readonly address: string;
  /** Errors that nobody caught, in tabs and workers, breaches of the page's policy, and requests to elsewhere. */
  readonly faults: string[] = [];

  constructor(context: BrowserContext, address: string) {
    this.context = context;
    this.address = address;
    context.on('weberror', (error) => this.faults.push(error.error().message));
    context.on('console', (message) => {
      if (message.text().startsWith('policy:')) this.faults.push(message.text());
    });
    context.on('request', (request) => {
      if (!request.url().startsWith(address) && !/^(?:data|blob):/.test(request.url()))
        this.faults.push(`asked for ${request.url()}`);
    });
  }

  /** Prepares a context, and an empty bench of the technician's own in it. @returns the bench with its first tab */
  static async begin(
    context: BrowserContext,
    address: string,
  ): Promise<{ readonly bench: OwnBench; readonly page: Page }> {
    await context.addInitScript(() => {
      addEventListener('securitypolicyviolation', (event) => {
        console.error(`policy: ${event.violatedDirective} ${event.blockedURI}`);
      });
      addEventListener('unhandledrejection', (event) => {
        console.error(`policy: nobody caught ${String(event.reason)}`);
      });
    });
    const bench = new OwnBench(context, address);
    const page = await bench.tab();
    // Before the sample is there, the page has no readings either.
    await until(async () => ((await readingsShown(page)) ?? 0) > 0, true, 'that the sample is shown');
    await page.getByRole('button', { name: /Start an empty bench/ }).click();
    await page.getByRole('heading', { name: 'Nothing has been brought in yet' }).waitFor();
    // The head of the page may show the sample's readings for a moment longer.
    await until(() => readingsShown(page), 0, 'readings shown');
    return { bench, page };
  }

  /** Takes note of an error that a test planted. */
  forgive(planted: string): void {
    const at = this.faults.findIndex((fault) => fault.includes(planted));
    if (at >= 0) this.faults.splice(at, 1);
  }

  /** Opens the page in a tab of its own, and waits until it shows a bench. */
  async tab(): Promise<Page> {
    const page = await this.context.newPage();
    page.setDefaultTimeout(PATIENCE);
    await page.goto(this.address);
    await page
      .locator('header')
      .getByText(/\d readings?\b/)
      .waitFor();
    await page.getByRole('button', { name: 'Cancel' }).waitFor({ state: 'detached' });
    return page;
  }
}

/** An own bench in a context of its own. */
export async function beginBench(
  browser: Browser,
  address: string,
): Promise<{ readonly bench: OwnBench; readonly page: Page }> {
  return OwnBench.begin(await browser.newContext({ locale: 'en-GB' }), address);
}

/** The complete imports as they lie in the storage. */
export async function completeIn(page: Page): Promise<readonly StoredImport[]> {
  return (await readStored(page)).imports.filter(({ state }) => state === 'complete');
}

/** Runs a script in the page's worker before its own. The context must have no service worker, which would answer for the network. */
export async function patchWorker(target: Page | BrowserContext, script: string): Promise<void> {
  await target.route(/\/entry-[^/]*\.js$/, async (route) => {
    // A server may close a connection that has been idle just as it is used again.
    const response = await route.fetch({ maxRetries: 3 });
    await route.fulfill({ response, body: `${script};\n${await response.text()}` });
  });
}

/** Chooses files with the page's button. */
export async function choose(page: Page, ...logs: readonly LogFile[]): Promise<void> {
  await page
    .getByRole('banner')
    .getByLabel('Files to bring in')
    .setInputFiles(logs.map(({ path }) => path));
}

/** Brings files in and waits until the page shows their readings. */
export async function bringIn(page: Page, ...logs: readonly LogFile[]): Promise<void> {
  const before = (await readingsShown(page)) ?? NaN;
  const added = sumOf(logs.map(({ rows }) => rows));
  await choose(page, ...logs);
  await until(() => readingsShown(page), before + added, 'readings shown');
  await page.getByRole('button', { name: 'Cancel' }).waitFor({ state: 'detached' });
}

/** Brings a file in. @returns the page's sentence, where it could not be */
export async function tryToBringIn(page: Page, log: LogFile): Promise<string | undefined> {
  const wanted = ((await readingsShown(page)) ?? NaN) + log.rows;
  await choose(page, log);
  return fateOf(page, wanted);
}

/** Waits until so many readings are shown, or a problem is. @returns the problem's sentence */
export async function fateOf(page: Page, wanted: number): Promise<string | undefined> {
  const problem = page.getByRole('region', { name: 'Problem' }).getByRole('alert');
  let sentence: string | undefined;
  const isDecided = async (): Promise<boolean> => {
    sentence = (await problem.allInnerTexts())[0];
    return sentence !== undefined || (await readingsShown(page)) === wanted;
  };
  await until(isDecided, true, 'what becomes of the file');
  await page.getByRole('button', { name: 'Cancel' }).waitFor({ state: 'detached' });
  return sentence;
}

/** Takes an import back by the page's own buttons. */
export async function takeBack(page: Page, { name, rows }: LogFile): Promise<void> {
  const before = (await readingsShown(page)) ?? NaN;
  await page.getByRole('button', { name: `Take back ${name}`, exact: true }).click();
  await page.getByRole('button', { name: 'Take it back' }).click();
  await until(() => readingsShown(page), before - rows, 'readings shown');
}

/** How many readings the head of the page says are on the bench; undefined while it is being opened. */
export async function readingsShown(page: Page): Promise<number | undefined> {
  const shown = /([\d,.]+) readings?/.exec(await page.locator('header').innerText())?.[1];
  return shown === undefined ? undefined : Number(shown.replaceAll(',', ''));
}

/** The sentences that a page shows of what went wrong. */
export async function alertsOf(page: Page): Promise<readonly string[]> {
  return page.getByRole('alert').allInnerTexts();
}

/**
 * What must hold after every fault, checked against the storage itself: what is shown is the sum of the complete imports, each as whole as its
 * ledger says; those of before are what they were; and nothing ended in an error that nobody caught.
 * @param before - the complete imports before the fault
 * @returns the complete imports now
 */
export async function expectWhole(
  bench: OwnBench,
  page: Page,
  before: readonly StoredImport[],
): Promise<readonly StoredImport[]> {
  const { imports, strays } = await readStored(page);
  assert.equal(strays, 0, 'records that belong to no complete import');
  for (const { file, state } of imports) assert.notEqual(state, 'running', `${file} is half stored after reopening`);
  const complete = imports.filter(({ state }) => state === 'complete');
  for (const { file, isSound, rows, chunkRows } of complete) {
    assert.ok(isSound, `${file} is not what its ledger says`);
    assert.equal(sumOf(chunkRows), rows, `${file} has other rows than its ledger says`);
  }
  for (const one of before)
    assert.deepEqual(
      complete.find(({ hash }) => hash === one.hash),
      one,
      `${one.file} changed`,
    );
  await until(() => readingsShown(page), sumOf(complete.map(({ rows }) => rows)), 'readings shown');
  assert.deepEqual(bench.faults, []);
  return complete;
}

function sumOf(numbers: readonly number[]): number {
  return numbers.reduce((sum, number) => sum + number, 0);
}
