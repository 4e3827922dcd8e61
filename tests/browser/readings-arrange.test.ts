import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { userEvent } from 'vitest/browser';
import type { Session } from '../../src/session/session.ts';
import type { ReadingsPlace } from '../../src/ui/panels/readings-place.ts';
import '../../src/ui/panels/readings-place.ts';
import { parseRoute } from '../../src/ui/route.ts';
import { benchSession, SMALL_LOG } from '../ui/grid/bench-session.ts';
import { all, drawn, show, textOf, violations } from './app-page.ts';
import { eventually } from '../support/eventually.ts';

let place: ReadingsPlace;
let session: Session;

async function showPlace(hash = '#/readings'): Promise<void> {
  location.hash = hash;
  place = await show('bt-readings-place', { session, route: parseRoute(hash) });
  place.style.height = '700px';
  await eventually(() => {
    expect(all(inner('bt-readings-grid'), '.row').length).toBeGreaterThan(0);
  });
}

function inner(tag: string): HTMLElement {
  const [found] = all(place, tag);
  if (found === undefined) throw new Error(`There is no ${tag}.`);
  return found;
}

function button(text: string, element: Element = place): HTMLElement {
  const found = all(element, 'button').find((candidate) => candidate.textContent.trim() === text);
  if (found === undefined) throw new Error(`There is no button ${text}.`);
  return found;
}

/** Opens a panel by its button, by keyboard. */
async function openPanel(name: string, tag: string): Promise<HTMLElement> {
  button(name).focus();
  await userEvent.keyboard('{Enter}');
  await drawn(place);
  await drawn(inner(tag));
  return inner(tag);
}

function titles(): readonly string[] {
  return all(inner('bt-readings-grid'), '[role=columnheader] .title').map((title) => title.textContent.trim());
}

const follow = (): void => {
  place.route = parseRoute(location.hash);
};

beforeEach(async () => {
  place = document.createElement('bt-readings-place');
  ({ session } = await benchSession(SMALL_LOG));
  addEventListener('hashchange', follow);
});

afterEach(() => {
  removeEventListener('hashchange', follow);
  location.hash = '';
});

describe('the columns panel', () => {
  test('shows a derived column by keyboard alone, in the address too, and gives the focus back', async () => {
    await showPlace();
    const panel = await openPanel('columns', 'bt-readings-columns');
    expect(panel.shadowRoot?.activeElement?.getAttribute('type')).toBe('checkbox');
    all(panel, 'tbody tr:last-child th input')[0]?.focus();
    await userEvent.keyboard(' ');
    await drawn(place);
    expect(titles()).toContain('robust z');
    expect(location.hash).toContain('robust-z');
    expect(await violations(place)).toEqual([]);
    await userEvent.keyboard('{Escape}');
    await drawn(place);
    expect(all(place, 'bt-readings-columns')).toHaveLength(0);
    expect(place.shadowRoot?.activeElement).toBe(button('columns'));
  });

  test('moves, pins and sizes columns, keeps the focus on what was pressed, and can put all back', async () => {
    await showPlace();
    const panel = await openPanel('columns', 'bt-readings-columns');
    const named = (label: string): HTMLElement => {
      const [found] = all(panel, `[aria-label="${label}"]`);
      if (found === undefined) throw new Error(`There is nothing labelled ${label}.`);
      return found;
    };
    named('time later').focus();
    await userEvent.keyboard('{Enter}');
    await drawn(place);
    expect(titles().slice(0, 2)).toEqual(['repair', 'time']);
    expect(panel.shadowRoot?.activeElement).toBe(named('time later'));
    named('pin verdict').focus();
    await userEvent.keyboard(' ');
    await drawn(place);
    expect(titles()[0]).toBe('verdict');
    named('width of point in letters').focus();
    await userEvent.keyboard('20{Tab}');
    await drawn(place);
    const [point] = all(inner('bt-readings-grid'), '[role=columnheader][data-column=point]');
    expect(point?.getBoundingClientRect().width).toBeCloseTo(300, 0);
    expect(location.hash).toContain('columns=verdict*+repair+time+family+point_20+');
    await userEvent.click(button('as at first', panel));
    await drawn(place);
    expect(location.hash).toBe('#/readings');
  });

  test('is remembered while the session lasts, for addresses that say nothing of columns', async () => {
    await showPlace('#/readings?columns=point+reading');
    expect(titles()).toEqual(['point', 'reading']);
    await showPlace('#/readings?family=HERON-48');
    expect(titles()).toEqual(['point', 'reading']);
  });
});

