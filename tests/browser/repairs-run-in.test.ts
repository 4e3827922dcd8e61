import { describe, expect, test } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { decimateTrace, type TraceWindow } from '../../src/charts/trace.ts';
import '../../src/ui/panels/repair-run-in.ts';
import type { RunInLine } from '../../src/ui/panels/repair-answers.ts';
import { all, drawn, rowsOf, show, violations } from './app-page.ts';
import { openRepairs } from './repairs-bench.ts';

const START = Date.UTC(2026, 2, 14, 9, 25);
const times = Float64Array.from({ length: 61 }, (_, at) => START + at * 60_000);
const values = times.map((_, at) => (at === 30 ? 22.1 : 24 - at / 1000));
const whole: TraceWindow = { from: START, to: START + 3_600_000 };

const summary: NonNullable<RunInLine['summary']> = {
  entries: 61,
  blanks: 1,
  length: 3600,
  pause: 60,
  settledAt: 23.948,
  settling: 1860,
  minimum: 22.1,
  maximum: 24,
  longestOutside: 60,
  dropOuts: 0,
  gaps: 2,
  drift: { perHour: -0.06, low: -0.0612, high: -0.0588 },
  ripple: 0.0004,
  pieces: 12,
};
const line: RunInLine = {
  point: '24V main',
  mode: 'DC volts',
  limits: { low: 22.8, high: 25.2 },
  lastDigit: -3,
  summary,
  backwards: 1,
  others: [{ repair: 'T-0083', summary: { ...summary, settledAt: 23.731, dropOuts: 2 } }],
};

async function showRunIn(changes: Partial<RunInLine> = {}) {
  const { session, client } = await openRepairs({
    runIns: () => [{ ...line, ...changes }],
    runInTrace: ([, , , columns, window = whole]) => ({ whole, ...decimateTrace(times, values, window, columns) }),
  });
  const place = await show('bt-repair-run-in', { session, repair: 'T-0131' });
  await expect.poll(() => client.calls.some(({ name }) => name === 'runInTrace')).toBe(true);
  await drawn(place);
  const windows = () => client.calls.filter(({ name }) => name === 'runInTrace').map(({ args }) => args[4] ?? whole);
  return { place, windows };
}

/** The figure's drawing surface. */
function canvasIn(place: Element): HTMLCanvasElement {
  const [figure] = all(place, 'bt-trace-figure');
  return figure!.shadowRoot!.querySelector('canvas')!;
}

describe('<bt-repair-run-in>', () => {
  test('renders', async () => {
    const { place } = await showRunIn();
    expect(rowsOf(place, 'table[aria-label^=Numbers]')).toEqual([
      ['settled at', '23.948 V'],
      ['within 1 % of it', 'after 31 min'],
      ['lowest, highest', '22.100 V, 24.000 V'],
      ['longest time outside', '60 s'],
      ['drop-outs', '0'],
      ['drift', '−60.0 mV an hour (−61.2 mV to −58.8 mV)'],
      ['ripple of the log', '0.4 mV'],
      ['gaps, blanks', '2, 1'],
    ]);
    await expect.element(page.getByText('Its clock jumped back once')).toBeVisible();
  });

  test('is accessible', async () => {
    const { place } = await showRunIn();
    expect(await violations(place)).toEqual([]);
  });
});

test('the drawing holds ink for the band and for the line', async () => {
  const { place } = await showRunIn();
  const canvas = canvasIn(place);
  const { data } = canvas.getContext('2d')!.getImageData(0, 0, canvas.width, canvas.height);
  const colours = new Set<string>();
  for (let at = 0; at < data.length; at += 4) colours.add([data[at], data[at + 1], data[at + 2]].join());
  // --band and --blue of the light theme.
  expect(colours).toContain([0xcf, 0xe3, 0xf1].join());
  expect(colours.size).toBeGreaterThan(4);
});

test('the keys zoom, move and show all again', async () => {
  const { place, windows } = await showRunIn();
  canvasIn(place).focus();
  await userEvent.keyboard('+');
  await drawn(place);
  await userEvent.keyboard('{ArrowRight}');
  await drawn(place);
  await userEvent.keyboard('0');
  await drawn(place);
  const minutes = windows().map((window) => {
    const { from, to } = window as TraceWindow;
    return [(from - START) / 60_000, (to - START) / 60_000];
  });
  expect(minutes).toEqual([
    [0, 60],
    [15, 45],
    [22.5, 52.5],
    [0, 60],
  ]);
});

test('the buttons do the same, and say what is shown', async () => {
  await showRunIn();
  await page.getByRole('button', { name: 'Closer' }).click();
  await expect.element(page.getByText('Shown: 15:00 to 45:00 of 1:00:00.')).toBeVisible();
  await page.getByRole('button', { name: 'All of it' }).click();
  await expect.element(page.getByText('Shown: 0:00 to 1:00:00 of 1:00:00.')).toBeVisible();
});

test('other run-ins of the point stand beside it', async () => {
  const { place } = await showRunIn();
  await page.getByText('1 other run-in of 24V main in the family').click();
  expect(rowsOf(place, 'details table')).toEqual([['T-0083', '23.731 V', '−60.0 mV', '0.4 mV', '2']]);
});

test('a run-in without a number says so', async () => {
  const { session } = await openRepairs({
    runIns: () => [{ point: '24V main', mode: 'DC volts', lastDigit: -3, backwards: 0, others: [] }],
  });
  await show('bt-repair-run-in', { session, repair: 'T-0131' });
  await expect.element(page.getByText('24V main: no entry holds a number and a time.')).toBeVisible();
});
