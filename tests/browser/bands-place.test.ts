import { describe, expect, test, vi } from 'vitest';
import { page } from 'vitest/browser';
import '../../src/ui/panels/bands-place.ts';
import { parseRoute } from '../../src/ui/route.ts';
import { bands, openSession } from './app-bench.ts';
import { all, rowsOf, show, textOf, violations } from './app-page.ts';

async function showPlace(hash = '#/bands', ...session: Parameters<typeof openSession>) {
  const opened = await openSession(...session);
  return show('bt-bands-place', { session: opened.session, route: parseRoute(hash) });
}

/** The tables of the place. */
async function showBands(...of: Parameters<typeof showPlace>) {
  const [tables] = all(await showPlace(...of), 'bt-bands-overview');
  if (tables === undefined) throw new Error('The place shows no tables.');
  return tables;
}

describe('<bt-bands-place>', () => {
  test('renders', async () => {
    expect(textOf(await showPlace(), 'h1')).toBe('Bands');
    const place = await showBands();
    expect(rowsOf(place, 'table[aria-labelledby=bands]')).toEqual([
      ['HERON-48', '24V main', 'any', 'DC volts', '24 V ± 5 % 22.8 to 25.2 V', '140', '18', 'board marking', ''],
      [
        'PLOVER-32',
        'bulk',
        'live',
        'DC volts',
        'the peak of the mains, from 8 % below to 3 % above',
        '52',
        '0',
        'common practice, Tern Lane',
        '2025-11-03',
      ],
    ]);
    expect(rowsOf(place, 'table[aria-labelledby=without]')).toEqual([
      ['HERON-48', 'dimming', 'live', 'DC volts', '31'],
    ]);
  });

  test('is accessible', async () => {
    expect(await violations(await showPlace())).toEqual([]);
  });
});

test('counts lead to their readings in the grid', async () => {
  const place = await showBands();
  const links = all(place, 'table td a').map((link) => link.getAttribute('href'));
  expect(links).toEqual([
    '#/readings?family=HERON-48&point=24V+main&mode=DC+volts',
    '#/readings?family=HERON-48&point=24V+main&mode=DC+volts&verdict=conditional+fail&verdict=fail',
    '#/readings?family=PLOVER-32&point=bulk&mode=DC+volts&stage=live',
    '#/readings?family=HERON-48&point=dimming&stage=live&mode=DC+volts',
  ]);
});

test('points lead to the editor of their check', async () => {
  const place = await showBands();
  expect(all(place, 'table th a').map((link) => link.getAttribute('href'))).toEqual([
    '#/bands/check?family=HERON-48&point=24V+main&mode=DC+volts',
    '#/bands/check?family=PLOVER-32&point=bulk&mode=DC+volts&stage=live',
    '#/bands/check?family=HERON-48&point=dimming&stage=live&mode=DC+volts',
  ]);
});

test('all bands are saved as a file', async () => {
  const saved: string[] = [];
  const click = vi.spyOn(HTMLAnchorElement.prototype, 'click').mockImplementation(function (this: HTMLAnchorElement) {
    saved.push(this.download);
  });
  await showPlace('#/bands', { bandsText: () => 'family\r\n' });
  await page.getByRole('button', { name: 'Save all bands as CSV' }).click();
  await expect.poll(() => saved).toEqual(['bands.csv']);
  click.mockRestore();
});

test('one family is shown by its address, and marked among the families', async () => {
  const place = await showBands('#/bands?family=PLOVER-32');
  expect(rowsOf(place, 'table[aria-labelledby=bands]').map((row) => row[0])).toEqual(['bulk']);
  expect(all(place, 'table[aria-labelledby=bands] thead th')).toHaveLength(8);
  expect(all(place, 'table[aria-labelledby=without]')).toHaveLength(0);
  expect(textOf(place, '[aria-current=true]')).toBe('PLOVER-32');
});

test('many bands are shown a page at a time', async () => {
  const line = bands.bands[0]!;
  const many = Array.from({ length: 450 }, (_, at) => ({ ...line, band: { ...line.band, point: `rail ${at + 1}` } }));
  const place = await showBands('#/bands', { bands: () => ({ ...bands, bands: many }) });
  expect(rowsOf(place, 'table[aria-labelledby=bands]')).toHaveLength(200);
  await page.getByRole('button', { name: 'Later' }).click();
  await expect.element(page.getByText('201 to 400 of 450 bands')).toBeVisible();
});

test('a bench without bands says how they come in', async () => {
  const place = await showPlace('#/bands', { bands: () => ({ families: [], bands: [], without: [] }) });
  await expect.element(page.getByText(/No band is set here/)).toBeVisible();
  expect(await violations(place)).toEqual([]);
});
