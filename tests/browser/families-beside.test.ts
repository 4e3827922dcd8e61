import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { loadSample } from '../../src/session/sample.ts';
import type { Session } from '../../src/session/session.ts';
import '../../src/ui/panels/families-beside.ts';
import '../../src/ui/panels/families-place.ts';
import { parseRoute } from '../../src/ui/route.ts';
import type { BenchClient } from '../../src/worker/client.ts';
import { rowsOf, show, textOf, violations } from './app-page.ts';
import { allText, benchWith, figure, figuresDrawn, NO_NUMBER, within } from './families-bench.ts';
import { eventually } from '../support/eventually.ts';

let session: Session;
let client: BenchClient;

beforeAll(async () => {
  ({ session, client } = await benchWith(await loadSample()));
});

afterAll(() => {
  client.close();
});

async function showBeside(family: string, other: string, query = '') {
  const both = await show('bt-families-beside', { session, family, other, query });
  return { both, figures: await figuresDrawn(both) };
}

describe('<bt-families-beside>', () => {
  test('renders', async () => {
    const { figures } = await showBeside('HERON-48', 'PLOVER-32');
    expect(figures.map(({ question }) => question)).toEqual([
      'Do different parts fail in HERON-48 and PLOVER-32?',
      'Which of the two holds better?',
    ]);
    expect(rowsOf(figures[1]!, 'table').map(([family, repairs]) => [family, repairs])).toEqual([
      ['HERON-48', '48'],
      ['PLOVER-32', '55'],
    ]);
  });

  test('is accessible', async () => {
    const { both } = await showBeside('HERON-48', 'PLOVER-32');
    expect(await violations(both)).toEqual([]);
  });

  test('draws both families on one scale, each under its name', async () => {
    const { figures } = await showBeside('HERON-48', 'PLOVER-32');
    const legend = within(figure(figures, 'Do different parts').querySelector('bt-interval-rows')!, '.legend li');
    expect(legend.map((name) => name.textContent.trim())).toEqual(['HERON-48', 'PLOVER-32']);
  });

  test('says of a family with too few repairs that nothing can be said', async () => {
    const { both, figures } = await showBeside('HERON-48', 'PLOVER-32', 'complaint=flicker');
    expect(figures[0]?.instead).toMatch(/^(HERON-48|PLOVER-32) has \d repairs? here: too few to say, it takes 10\.$/);
    expect(allText(both)).not.toMatch(NO_NUMBER);
  });

  test('stands with like figures on one line, each under the name of its family', async () => {
    const route = parseRoute('#/families/HERON-48?beside=CURLEW-60');
    const place = await show('bt-families-place', { session, route });
    const tops = (page: Element): readonly number[] =>
      within(page, '[data-figure]').map((figure) => Math.round(figure.getBoundingClientRect().top));
    await eventually(() => {
      const [here, there] = within(place, 'bt-family-page').map(tops);
      expect(here?.length).toBeGreaterThan(10);
      expect(there).toEqual(here);
    });
    expect(textOf(place, 'h2.other')).toBe('HERON-48');
    expect(await violations(place)).toEqual([]);
  });

  test('shows nothing beside a family that nothing names', async () => {
    const both = await show('bt-families-beside', { session, family: 'HERON-48', other: 'HERRON-48', query: '' });
    await expect.poll(() => both.shadowRoot?.textContent).not.toContain('Comparing');
    expect(within(both, 'bt-figure-frame')).toEqual([]);
  });
});
