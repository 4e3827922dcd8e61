import { describe, expect, test, vi } from 'vitest';
import { userEvent } from 'vitest/browser';
import type { FamilyPatterns } from '../../src/session/answers.ts';
import type { FailureBars } from '../../src/ui/charts/failure-bars.ts';
import '../../src/ui/charts/failure-bars.ts';
import { patterns } from '../ui/grid/fake-patterns.ts';
import { all, rowsOf, show, textOf, violations } from './app-page.ts';

async function showBars(shown: FamilyPatterns = patterns): Promise<FailureBars> {
  const bars = await show('bt-failure-bars', { patterns: shown });
  await vi.waitFor(() => {
    expect(bars.shadowRoot?.querySelector('.target')?.getBoundingClientRect().width ?? 500).toBeGreaterThan(400);
  });
  return bars;
}

describe('<bt-failure-bars>', () => {
  test('renders', async () => {
    const bars = await showBars();
    expect(textOf(bars, 'h2')).toBe('Which parts fail in HERON-48?');
    expect(all(bars, '.bar .part').map((name) => name.textContent)).toEqual(['F1', 'Q1', 'D3']);
    expect(all(bars, '.bar .label').map((label) => label.textContent)).toEqual([
      '50 · replaced 50',
      '41 + 9 suspected · replaced 58',
      '11 + 3 suspected · replaced 46',
    ]);
  });

  test('is accessible', async () => {
    expect(await violations(await showBars())).toEqual([]);
  });

  test('draws segments as long as their counts', async () => {
    const bars = await showBars();
    const widths = all(bars, '.bar:nth-of-type(1) .segment, .bar .segment').map((segment) => Number(segment.getAttribute('width'))); // prettier-ignore
    const [open = NaN, shorted = NaN, leaky = NaN] = widths;
    expect(shorted / open).toBeCloseTo(30 / 50, 6);
    expect(leaky / open).toBeCloseTo(8 / 50, 6);
  });

  test('has its numbers as a table beside it', async () => {
    const bars = await showBars();
    expect(rowsOf(bars, 'table')).toEqual([
      ['F1', '50', '0', '0', '50', '0', '50', '0', '46 to 67 %'],
      ['Q1', '41', '30', '8', '3', '9', '58', '12', '36 to 57 %'],
      ['D3', '11', '9', '2', '0', '3', '46', '30', '7 to 21 %'],
    ]);
  });

  test('says that a few repairs say nothing, and shows their numbers all the same', async () => {
    const bars = await show('bt-failure-bars', { patterns: { ...patterns, repairs: 9 } });
    expect(textOf(bars, 'p')).toBe('9 repairs are too few to say: it takes 10 or more.');
    expect(all(bars, 'figure')).toHaveLength(0);
    expect(rowsOf(bars, 'table')).toHaveLength(3);
  });

  test('says that nothing failed', async () => {
    const bars = await show('bt-failure-bars', { patterns: { ...patterns, parts: [] } });
    expect(textOf(bars, 'p')).toBe('No part of 88 repairs was measured bad or replaced.');
  });
});

test('one bar can be reached by Tab, the others from it by arrows, each with its sentence', async () => {
  const bars = await showBars();
  await userEvent.tab();
  const reached = (): string | null | undefined => bars.shadowRoot?.activeElement?.getAttribute('aria-label');
  expect(reached()).toMatch(/^F1 measured bad out of circuit in 50 of 88 repairs \(50 open\)/);
  await userEvent.keyboard('{ArrowDown}');
  await vi.waitFor(() => {
    expect(reached()).toMatch(/^Q1 /);
  });
  expect(textOf(bars, '.readout')).toMatch(/^Q1 measured bad out of circuit in 41 of 88 repairs/);
  await userEvent.keyboard('{End}');
  await vi.waitFor(() => {
    expect(reached()).toMatch(/^D3 /);
  });
  expect(all(bars, '.bar[tabindex="0"]')).toHaveLength(1);
});

test('is saved as a drawing that stands alone', async () => {
  const saved: Blob[] = [];
  vi.spyOn(URL, 'createObjectURL').mockImplementation((blob) => {
    saved.push(blob as Blob);
    return 'blob:drawing';
  });
  const click = vi.spyOn(HTMLAnchorElement.prototype, 'click').mockImplementation(() => undefined);
  const bars = await showBars();
  all(bars, 'figure button')[0]?.click();
  const [blob] = saved;
  const drawing = new DOMParser().parseFromString((await blob?.text()) ?? '', 'image/svg+xml');
  expect(drawing.querySelector('parsererror')).toBeNull();
  expect(drawing.documentElement.namespaceURI).toBe('http://www.w3.org/2000/svg');
  expect([...drawing.querySelectorAll('text')].map((text) => text.textContent)).toContain('50 · replaced 50');
  // Colours are written out, as the page's style sheets stay behind.
  expect(new Set([...drawing.querySelectorAll('path')].map((path) => path.getAttribute('stroke')))).not.toContain(
    'none',
  );
  expect(drawing.querySelector('[style], [class], script')).toBeNull();
  expect(click).toHaveBeenCalledOnce();
  vi.restoreAllMocks();
});
