import { describe, expect, test } from 'vitest';
import { userEvent } from 'vitest/browser';
import '../../src/ui/panels/families-place.ts';
import { parseRoute } from '../../src/ui/route.ts';
import { openSession } from './app-bench.ts';
import { all, drawn, rowsOf, show, textOf, violations } from './app-page.ts';

const lines = [
  { family: 'HERON-48', repairs: 88, readings: 2210, outOfBand: 310, comebacks: 6, bands: 31 },
  { family: 'SISKIN-40', repairs: 9, readings: 120, outOfBand: 0, comebacks: 0, bands: 0 },
];

async function showFamilies(hash: string, own: Parameters<typeof openSession>[0] = {}) {
  const { session } = await openSession({ families: () => lines, repairs: () => [], ...own });
  return show('bt-families-place', { session, route: parseRoute(hash) });
}

describe('<bt-families-place>', () => {
  test('renders', async () => {
    const place = await showFamilies('#/families');
    expect(rowsOf(place, 'table')).toEqual([
      ['HERON-48', '88', '2,210', '310', '6', '31'],
      ['SISKIN-40', '9', '120', '0', '0', 'none yet'],
    ]);
    expect(all(place, 'th a').map((link) => link.getAttribute('href'))).toEqual([
      '#/families/HERON-48',
      '#/families/SISKIN-40',
    ]);
  });

  test('is accessible', async () => {
    expect(await violations(await showFamilies('#/families'))).toEqual([]);
    expect(await violations(await showFamilies('#/families/HERON-48'))).toEqual([]);
  });

  test('says how families come to be where there are none', async () => {
    const place = await showFamilies('#/families', { families: () => [] });
    expect(textOf(place, 'p')).toContain('No family is known yet.');
  });
});

describe('the page of one family', () => {
  test('leads to its readings and bands, and holds its figures', async () => {
    const place = await showFamilies('#/families/HERON-48');
    expect(textOf(place, 'h1')).toBe('HERON-48');
    expect(textOf(place, '.facts')).toBe(
      '88 repairs 2,210 readings, 310 out of band 6 comebacks 31 bands Sheet to print Kit list to print',
    );
    expect(all(place, '.facts a').map((link) => link.getAttribute('href'))).toEqual([
      '#/readings?family=HERON-48',
      '#/bands?family=HERON-48',
      '#/families/HERON-48/sheet',
      '#/families/HERON-48/kit',
    ]);
    expect(all(place, 'bt-family-page')).toHaveLength(1);
  });

  test('shows another family beside it, as the address says', async () => {
    const place = await showFamilies('#/families/HERON-48?complaint=flicker');
    await userEvent.selectOptions(all(place, '.beside select')[0]!, 'SISKIN-40');
    expect(location.hash).toBe('#/families/HERON-48?complaint=flicker&beside=SISKIN-40');
    place.route = parseRoute(location.hash);
    await drawn(place);
    expect(all(place, 'bt-family-page')).toHaveLength(2);
    expect(all(place, '.other a')[0]?.getAttribute('href')).toBe('#/families/SISKIN-40');
    location.hash = '';
  });

  test('says that a family without bands cannot show what fails', async () => {
    const place = await showFamilies('#/families/SISKIN-40');
    expect(place.shadowRoot?.textContent).toContain('SISKIN-40 has no bands yet:');
  });

  test('says that a family is not known', async () => {
    const place = await showFamilies('#/families/HERRON-48', { familyPage: () => undefined });
    const [page] = all(place, 'bt-family-page');
    expect(page?.shadowRoot?.textContent).toContain('No board of a family HERRON-48 is known');
  });

  test('follows the address from the list to a family', async () => {
    const place = await showFamilies('#/families');
    all(place, 'th a')[0]?.focus();
    await userEvent.keyboard('{Enter}');
    place.route = parseRoute(location.hash);
    await drawn(place);
    expect(textOf(place, 'h1')).toBe('HERON-48');
    location.hash = '';
  });
});

test('the meters have an address of their own, that no family can have', async () => {
  const place = await showFamilies('#/families');
  expect(all(place, 'p a').map((link) => link.getAttribute('href'))).toContain('#/families?meters');
  place.route = parseRoute('#/families?meters');
  await drawn(place);
  expect(all(place, 'bt-families-meters')).toHaveLength(1);
});
