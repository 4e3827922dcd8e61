import { afterEach, describe, expect, test, vi } from 'vitest';
import type { FigureFrame } from '../../src/ui/charts/figure-frame.ts';
import '../../src/ui/charts/figure-frame.ts';
import '../../src/ui/charts/curve-chart.ts';
import { all, drawn, rowsOf, show, textOf, violations } from './app-page.ts';
import { eventually } from '../support/eventually.ts';

const table = {
  caption: 'Parts',
  columns: [{ title: 'part' }, { title: 'share', number: true }],
  rows: [
    [
      { text: 'Q1', href: '#/readings' },
      { text: '36 %', value: 0.36 },
    ],
    ['D3', { text: 'too few' }],
  ],
};

async function showFrame(properties: Partial<FigureFrame> = {}): Promise<FigureFrame> {
  const frame = await show('bt-figure-frame', {
    question: 'Which parts fail?',
    sentence: '88 repairs.',
    table,
    file: 'HERON-48',
    ...properties,
  });
  const chart = document.createElement('bt-curve-chart');
  Object.assign(chart, { about: 'A curve', points: [{ cost: 1, share: 1, name: 'one', sentence: 'One.' }] });
  frame.append(chart);
  await drawn(chart);
  return frame;
}

/** What is handed over as a file, instead of a download. */
async function saved(press: () => void): Promise<{ readonly name: string; readonly text: string }> {
  const click = vi.spyOn(HTMLAnchorElement.prototype, 'click').mockImplementation(() => undefined);
  const create = vi.spyOn(URL, 'createObjectURL');
  press();
  const blob = create.mock.calls[0]?.[0] as Blob;
  const link = click.mock.contexts[0] as HTMLAnchorElement;
  return { name: link.download, text: await blob.text() };
}

afterEach(() => {
  vi.restoreAllMocks();
});

describe('<bt-figure-frame>', () => {
  test('renders', async () => {
    const frame = await showFrame();
    expect(textOf(frame, 'h2')).toBe('Which parts fail?');
    expect(rowsOf(frame, 'table')).toEqual([
      ['Q1', '36 %'],
      ['D3', 'too few'],
    ]);
    expect(all(frame, 'th a')[0]?.getAttribute('href')).toBe('#/readings');
  });

  test('is accessible', async () => {
    expect(await violations(await showFrame())).toEqual([]);
    expect(await violations(await showFrame({ folded: true }))).toEqual([]);
  });

  test('saves its chart as SVG, with what makes it look so', async () => {
    const frame = await showFrame();
    const { name, text } = await saved(() => all(frame, 'button')[0]?.click());
    expect(name).toBe('HERON-48 Which parts fail_.svg');
    expect(text).toMatch(/^<svg .*stroke="rgb/s);
  });

  test('saves its table as CSV', async () => {
    const frame = await showFrame();
    const { name, text } = await saved(() => all(frame, 'button')[1]?.click());
    expect(name).toBe('HERON-48 Which parts fail.csv');
    expect(text).toBe('part,share\r\nQ1,0.36\r\nD3,too few\r\n');
  });

  test('says what there is to say in place of a chart, and keeps the numbers', async () => {
    const frame = await showFrame({ instead: '9 repairs: too few repairs to say, it takes 10.' });
    expect(textOf(frame, 'p')).toContain('too few repairs to say');
    expect(all(frame, 'slot:not([name])')).toHaveLength(0);
    expect(all(frame, 'button').map((button) => button.textContent)).toEqual(['Save as CSV']);
  });

  test('folds a long table below, one action away', async () => {
    const frame = await showFrame({ folded: true });
    const [details] = all(frame, 'details') as unknown as readonly HTMLDetailsElement[];
    expect(all(frame, 'details summary')[0]?.textContent).toBe('The numbers as a table');
    expect(all(frame, 'tbody tr')).toHaveLength(0);
    details!.open = true;
    await eventually(() => {
      expect(all(frame, 'tbody tr').length).toBeGreaterThan(0);
    });
    expect(await violations(frame)).toEqual([]);
  });
});
