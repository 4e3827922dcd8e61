import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { userEvent } from 'vitest/browser';
import type { ReadingsPlace } from '../../src/ui/panels/readings-place.ts';
import '../../src/ui/panels/readings-place.ts';
import { parseRoute, readReadingsQuery } from '../../src/ui/route.ts';
import { fakeLog, fakeSession, type FakeSession } from '../ui/grid/fake-session.ts';
import { all, drawn, show, textOf, violations } from './app-page.ts';
import { eventually } from '../support/eventually.ts';

let place: ReadingsPlace;

/** Shows the place at an address, as the page around it would, and follows the address when it changes. */
async function showPlace(hash = '#/readings', fake: FakeSession = fakeSession(fakeLog(4012))): Promise<FakeSession> {
  location.hash = hash;
  place = await show('bt-readings-place', { session: fake.session, route: parseRoute(hash) });
  place.style.height = '700px';
  await eventually(() => {
    expect(all(grid(), '.row').length).toBeGreaterThan(10);
  });
  return fake;
}

function grid(): Element {
  const [found] = all(place, 'bt-readings-grid');
  if (found === undefined) throw new Error('There is no grid.');
  return found;
}

function filter(): Element {
  const [found] = all(place, 'bt-readings-filter');
  if (found === undefined) throw new Error('There is no filter.');
  return found;
}

function button(text: string): HTMLElement {
  const found = all(place, 'button').find((candidate) => candidate.textContent.trim() === text);
  if (found === undefined) throw new Error(`There is no button ${text}.`);
  return found;
}

const follow = (): void => {
  place.route = parseRoute(location.hash);
};

beforeEach(() => {
  place = document.createElement('bt-readings-place');
  addEventListener('hashchange', follow);
});

afterEach(() => {
  removeEventListener('hashchange', follow);
  location.hash = '';
});

const FILTERED = '#/readings?family=HERON-48&family=PLOVER-32&text=Q1';

describe('<bt-readings-place>', () => {
  test('renders', async () => {
    await showPlace(FILTERED);
    expect(all(place, '.asked li').map((sentence) => sentence.textContent.replaceAll(/\s+/g, ' ').trim())).toEqual([
      'family is HERON-48 or PLOVER-32 remove',
      'a text holds “Q1” remove',
    ]);
    await eventually(() => {
      expect(textOf(place, '[role=status]')).toBe('4,012 readings of 402 repairs, 803 out of band');
    });
  });

  test('is accessible', async () => {
    await showPlace(FILTERED);
    expect(await violations(place)).toEqual([]);
  });

  test.each(['family', 'reading', 'time'])('is accessible while choosing by %s', async (field) => {
    await showPlace(FILTERED);
    await userEvent.click(button(field));
    await drawn(filter());
    expect(await violations(place)).toEqual([]);
  });

  test('is accessible with the details of a reading', async () => {
    await showPlace();
    await openDetails();
    expect(await violations(place)).toEqual([]);
  });
});

async function openDetails(): Promise<Element> {
  (grid() as HTMLElement).focus();
  await drawn(grid());
  await userEvent.keyboard('{ArrowDown>6/}{Enter}');
  await drawn(place);
  const [details] = all(place, 'bt-readings-details');
  if (details === undefined) throw new Error('There are no details.');
  return details;
}

