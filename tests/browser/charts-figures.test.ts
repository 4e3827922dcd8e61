import { describe, expect, test } from 'vitest';
import { userEvent } from 'vitest/browser';
import type { ChartElement } from '../../src/ui/charts/chart-element.ts';
import '../../src/ui/charts/control-chart.ts';
import '../../src/ui/charts/curve-chart.ts';
import '../../src/ui/charts/interval-rows.ts';
import '../../src/ui/charts/live-rows.ts';
import '../../src/ui/charts/matrix-chart.ts';
import '../../src/ui/charts/steps-chart.ts';
import { all, show, textOf, violations } from './app-page.ts';
import { eventually } from '../support/eventually.ts';

const DAY = 86_400_000;
const href = '#/repairs';
const say = (name: string) => ({ name, sentence: `${name} as a sentence.`, href });
const line = (title: string) => ({ title, label: `${title} label`, sentence: `${title} as a sentence.`, href });

/** Each chart with three marks or more in a row, all of which lead on. */
const CHARTS: readonly (readonly [keyof HTMLElementTagNameMap, object])[] = [
  [
    'bt-interval-rows',
    {
      names: ['here', 'elsewhere'],
      lines: ['Q', 'D', 'F'].map((title) => ({
        ...line(title),
        series: [
          { low: 0.1, middle: 0.3, high: 0.5 },
          title === 'F' ? undefined : { low: 0.2, middle: 0.4, high: 0.6 },
        ],
      })),
    },
  ],
  [
    'bt-matrix-chart',
    {
      rows: ['Q1', 'D3'],
      columns: ['Q1', 'D3', 'F1'],
      entries: [
        [
          { count: 12, ...say('Q1 twelve') },
          { count: 4, framed: true, ...say('both four') },
          { count: 0, ...say('none 0') },
        ],
        [undefined, { count: 7, ...say('D3 seven') }, { count: 1, ...say('one') }],
      ].map((row) =>
        row.map((entry) => entry && { ...entry, name: `${entry.name}: ${entry.count === 0 ? '·' : entry.count}` }),
      ),
    },
  ],
  [
    'bt-steps-chart',
    {
      lines: [
        {
          name: 'HERON-48',
          steps: [5, 15, 26].map((time) => ({
            time,
            share: time / 300,
            limits: { low: 0, high: time / 100 },
            ...say(`day ${time}`),
          })),
        },
        { name: 'all others', steps: [{ time: 4, share: 0.01, limits: undefined, ...say('day 4') }] },
      ],
    },
  ],
  [
    'bt-control-chart',
    {
      samples: [0.1, 0.9, 0.2].map((share, at) => ({
        time: at * 7 * DAY,
        share,
        lower: 0,
        upper: 0.6,
        outside: share > 0.6,
        ...say(`week ${at}`),
      })),
      centre: 0.3,
      change: 7 * DAY,
    },
  ],
  [
    'bt-curve-chart',
    {
      points: [1, 2, 3].map((cost) => ({
        cost,
        share: cost / 3,
        label: `part ${cost}`,
        chosen: cost === 2,
        ...say(`part ${cost}`),
      })),
      across: 'parts',
    },
  ],
  [
    'bt-live-rows',
    {
      lines: ['bulk', '12V main', 'backlight'].map((title) => ({
        ...line(title),
        received: [11.2, 11.9],
        returned: title === 'bulk' ? [] : [12, 12.1],
        limits: title === 'backlight' ? undefined : { low: 11.4, high: 12.6 },
        tickText: String,
      })),
    },
  ],
];

async function showChart(tag: keyof HTMLElementTagNameMap, properties: object): Promise<ChartElement> {
  const chart = (await show(tag, { about: 'A chart', ...properties })) as ChartElement;
  await eventually(() => {
    expect(chart.drawing?.getBoundingClientRect().width).toBeGreaterThan(200);
  });
  return chart;
}

