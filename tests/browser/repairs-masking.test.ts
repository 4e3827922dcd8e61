import { describe, expect, test } from 'vitest';
import '../../src/ui/charts/masking-figure.ts';
import { story } from './app-bench.ts';
import { all, show, textOf, violations } from './app-page.ts';
import { decision } from './repairs-bench.ts';

const showFigure = () => show('bt-masking-figure', { parts: decision.parts, evidence: story.parts, name: 'parts' });

describe('<bt-masking-figure>', () => {
  test('renders', async () => {
    const figure = await showFigure();
    expect(textOf(figure, '#said')).toBe(
      '3 parts between 4 nodes. On shaded ground, across the same two nodes: Q1 and D3. In circuit each reads as the worst of them.',
    );
    expect(all(figure, 'text.part').map(({ textContent }) => textContent)).toEqual(['Q1 ✗', 'D3 ◇', 'F1 ✓']);
    expect(all(figure, 'text.name').map(({ textContent }) => textContent)).toEqual([
      'drain',
      'source',
      'line',
      'fused line',
    ]);
    expect(all(figure, 'rect.group')).toHaveLength(1);
  });

  test('is accessible', async () => {
    expect(await violations(await showFigure())).toEqual([]);
  });
});
