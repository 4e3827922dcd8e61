import { describe, expect, test } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import '../../src/ui/panels/repair-go-back.ts';
import type { LineOverruled } from '../../src/ui/panels/repair-go-back.ts';
import { all, drawn, show, textOf, violations } from './app-page.ts';
import { decision } from './repairs-bench.ts';

async function showLines(changes: Partial<typeof decision> = {}) {
  const place = await show('bt-repair-go-back', { decision: { ...decision, ...changes } });
  const overruled: LineOverruled[] = [];
  place.addEventListener('line-overruled', (event) => overruled.push((event as CustomEvent<LineOverruled>).detail));
  return { place, overruled };
}

describe('<bt-repair-go-back>', () => {
  test('renders', async () => {
    const { place } = await showLines();
    expect(textOf(place, '[role=status]')).toBe('Not yet: 1 line does not hold, 1 was not measured.');
    expect(all(place, '.standing').map(({ textContent }) => textContent)).toEqual([
      'holds',
      'not measured',
      'does not hold',
      'does not apply',
      'does not hold, overruled',
    ]);
  });

  test('is accessible', async () => {
    const { place } = await showLines();
    expect(await violations(place)).toEqual([]);
    await page.getByRole('button', { name: 'Overrule: The fuse rule holds.' }).click();
    expect(await violations(place)).toEqual([]);
  });
});

test('a line shows the readings behind it', async () => {
  const { place } = await showLines();
  await page.getByText('1 reading behind it').first().click();
  expect(
    all(place, 'details li').map((line) => [...line.querySelectorAll('span, a')].map(({ textContent }) => textContent)),
  ).toEqual([
    ['2026-03-14 09:14', 'Q1 D→S', '0.3\u00a0Ω', '▼ shorted', 'M2'],
    ['2026-03-14 09:14', '24V main', '25.27\u00a0V', '▲ high', 'M2'],
  ]);
  expect(all(place, 'details a').map((link) => link.getAttribute('href'))).toEqual([
    '#/readings?repair=T-0131&point=Q1+D%E2%86%92S',
    '#/readings?repair=T-0131&point=24V+main',
  ]);
  expect(all(place, 'details p').map(({ textContent }) => textContent)).toEqual(['And 1,200 later ones.']);
});

test('only lines that do not hold or were not measured can be overruled, and only with a reason', async () => {
  const { place, overruled } = await showLines();
  expect(all(place, 'button').map(({ ariaLabel }) => ariaLabel)).toEqual([
    'Overrule: The fuse rule holds.',
    'Overrule: The live rule holds.',
    'Take back: The meters rule holds.',
  ]);
  await page.getByRole('button', { name: 'Overrule: The live rule holds.' }).click();
  expect(place.shadowRoot?.activeElement?.id).toBe('reason');
  await userEvent.keyboard('{Enter}');
  await userEvent.keyboard('   {Enter}');
  expect(overruled).toEqual([]);
  await userEvent.keyboard('load was off{Enter}');
  await drawn(place);
  expect(overruled).toEqual([{ rule: 'live', reason: '   load was off' }]);
});

test('what was overruled is taken back by an empty reason', async () => {
  const { overruled } = await showLines();
  await page.getByRole('button', { name: /^Take back/ }).click();
  expect(overruled).toEqual([{ rule: 'meters', reason: '' }]);
});

test.each([
  [decision.goBack.slice(0, 1), 'As far as its readings tell, it may go back.'],
  [[decision.goBack[0]!, decision.goBack[4]!], 'As far as its readings tell, it may go back, with one line overruled.'],
])('a board that may go back says so, and what was overruled', async (goBack, sentence) => {
  const { place } = await showLines({ goBack, mayGoBack: true });
  expect(textOf(place, '[role=status]')).toBe(sentence);
});