describe('a filter', () => {
  test('is removed by its button, in the address too, and the focus stays near', async () => {
    await showPlace(FILTERED);
    const [remove] = all(place, '.asked button');
    remove?.focus();
    expect(remove?.getAttribute('aria-label')).toBe('remove: family is HERON-48 or PLOVER-32');
    await userEvent.keyboard('{Enter}');
    await drawn(place);
    expect(location.hash).toBe('#/readings?text=Q1');
    expect(place.shadowRoot?.activeElement?.textContent.trim()).toBe('remove');
    await userEvent.keyboard('{Enter}');
    await drawn(place);
    expect(location.hash).toBe('#/readings');
    expect(place.shadowRoot?.activeElement).toBe(button('repair'));
  });

  test('is added by keyboard from values with their counts', async () => {
    await showPlace();
    button('family').focus();
    await userEvent.keyboard('{Enter}');
    await drawn(filter());
    expect(filter().shadowRoot?.activeElement?.getAttribute('type')).toBe('checkbox');
    expect(all(filter(), 'li').map((value) => value.textContent.replaceAll(/\s+/g, ' ').trim())).toEqual([
      'HERON-48 2,675',
      'PLOVER-32 1,337',
    ]);
    await userEvent.keyboard(' ');
    await drawn(place);
    expect(location.hash).toBe('#/readings?family=HERON-48');
    await userEvent.tab();
    await userEvent.keyboard(' ');
    await drawn(place);
    expect(location.hash).toBe('#/readings?family=HERON-48&family=PLOVER-32');
    await userEvent.keyboard('{Escape}');
    await drawn(place);
    expect(all(place, 'bt-readings-filter')).toHaveLength(0);
    expect(place.shadowRoot?.activeElement).toBe(button('family'));
  });

  test('counts its values under the other filters alone', async () => {
    const { asked } = await showPlace('#/readings?family=HERON-48&meter=M1');
    await userEvent.click(button('family'));
    await drawn(filter());
    const facet = asked.find(([name]) => name === 'facet');
    expect(facet).toEqual(['facet', { filters: [{ field: 'meter', oneOf: ['M1'] }], sort: [] }, 'family']);
  });

  test('finds a value among many by its letters', async () => {
    const values = Array.from({ length: 500 }, (_, index) => ({
      value: `T-${String(index).padStart(4, '0')}`,
      count: 1,
    }));
    await showPlace('#/readings', fakeSession({ ...fakeLog(4012), facet: () => values }));
    await userEvent.click(button('repair'));
    await drawn(filter());
    expect(all(filter(), 'li')).toHaveLength(120);
    expect(textOf(filter(), 'fieldset > .quiet')).toBe('120 of 500 are listed: type to find the others.');
    await userEvent.keyboard('0499');
    await drawn(filter());
    expect(all(filter(), 'li')).toHaveLength(1);
  });

  test('of readings is a range typed in the words of the bench', async () => {
    await showPlace();
    await userEvent.click(button('reading'));
    await drawn(filter());
    await userEvent.keyboard('12,7 V{Tab}0.64k{Tab}');
    await drawn(place);
    expect(readReadingsQuery(location.hash.split('?')[1] ?? '').filters).toEqual([
      { field: 'reading', from: 12.7, to: 640, unit: 'V' },
    ]);
  });

  test('that cannot be read says what to write and changes nothing', async () => {
    await showPlace();
    await userEvent.click(button('reading'));
    await drawn(filter());
    await userEvent.keyboard('OL{Tab}');
    await drawn(filter());
    expect(textOf(filter(), '#hint')).toBe('This is no number: write it as 12.7, 640k or 0.64 MΩ.');
    expect(filter().shadowRoot?.querySelector('[name=from]')?.getAttribute('aria-invalid')).toBe('true');
    expect(location.hash).toBe('#/readings');
  });

  test('by text begins once the letters rest', async () => {
    await showPlace();
    const [search] = all(place, 'input[type=search]');
    search?.focus();
    await userEvent.keyboard('Q1');
    await eventually(() => {
      expect(location.hash).toBe('#/readings?text=Q1');
    });
    expect(place.shadowRoot?.activeElement).toBe(search);
  });
});

test('back leads to the filters before', async () => {
  await showPlace('#/readings?text=Q1');
  await userEvent.click(button('remove'));
  await drawn(place);
  expect(location.hash).toBe('#/readings');
  history.back();
  await eventually(() => {
    expect(all(place, '.asked li')).toHaveLength(1);
  });
});

test('a header of the grid writes its order into the address', async () => {
  await showPlace();
  await userEvent.click(all(grid(), '[role=columnheader][data-column=reading]')[0] ?? place);
  await eventually(() => {
    expect(location.hash).toBe('#/readings?sort=reading');
  });
});

describe('the details of a reading', () => {
  test('tell its band, the arithmetic of its verdict, and where it came from', async () => {
    await showPlace();
    const details = await openDetails();
    expect(textOf(details, 'h2')).toBe('HERON-48 24V main, live');
    expect(textOf(details, 'section > p')).toBe(
      'The reading lies 70 mV above the high limit, which is within the uncertainty of 0.15 V: conditional fail.',
    );
    const facts = all(details, 'dl div').map((fact) => fact.textContent.replaceAll(/\s+/g, ' ').trim());
    expect(facts).toContain('limits low 22.8 V, high 25.2 V');
    expect(facts).toContain('margin −70 mV to the high limit, −0.5 U');
    expect(facts).toContain('from shift-2026-03-14.csv, line 8');
    expect(all(details, 'a').map((link) => link.getAttribute('href'))).toEqual([
      '#/bands/check?family=HERON-48&point=24V+main&stage=live&mode=DC+volts',
      '#/repairs/T-0131',
      '#/readings?file=shift-2026-03-14.csv&sort=line',
    ]);
  });

  test('follow the current row, and give the focus back when they are closed', async () => {
    await showPlace();
    const details = await openDetails();
    await userEvent.keyboard('{ArrowDown}');
    await drawn(details);
    expect(textOf(details, 'h2')).toBe('HERON-48 backlight, live');
    details.shadowRoot?.querySelector<HTMLElement>('button')?.focus();
    await userEvent.keyboard('{Enter}');
    await drawn(place);
    expect(all(place, 'bt-readings-details')).toHaveLength(0);
    await eventually(() => {
      expect(grid().shadowRoot?.activeElement?.closest('[role=row]')?.getAttribute('aria-rowindex')).toBe('9');
    });
  });
});
