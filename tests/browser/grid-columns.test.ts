import { beforeEach, describe, expect, test, vi } from 'vitest';
import { userEvent } from 'vitest/browser';
import {
  FIRST_LAYOUT,
  shownColumns,
  withPinned,
  withShown,
  type ColumnLayout,
} from '../../src/ui/grid/column-layout.ts';
import type { ReadingsGrid } from '../../src/ui/grid/readings-grid.ts';
import '../../src/ui/grid/readings-grid.ts';
import { benchSession, SMALL_LOG } from '../ui/grid/bench-session.ts';
import { fakeLog, fakeSession } from '../ui/grid/fake-session.ts';
import { all, drawn, show, textOf, violations } from './app-page.ts';
import { eventually } from '../support/eventually.ts';

let grid: ReadingsGrid;
let chosen: ColumnLayout[];

async function showGrid(layout = FIRST_LAYOUT, session = fakeSession(fakeLog(4012)).session): Promise<void> {
  grid = await show('bt-readings-grid', { session, layout });
  grid.style.height = '640px';
  grid.addEventListener('layout-chosen', (event) => chosen.push((event as CustomEvent<ColumnLayout>).detail));
  await eventually(() => {
    expect(all(grid, '.row').length).toBeGreaterThan(5);
  });
}

function titles(): readonly string[] {
  return all(grid, '[role=columnheader] .title').map((title) => title.textContent.trim());
}

function header(id: string): HTMLElement {
  const [found] = all(grid, `[role=columnheader][data-column=${id}]`);
  if (found === undefined) throw new Error(`There is no column ${id}.`);
  return found;
}

/** Presses keys with the focus on a header. */
async function press(id: string, keys: string): Promise<void> {
  grid.focus();
  await grid.updateComplete;
  await userEvent.keyboard('{Control>}{Home}{/Control}{ArrowUp}');
  const steps = all(grid, '[role=columnheader]').indexOf(header(id));
  if (steps > 0) await userEvent.keyboard(`{ArrowRight>${steps}/}`);
  await userEvent.keyboard(keys);
  await drawn(grid);
}

/** Drags from the middle of one element to that of another, or by so many pixels. */
async function drag(from: Element, to: Element | number): Promise<void> {
  const middle = (element: Element): number => {
    const { left, width } = element.getBoundingClientRect();
    return left + width / 2;
  };
  const start = middle(from);
  const end = typeof to === 'number' ? start + to : middle(to);
  const { top } = from.getBoundingClientRect();
  const fire = (target: EventTarget, type: string, clientX: number): void => {
    const init = { clientX, clientY: top + 4, button: 0, bubbles: true, composed: true, cancelable: true };
    target.dispatchEvent(new PointerEvent(type, init));
  };
  fire(from, 'pointerdown', start);
  for (const share of [0.3, 0.7, 1]) fire(document, 'pointermove', start + share * (end - start));
  await grid.updateComplete;
  fire(document, 'pointerup', end);
  await drawn(grid);
}

beforeEach(() => {
  chosen = [];
});