describe('grouping', () => {
  test('is chosen from a list, folded at first, and folding goes into the address', async () => {
    await showPlace();
    const [select] = all(place, 'select');
    await userEvent.selectOptions(select ?? place, 'family');
    await eventually(() => {
      expect(all(inner('bt-readings-grid'), '.group')).toHaveLength(2);
    });
    expect(location.hash).toBe('#/readings?group=-family');
    expect(textOf(place, '[role=status]')).toBe('9 readings of 3 repairs, none out of band');
    expect(await violations(place)).toEqual([]);
    await userEvent.click(button('unfold all'));
    await eventually(() => {
      expect(all(inner('bt-readings-grid'), '.row')).toHaveLength(11);
    });
    expect(location.hash).toBe('#/readings?group=family');
    await userEvent.dblClick(all(inner('bt-readings-grid'), '.group-line')[0] ?? place);
    await eventually(() => {
      expect(location.hash).toBe('#/readings?group=family&but=HERON-48');
    });
    await userEvent.selectOptions(select ?? place, '');
    await eventually(() => {
      expect(all(inner('bt-readings-grid'), '.group')).toHaveLength(0);
    });
  });
});

test('saving as CSV is asked for by keyboard, and gives the focus back', async () => {
  await showPlace();
  const panel = await openPanel('save as CSV', 'bt-readings-save');
  expect(panel.shadowRoot?.activeElement).toBe(button('Save as CSV, exact', panel));
  await userEvent.keyboard('{Escape}');
  await drawn(place);
  expect(place.shadowRoot?.activeElement).toBe(button('save as CSV'));
});