describe.each(CHARTS)('<%s>', (tag, properties) => {
  test('renders', async () => {
    const chart = await showChart(tag, properties);
    expect(all(chart, '.mark').length).toBeGreaterThanOrEqual(3);
    expect(all(chart, '.mark').every((mark) => mark.getAttribute('href') === href)).toBe(true);
    expect(chart.shadowRoot?.innerHTML).not.toMatch(/NaN|Infinity|undefined/);
  });

  test('is accessible', async () => {
    expect(await violations(await showChart(tag, properties))).toEqual([]);
  });

  test('has one mark in the order of Tab, and goes from it by arrows, Home and End, reading out', async () => {
    const chart = await showChart(tag, properties);
    const marks = all(chart, '.mark');
    const at = (): number => marks.indexOf(chart.shadowRoot?.activeElement as HTMLElement);
    expect(textOf(chart, '[role=status]')).toContain('Arrow keys go from mark to mark');
    marks[0]?.focus();
    await userEvent.keyboard('{ArrowRight}');
    await eventually(() => {
      expect(at()).toBe(1);
    });
    expect(textOf(chart, '[role=status]')).toMatch(/as a sentence\. Readings$/);
    await userEvent.keyboard('{End}');
    await eventually(() => {
      expect(at()).toBe(marks.length - 1);
    });
    await userEvent.keyboard('{Home}');
    await eventually(() => {
      expect(at()).toBe(0);
    });
    expect(all(chart, '.mark[tabindex="0"]')).toHaveLength(1);
  });

  test('is drawn smaller, not cut, where paper leaves it less room than the screen did', async () => {
    const { drawing, shadowRoot } = await showChart(tag, properties);
    drawing?.style.setProperty('min-inline-size', '0');
    drawing?.style.setProperty('inline-size', '50%');
    const edge = drawing?.getBoundingClientRect().right ?? 0;
    const ends = [...(shadowRoot?.querySelectorAll('.plot text, .plot .target') ?? [])].map(
      (mark) => mark.getBoundingClientRect().right,
    );
    expect(ends.length).toBeGreaterThanOrEqual(3);
    expect(Math.max(...ends)).toBeLessThanOrEqual(edge + 1);
  });

  test('is drawn for a sheet of paper while it is printed, and for the screen again after', async () => {
    const chart = await showChart(tag, properties);
    const drawn = () => chart.drawing?.viewBox.baseVal.width;
    chart.style.display = 'block';
    chart.style.inlineSize = '1500px';
    await eventually(() => {
      expect(drawn()).toBe(1500);
    });
    window.dispatchEvent(new Event('beforeprint'));
    expect(drawn()).toBe(680);
    window.dispatchEvent(new Event('afterprint'));
    await eventually(() => {
      expect(drawn()).toBe(1500);
    });
  });

  test('draws nothing wrong where there is nothing to draw', async () => {
    const empty = Object.fromEntries(
      Object.entries(properties).map(([name, value]) => [name, Array.isArray(value) ? [] : value]),
    );
    const chart = await showChart(tag, empty);
    expect(all(chart, '.mark')).toHaveLength(0);
    expect(chart.shadowRoot?.innerHTML).not.toMatch(/NaN|Infinity|undefined/);
  });
});

test('a week outside its limits has another shape, not another colour alone', async () => {
  const chart = await showChart(...CHARTS.find(([tag]) => tag === 'bt-control-chart')!);
  expect(all(chart, 'path.outside')).toHaveLength(1);
  expect(all(chart, 'circle.dot')).toHaveLength(2);
});

test('a pair that stands out has a frame', async () => {
  const chart = await showChart(...CHARTS.find(([tag]) => tag === 'bt-matrix-chart')!);
  expect(all(chart, '.frame')).toHaveLength(1);
  expect(all(chart, 'text.count').map((text) => text.textContent)).toEqual(['12', '4', '·', '7', '1']);
});

test('a long name of a row keeps its beginning within the drawing, and is whole in its title', async () => {
  const long = 'goes off after a few minutes, told at length over the counter by its owner, on hold';
  const entries = [[{ count: 1, ...say('x: 1') }], [{ count: 1, ...say('y: 1') }]];
  const rows = [long, 'light on but will not start'];
  const chart = await showChart('bt-matrix-chart', { rows, columns: ['Q1'], entries, nameRoom: 240 });
  // A saved drawing is shown without our typeface.
  chart.style.fontFamily = 'DejaVu Sans, sans-serif';
  const left = chart.shadowRoot!.querySelector('.plot > svg')!.getBoundingClientRect().left;
  const names = all(chart, 'text.name');
  for (const name of names) expect(name.getBoundingClientRect().left).toBeGreaterThanOrEqual(left);
  const shown = names.map((name) => name.lastChild?.textContent);
  expect(shown).toEqual(['goes off after a few minut…', 'light on but will not start']);
  expect(names.map((name) => name.querySelector('title')?.textContent)).toEqual(rows);
});

test('an arrow down in a matrix goes to the cell below', async () => {
  const rows = ['a', 'b'].map((row) => ['x', 'y'].map((column) => ({ count: 1, ...say(`${row}${column}: 1`) })));
  const chart = await showChart('bt-matrix-chart', { rows: ['a', 'b'], columns: ['x', 'y'], entries: rows });
  all(chart, '.mark')[0]?.focus();
  await userEvent.keyboard('{ArrowDown}');
  await eventually(() => {
    expect(chart.shadowRoot?.activeElement?.getAttribute('aria-label')).toBe('bx: 1');
  });
});

test('a mark that is read out leads to its readings and to the repairs that it counts, or to these alone', async () => {
  const told = { count: 3, name: 'Q1: 3', sentence: 'Q1 failed in 3.' };
  const entries = [
    [
      { ...told, href, repairs: '#/repairs?failed=Q1' },
      { ...told, repairs: '#/repairs?failed=D3' },
    ],
  ];
  const chart = await showChart('bt-matrix-chart', { rows: ['a'], columns: ['x', 'y'], entries });
  expect(all(chart, '.mark').map((mark) => mark.getAttribute('href'))).toEqual([href, '#/repairs?failed=D3']);
  const links = () => all(chart, '.readout a').map((link) => [link.textContent, link.getAttribute('href')]);
  all(chart, '.mark')[0]?.focus();
  await eventually(() => {
    expect(links()).toEqual([['Readings', href], ['Repairs', '#/repairs?failed=Q1']]); // prettier-ignore
  });
  expect(await violations(chart)).toEqual([]);
  await userEvent.keyboard('{ArrowRight}');
  await eventually(() => {
    expect(links()).toEqual([['Repairs', '#/repairs?failed=D3']]);
  });
});