describe('the columns of the grid', () => {
  test('are those of the layout, derived ones with what the worker derives', async () => {
    const layout = ['change', 'ratio'].reduce((places, id) => withShown(places, id, true), FIRST_LAYOUT);
    await showGrid(layout, (await benchSession(SMALL_LOG)).session);
    expect(titles().slice(-2)).toEqual(['since stage before', 'to new part']);
    const partOut = all(grid, '[aria-rowindex="5"] > *').map((cell) => cell.textContent.trim());
    expect(partOut.slice(-2)).toEqual(['+0.10\u00a0Ω', '7.81e\u22127']);
    expect(await violations(grid)).toEqual([]);
  });

  test('ask the worker for the derived fields that are shown, and for no others', async () => {
    const fake = fakeSession(fakeLog(400));
    await showGrid(withShown(FIRST_LAYOUT, 'margin', true), fake.session);
    const asked = fake.asked.filter(([name]) => name === 'lines').map(([, , , , derived]) => derived);
    expect(asked.length).toBeGreaterThan(0);
    for (const derived of asked) expect(derived).toEqual(['margin']);
  });

  test.each([
    ['{Control>}{ArrowRight}{/Control}', ['repair', 'time', 'family']],
    ['p', ['time', 'repair', 'family']],
    ['{Delete}', ['repair', 'family', 'point']],
  ])('change by %s on a header, and the focus stays in the header row', async (keys, first) => {
    await showGrid();
    await press('time', keys);
    expect(chosen).toHaveLength(1);
    expect(titles().slice(0, 3)).toEqual(first);
    expect(grid.shadowRoot?.activeElement?.getAttribute('role')).toBe('columnheader');
    if (keys !== '{Delete}') expect(grid.shadowRoot?.activeElement).toBe(header('time'));
    expect(all(grid, '[role=grid] [tabindex="0"]')).toHaveLength(1);
  });

  test('grow and shrink by Shift and an arrow, and that is said', async () => {
    await showGrid();
    const before = header('repair').getBoundingClientRect().width;
    await press('repair', '{Shift>}{ArrowRight}{ArrowRight}{/Shift}');
    expect(header('repair').getBoundingClientRect().width).toBeCloseTo(before + 15, 0);
    await eventually(() => {
      expect(textOf(grid, '[aria-live]')).toBe('repair is 5.25 letters wide.');
    });
  });

  test('are moved by dragging a header onto another, which sorts nothing', async () => {
    await showGrid();
    const sorted = vi.fn();
    grid.addEventListener('sort-chosen', sorted);
    await drag(header('verdict'), header('repair'));
    expect(titles().slice(0, 4)).toEqual(['time', 'verdict', 'repair', 'family']);
    expect(sorted).not.toHaveBeenCalled();
    expect(all(grid, '.target')).toHaveLength(0);
  });

  test('are made wider by dragging the edge of a header, heard of once, and get their own width by a double click on it', async () => {
    await showGrid();
    const before = header('stage').getBoundingClientRect().width;
    const [edge] = [...header('stage').querySelectorAll('.edge')];
    await drag(edge ?? grid, 60);
    expect(header('stage').getBoundingClientRect().width).toBeCloseTo(before + 60, 0);
    expect(chosen).toHaveLength(1);
    await userEvent.dblClick(edge ?? grid);
    await drawn(grid);
    expect(header('stage').getBoundingClientRect().width).toBeCloseTo(before, 0);
    expect(chosen.at(-1)).toEqual(FIRST_LAYOUT);
  });

  test('that are pinned stay in sight while the others are scrolled under them, and hide no cell that has the focus', async () => {
    const wide = FIRST_LAYOUT.reduce((layout, { id }) => withShown(layout, id, true), FIRST_LAYOUT);
    await showGrid(withPinned(withPinned(wide, 'point', true), 'reading', true));
    expect(
      shownColumns(grid.layout)
        .slice(0, 2)
        .map(({ id }) => id),
    ).toEqual(['point', 'reading']);
    const [scroller] = all(grid, '.scroller');
    if (scroller === undefined) throw new Error('There is nothing to scroll.');
    const places = (): readonly number[] => ['point', 'reading'].map((id) => header(id).getBoundingClientRect().left);
    const before = places();
    scroller.scrollLeft = 400;
    await drawn(grid);
    expect(places()).toEqual(before);
    expect(all(grid, '[aria-rowindex="3"] > [data-pin="1"]')[0]?.getBoundingClientRect().left).toBe(before[1]);
    // What a cell is told by must stay the same under the click: all rows are there before it.
    await expect.poll(() => all(grid, '[aria-busy=true]')).toHaveLength(0);
    await userEvent.click(all(grid, '[aria-rowindex="3"] > [data-column=verdict]')[0] ?? grid);
    await userEvent.keyboard('{ArrowLeft>6/}');
    await drawn(grid);
    const focused = grid.shadowRoot?.activeElement as HTMLElement;
    expect(focused.dataset.column).toBe('time');
    expect(focused.getBoundingClientRect().left).toBeGreaterThanOrEqual(
      header('reading').getBoundingClientRect().right - 1,
    );
    expect(await violations(grid)).toEqual([]);
  });
});

describe('copying', () => {
  async function copied(copy: () => Promise<void>): Promise<string> {
    const write = vi.spyOn(navigator.clipboard, 'writeText').mockResolvedValue();
    await showGrid();
    grid.focus();
    await drawn(grid);
    await userEvent.keyboard('{Shift>} {ArrowDown}{/Shift}');
    await drawn(grid);
    await copy();
    await eventually(() => {
      expect(write).toHaveBeenCalledOnce();
    });
    const text = write.mock.calls[0]?.[0] ?? '';
    write.mockRestore();
    return text;
  }

  test('by Shift+Ctrl+C is exact, with headers', async () => {
    const [headers = '', first = '', ...more] = (await copied(() => userEvent.keyboard('{Shift>}{Control>}c{/Control}{/Shift}'))).split('\r\n'); // prettier-ignore
    expect(headers).toMatch(/^time\trepair\t/);
    expect(first).toMatch(/^2026-03-14 09:14:02\tT-0131\t/);
    expect(more).toHaveLength(1);
  });

  test('leaves the headers out where they are not wanted', async () => {
    const text = await copied(async () => {
      await userEvent.click(all(grid, '.headers input')[0] ?? grid);
      grid.focus();
      await userEvent.keyboard('{Shift>}{Control>}c{/Control}{/Shift}');
    });
    expect(text).toMatch(/^2026-03-14 09:14:02\tT-0131\t/);
    expect(text.split('\r\n')).toHaveLength(2);
  });

  test.each([['copy for a spreadsheet', 3], ['copy exactly', 3]])('by “%s” under the grid is named as it is', async (name, lines) => {
    const text = await copied(async () => {
      await userEvent.click(all(grid, '.copies button').find((button) => button.textContent.trim() === name) ?? grid);
    });
    expect(text.split('\r\n')).toHaveLength(lines);
    expect(await violations(grid)).toEqual([]);
  }); // prettier-ignore
});