describe('views', () => {
  const HASH = '#/readings?family=HERON-48&sort=-margin&group=point&columns=point+margin';

  test('keep columns, order, filters and groups under a name, by which they are opened again', async () => {
    await showPlace(HASH);
    const panel = await openPanel('views', 'bt-readings-views');
    expect(panel.shadowRoot?.activeElement).toBe(all(panel, 'input')[0]);
    await userEvent.keyboard('  {Enter}');
    await drawn(panel);
    expect(textOf(panel, '#said')).toBe('Give it a name.');
    await keepView(panel, 'margins by point');
    expect(textOf(panel, '#said')).toBe('“margins by point” is kept.');
    expect(await violations(place)).toEqual([]);
    location.hash = '#/readings?columns=time';
    await eventually(() => {
      expect(titles()).toEqual(['time']);
    });
    await userEvent.click(all(panel, 'li a')[0] ?? panel);
    await eventually(() => {
      expect(titles().map((title) => title.replace(/ .$/, ''))).toEqual(['point', 'margin']);
    });
    expect(location.hash).toBe(HASH);
    expect(all(place, '.asked li')).toHaveLength(1);
  });

  test('are kept by the bench, so that another page shows them', async () => {
    await showPlace(HASH);
    await keepView(await openPanel('views', 'bt-readings-views'), 'margins by point');
    expect(await session.ask('views', [])).toEqual([{ name: 'margins by point', address: HASH }]);
    await showPlace('#/readings');
    expect(viewNames(await openPanel('views', 'bt-readings-views'))).toEqual(['margins by point']);
  });

  test('bring the first columns back where those were kept', async () => {
    await showPlace('#/readings?family=HERON-48');
    const before = titles();
    const panel = await openPanel('views', 'bt-readings-views');
    await keepView(panel, 'as at first');
    location.hash = '#/readings?columns=time';
    await eventually(() => {
      expect(titles()).toEqual(['time']);
    });
    await userEvent.click(all(panel, 'li a')[0] ?? panel);
    await eventually(() => {
      expect(titles()).toEqual(before);
    });
  });

  test('are renamed, but not to the name of another, and let go, and brought back', async () => {
    await showPlace(HASH);
    const panel = await openPanel('views', 'bt-readings-views');
    await keepView(panel, 'one');
    await keepView(panel, 'two');
    await userEvent.click(named('rename one', panel));
    await drawn(panel);
    expect(panel.shadowRoot?.activeElement).toBe(all(panel, 'input[name=renamed]')[0]);
    await userEvent.keyboard('two{Enter}');
    await drawn(panel);
    expect(textOf(panel, '#said')).toBe('Another view has this name.');
    expect(await violations(place)).toEqual([]);
    await userEvent.clear(all(panel, 'input[name=renamed]')[0] ?? panel);
    await userEvent.keyboard('first{Enter}');
    await eventually(() => {
      expect(viewNames(panel)).toEqual(['first', 'two']);
    });
    await userEvent.click(named('let go of first', panel));
    await eventually(() => {
      expect(viewNames(panel)).toEqual(['two']);
    });
    await userEvent.click(button('bring it back', panel));
    await eventually(() => {
      expect(viewNames(panel)).toEqual(['first', 'two']);
    });
    expect(await session.ask('views', [])).toHaveLength(2);
  });

  test('of hostile names and addresses do no harm, and say that they are not understood', async () => {
    const name = '<img src=x onerror="window.harmed = true">\u202e__proto__';
    const address = '#/readings?sort=__proto__&group=constructor&columns=%3Cb%3E&colour=red&family=javascript:alert(1)';
    await session.ask('setView', [{ name, address }]);
    await showPlace();
    const panel = await openPanel('views', 'bt-readings-views');
    expect(viewNames(panel)).toEqual([name]);
    expect(all(panel, 'li a')[0]?.getAttribute('href')).toBe('#/readings?family=javascript%3Aalert%281%29');
    expect(textOf(panel, 'li .quiet')).toBe('not all of it is understood here');
    expect(all(panel, 'img')).toHaveLength(0);
    expect(Reflect.get(window, 'harmed')).toBeUndefined();
    await userEvent.click(all(panel, 'li a')[0] ?? panel);
    await eventually(() => {
      expect(textOf(place, '[role=status]')).toBe('No reading fits all of this: remove something.');
    });
  });

  test('that cannot be kept say why', async () => {
    await showPlace();
    const panel = await openPanel('views', 'bt-readings-views');
    vi.spyOn(session, 'ask').mockRejectedValueOnce(new Error('There is no room left on this disk.'));
    await userEvent.keyboard('mine{Enter}');
    await drawn(panel);
    expect(textOf(panel, '#said')).toBe('There is no room left on this disk.');
    expect(all(panel, 'input')[0]).toHaveProperty('value', 'mine');
  });
});

async function keepView(panel: HTMLElement, name: string): Promise<void> {
  all(panel, 'input[name=kept]')[0]?.focus();
  await userEvent.keyboard(`${name}{Enter}`);
  await eventually(() => {
    expect(viewNames(panel)).toContain(name);
  });
  await drawn(place);
}

function viewNames(panel: HTMLElement): readonly string[] {
  return all(panel, 'li a').map((link) => link.textContent);
}

function named(label: string, element: Element): HTMLElement {
  const found = all(element, 'button').find((candidate) => candidate.getAttribute('aria-label') === label);
  if (found === undefined) throw new Error(`There is no button labelled ${label}.`);
  return found;
}

describe('the page of keys', () => {
  test('is opened by ? in the grid and by its button, is accessible, and gives the focus back', async () => {
    await showPlace();
    const grid = inner('bt-readings-grid');
    grid.focus();
    await drawn(grid);
    const cell = grid.shadowRoot?.activeElement;
    await userEvent.keyboard('?');
    await drawn(place);
    const keys = inner('bt-grid-shortcuts');
    const [dialog] = all(keys, 'dialog') as readonly HTMLDialogElement[];
    expect(dialog?.open).toBe(true);
    expect(textOf(keys, 'h2')).toBe('Keys in the grid of readings');
    expect(await violations(keys)).toEqual([]);
    await userEvent.keyboard('{Escape}');
    await eventually(() => {
      expect(dialog?.open).toBe(false);
    });
    expect(grid.shadowRoot?.activeElement).toBe(cell);
    await userEvent.click(button('keys'));
    expect(dialog?.open).toBe(true);
  });
});
