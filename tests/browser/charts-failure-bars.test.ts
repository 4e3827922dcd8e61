import { describe, expect, test } from 'vitest';
import { userEvent } from 'vitest/browser';
import type { FailureBar, FailureBars } from '../../src/ui/charts/failure-bars.ts';
import '../../src/ui/charts/failure-bars.ts';
import { d3, f1, q1 } from '../ui/grid/fake-patterns.ts';
import { all, show, textOf, violations } from './app-page.ts';
import { eventually } from '../support/eventually.ts';

const parts: readonly FailureBar[] = [
  { ...d3, inferred: 1.2, href: '#/readings?point=D3' },
  { ...f1, inferred: 0, href: '#/readings?point=F1' },
  { ...q1, inferred: 4.3, href: '#/readings?point=Q1' },
];

async function showBars(): Promise<FailureBars> {
  const bars = await show('bt-failure-bars', { parts, repairs: 88, about: 'Parts of HERON-48' });
  await eventually(() => {
    expect(bars.shadowRoot?.querySelector('.target')?.getBoundingClientRect().width).toBeGreaterThan(400);
  });
  return bars;
}

describe('<bt-failure-bars>', () => {
  test('renders', async () => {
    const bars = await showBars();
    expect(all(bars, '.mark .name').map((name) => name.textContent)).toEqual(['F1', 'Q1', 'D3']);
    expect(all(bars, '.mark .label').map((label) => label.textContent)).toEqual([
      '50 · replaced 50',
      '41 + 4.3 inferred · replaced 58',
      '11 + 1.2 inferred · replaced 46',
    ]);
    expect(textOf(bars, '.legend')).toContain('expected where it was not read');
  });

  test('is accessible', async () => {
    expect(await violations(await showBars())).toEqual([]);
  });

  test('draws segments as long as their counts, inferred ones hatched behind them', async () => {
    const bars = await showBars();
    const width = (segment: HTMLElement | undefined): number => Number(segment?.getAttribute('width'));
    const [open] = all(bars, '.mark:nth-of-type(1) .segment');
    const [shorted, leaky, , inferred] = all(bars, '.mark:nth-of-type(2) .segment');
    expect(width(shorted) / width(open)).toBeCloseTo(30 / 50, 6);
    expect(width(leaky) / width(open)).toBeCloseTo(8 / 50, 6);
    expect(width(inferred) / width(open)).toBeCloseTo(4.3 / 50, 6);
    expect(getComputedStyle(inferred!).fill).toContain('#hatch');
  });

  test('draws a dotted stretch of what was replaced though good', async () => {
    expect(all(await showBars(), '.mark .good')).toHaveLength(2);
  });
});

test('one bar can be reached by Tab, the others from it by arrows, each read out with its sentence', async () => {
  const bars = await showBars();
  await userEvent.tab();
  const reached = (): string | null | undefined => bars.shadowRoot?.activeElement?.getAttribute('aria-label');
  expect(reached()).toBe('F1: 50 · replaced 50');
  await userEvent.keyboard('{ArrowDown}');
  await eventually(() => {
    expect(reached()).toMatch(/^Q1: /);
  });
  expect(textOf(bars, '[role=status]')).toMatch(/^Q1 proved failed in 41 of 88 repairs \(30 shorted/);
  await userEvent.keyboard('{End}');
  await eventually(() => {
    expect(reached()).toMatch(/^D3: /);
  });
  await userEvent.keyboard('{ArrowDown}');
  expect(reached()).toMatch(/^D3: /);
  expect(all(bars, '.mark[tabindex="0"]')).toHaveLength(1);
});
