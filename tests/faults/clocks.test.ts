import assert from 'node:assert/strict';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, inject, test } from 'vitest';
import { launchChromium } from '../support/chromium-launch.ts';
import { bringIn, expectWhole, OwnBench, patchWorker } from './bench-page.ts';
import { faultRuns } from './fault-runs.ts';
import { LogFolder, type LogFile } from './logs.ts';
import { readStored, type StoredImport } from './stored.ts';

const logs = new LogFolder();
let browser: Browser;

beforeAll(async () => {
  browser = await launchChromium();
});

afterAll(async () => {
  await browser.close();
  logs.remove();
});

/** A clock that is wrong by so many milliseconds, and after a while by so many. */
function clockOffBy(first: number, then: number): string {
  return `{
    let off = ${first};
    setTimeout(() => { off = ${then}; }, 300);
    const Real = Date;
    globalThis.Date = class extends Real {
      constructor(...given) {
        if (given.length === 0) super(Real.now() + off);
        else super(...given);
      }
      static now() {
        return Real.now() + off;
      }
    };
  }`;
}

const DAY = 86_400_000;
const IN_2038 = Date.UTC(2038, 0, 19, 3, 14, 8) - Date.now();
const CLOCKS: readonly (readonly [number, number])[] = [[-DAY, -DAY], [DAY, DAY], [0, -DAY], [IN_2038, IN_2038]]; // prettier-ignore
/** Two with a clock change between the readings, one an hour and one half an hour long, and two with odd offsets. */
const ZONES = ['America/Los_Angeles', 'Asia/Kolkata', 'Pacific/Chatham', 'Australia/Lord_Howe'];

/** Brings both logs in, one after the other, and opens the bench anew. */
async function storedUnder(given: Parameters<Browser['newContext']>[0], script = ''): Promise<readonly StoredImport[]> {
  const context = await browser.newContext({ ...given, serviceWorkers: 'block' });
  if (script !== '') {
    await context.addInitScript(script);
    await patchWorker(context, script);
  }
  const { bench, page } = await OwnBench.begin(context, inject('baseUrl'));
  for (const log of both) await bringIn(page, log);
  await page.close();
  const again = await bench.tab();
  const found = await expectWhole(bench, again, []);
  assert.deepEqual(
    (await readStored(again)).order,
    both.map(({ name }) => name),
  );
  await bringIn(again, logs.log(10));
  await context.close();
  return found;
}

let both: readonly LogFile[];
let undisturbed: readonly StoredImport[];

beforeAll(async () => {
  const times = [
    '2026-03-08T01:59:59',
    '2026-03-08T02:30:00',
    '2026-04-05T01:45:00',
    '2026-04-05T02:15:00',
    '2026-11-01T01:30:00',
  ];
  const lines = times.map((time) => `${time},T-0001,HERON-48,12V main,live,DC volts,board,12.02,V,M1`);
  both = [logs.log(5000), logs.file('clock-change.csv', lines, lines.length)];
  undisturbed = await storedUnder({});
});

test('whatever the clock says, imports keep their order and their readings', async (context) => {
  await faultRuns(context, 'F10 clock skew and zones', CLOCKS.length, async ({ number }) => {
    assert.deepEqual(await storedUnder({}, clockOffBy(...CLOCKS[number - 1]!)), undisturbed);
  });
});

test('whatever the time zone, the same file gives the same stored readings', async (context) => {
  await faultRuns(context, 'F10 clock skew and zones', 2 * ZONES.length, async ({ number }) => {
    const timezoneId = ZONES[(number - 1) % ZONES.length]!;
    const clock = number <= ZONES.length ? '' : clockOffBy(Date.UTC(2026, 2, 8, 10) - Date.now(), 0);
    assert.deepEqual(await storedUnder({ timezoneId }, clock), undisturbed);
  });
});
