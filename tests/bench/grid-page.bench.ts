import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { quantile } from '../../src/statistics/descriptive/quantile.ts';
import { simulateBench } from '../support/bench/simulate.ts';
import { longForm } from '../support/bench/write-logs.ts';
import { launchChromium } from '../support/chromium-launch.ts';
import { serveBuiltPage } from '../support/serve-built-page.ts';
import { timeOfChange, watchFlinging, type Flung } from './grid-page-probe.ts';

const READINGS = 1_000_000;
const ROUNDS = 7;
/** Turns of the wheel: the first half slow, the second fast. */
const TURNS = 400;
const PIXELS = 240;

/** The Readings place of the built page over a million readings that were brought in as a file, by real wheel and pointer. */
export async function run(print: (line: string) => void): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'benchtally-'));
  const { port, close } = await serveBuiltPage('node_modules/.tmp/grid-page', 0);
  const browser = await launchChromium();
  try {
    const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
    await page.goto(`http://127.0.0.1:${port}/`);
    await bringIn(page, writeLog(folder));
    print(`${READINGS} readings; load of this machine in the last minute ${loadavg()[0]!.toFixed(1)}`);
    print(`place opened to first rows ${spread(await rounds(() => open(page)))}`);
    print('from the question to the frame that shows the answer, after another question');
    print(`sort by reading ${spread(await rounds(() => ask(page, 'sort=-reading')))}`);
    print(`sort by point ${spread(await rounds(() => ask(page, 'sort=-point')))}`);
    print(`filter by family ${spread(await rounds(() => ask(page, 'family=CURLEW-60')))}`);
    print(`group by point with medians ${spread(await rounds(() => ask(page, 'group=-point')))}`);
    await ask(page, '');
    const { frames, longestBlank, from, to } = await fling(page);
    print(`flung by the wheel from row ${from} to ${to}: frames ${spread(frames)} · rows blank for ${longestBlank.toFixed(0)} ms at most`);
    print(`heap of the page, its worker apart: ${(await heap(page)).toFixed(1)} MB`);
  } finally {
    await browser.close();
    await close();
    rmSync(folder, { recursive: true });
  }
} // prettier-ignore

/** Writes the readings of the simulated bench as a log in long form. @returns its path */
function writeLog(folder: string): string {
  const { readings } = simulateBench({ seed: 1, repairs: Math.ceil(READINGS / 23), perDay: 12 });
  const path = join(folder, 'million.csv');
  writeFileSync(path, longForm(readings.slice(0, READINGS)));
  return path;
}

async function bringIn(page: Page, path: string): Promise<void> {
  await page.getByRole('button', { name: /Start an empty bench/ }).click();
  await page.getByRole('heading', { name: 'Nothing has been brought in yet' }).waitFor();
  await page.locator('bt-app input[type=file]').first().setInputFiles(path);
  await page.getByText(/1,000,000 readings/).first().waitFor({ timeout: 300_000 }); // prettier-ignore
  await page.getByRole('button', { name: 'Cancel' }).waitFor({ state: 'detached', timeout: 300_000 });
}

async function rounds(measure: () => Promise<number>): Promise<readonly number[]> {
  const times: number[] = [];
  for (let round = 0; round < ROUNDS; round += 1) times.push(await measure());
  return times;
}

async function open(page: Page): Promise<number> {
  await page.evaluate(timeOfChange, '#/shift');
  return page.evaluate(timeOfChange, '#/readings');
}

/** From a few readings to those of a query. */
async function ask(page: Page, query: string): Promise<number> {
  await page.evaluate(timeOfChange, '#/readings?repair=T-0001');
  return page.evaluate(timeOfChange, `#/readings${query === '' ? '' : `?${query}`}`);
}

/** Turns the wheel as fast as the page takes it. */
async function fling(page: Page): Promise<Flung & { readonly from: string; readonly to: string }> {
  const place = page.locator('bt-readings-grid .row:not(.pinned)').nth(3);
  const { x, y } = (await place.boundingBox()) ?? { x: NaN, y: NaN };
  await page.mouse.move(x + 200, y);
  const from = await rowAt(page);
  const watched = page.evaluate(watchFlinging);
  for (let turn = 0; turn < TURNS; turn += 1) await page.mouse.wheel(0, PIXELS * (turn < TURNS / 2 ? 1 : 10));
  const to = await rowAt(page);
  await page.evaluate(() => dispatchEvent(new Event('flung')));
  return { ...(await watched), from, to };
}

async function rowAt(page: Page): Promise<string> {
  return (await page.locator('bt-readings-grid .row:not(.current)').nth(3).getAttribute('aria-rowindex')) ?? '';
}

/** Bytes in use once what is not used has been collected, in MB. */
async function heap(page: Page): Promise<number> {
  const session = await page.context().newCDPSession(page);
  await session.send('HeapProfiler.collectGarbage');
  const { usedSize } = await session.send('Runtime.getHeapUsage');
  return usedSize / 1e6;
}

function spread(times: readonly number[]): string {
  const at = (share: number): string => quantile(times, share).toFixed(1);
  return `${at(0.5)} ms at the median, ${at(0.95)} at the 95th percentile, ${at(1)} at most`;
}
