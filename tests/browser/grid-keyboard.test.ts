import { beforeEach, describe, expect, test, vi } from 'vitest';
import { userEvent } from 'vitest/browser';
import type { ReadingsGrid } from '../../src/ui/grid/readings-grid.ts';
import '../../src/ui/grid/readings-grid.ts';
import type { ReadingsQuery } from '../../src/session/answers.ts';
import { fakeLog, fakeSession } from '../ui/grid/fake-session.ts';
import { show } from './app-page.ts';
import { movingKeys } from './grid-moving-keys.ts';
import { focused } from './grid-focus.ts';
import { eventually } from '../support/eventually.ts';

const ROWS = 1_000_000;
const COLUMNS = 11;
/** Rows of data that a grid of this height shows whole: 20, so that the page keys move by 19. */
const HEIGHT = '640px';

async function showGrid(rows = ROWS): Promise<ReadingsGrid> {
  const grid = await show('bt-readings-grid', { session: fakeSession(fakeLog(rows)).session });
  grid.style.height = HEIGHT;
  await eventually(() => {
    expect(cellsOf(grid).length).toBeGreaterThan(100);
  });
  return grid;
}

function cellsOf(grid: ReadingsGrid): Element[] {
  return [...(grid.shadowRoot?.querySelectorAll('[role=gridcell]') ?? [])];
}

async function press(grid: ReadingsGrid, keys: string): Promise<void> {
  await userEvent.keyboard(keys);
  await grid.updateComplete;
}

/** Goes to a row (the first of data being 2, as for assistive technology) and a column, by keys alone. */
async function goTo(grid: ReadingsGrid, at: 'first' | 'middle' | 'last'): Promise<void> {
  grid.focus();
  await grid.updateComplete;
  if (at === 'last') await press(grid, '{Control>}{End}{/Control}');
  else await press(grid, '{Control>}{Home}{/Control}');
  if (at !== 'middle') return;
  await press(grid, '{PageDown}{PageDown}{ArrowDown}');
  await press(grid, '{ArrowRight}{ArrowRight}{ArrowRight}{ArrowRight}{ArrowRight}');
}

const PAGE = 19;
const MIDDLE = 2 + 2 * PAGE + 1;
const LAST = ROWS + 1;

/** Source: WAI-ARIA Authoring Practices Guide, grid pattern, keyboard interaction for data grids. */
describe('a key in the grid of 1,000,000 readings', () => {
  let grid: ReadingsGrid;
  beforeEach(async () => {
    grid = await showGrid();
  });

  test.each(movingKeys({ page: PAGE, middle: MIDDLE, last: LAST, columns: COLUMNS }))(
    'from the %s cell: %s leads to row %i, column %i, in sight',
    async (from, keys, row, column) => {
      await goTo(grid, from);
      await press(grid, keys);
      expect(focused(grid)).toEqual({ row, column, seen: true });
    },
  );

  test.each([
    ['{Shift>}{ArrowDown}{ArrowDown}{ArrowRight}{/Shift}', 6],
    ['{Shift>}{ArrowUp}{/Shift}', 2],
    ['{Shift>} {/Shift}', COLUMNS],
    ['{Shift>}{End}{/Shift}', COLUMNS - 5],
  ])('%s selects, and says which cells are selected', async (keys, cells) => {
    await goTo(grid, 'middle');
    await press(grid, keys);
    expect(grid.shadowRoot?.querySelectorAll('[aria-selected=true]')).toHaveLength(cells);
  });

  test.each(['{Control>}a{/Control}', '{Control>} {/Control}'])('%s selects beyond what is drawn', async (keys) => {
    await goTo(grid, 'middle');
    await press(grid, keys);
    await eventually(() => {
      expect(grid.shadowRoot?.querySelector('.about')?.textContent).toContain('1,000,000 readings selected');
    });
  });

  test('Tab enters at the cell left last, and leaves again', async () => {
    const before = document.createElement('button');
    const after = document.createElement('button');
    before.textContent = after.textContent = 'beside';
    grid.before(before);
    grid.after(after);
    before.focus();
    await userEvent.tab();
    expect(focused(grid)).toEqual({ row: 2, column: 1, seen: true });
    await press(grid, '{ArrowDown}{ArrowRight}');
    await userEvent.tab();
    expect(grid.shadowRoot?.activeElement?.closest('[role=grid]')).toBeNull();
    await userEvent.tab();
    expect(document.activeElement).toBe(after);
    await userEvent.tab({ shift: true });
    await userEvent.tab({ shift: true });
    expect(focused(grid)).toEqual({ row: 3, column: 2, seen: true });
    await userEvent.tab({ shift: true });
    expect(document.activeElement).toBe(before);
  });

  test('one cell alone can be reached by Tab, wherever the focus was', async () => {
    await goTo(grid, 'middle');
    expect(grid.shadowRoot?.querySelectorAll('[role=grid] [tabindex="0"]')).toHaveLength(1);
    await press(grid, '{Control>}{Home}{/Control}{ArrowUp}');
    expect(grid.shadowRoot?.querySelectorAll('[role=grid] [tabindex="0"]')).toHaveLength(1);
  });
});

describe('the focus', () => {
  test('stays in its row while that is scrolled out of sight and back', async () => {
    const grid = await showGrid();
    await goTo(grid, 'middle');
    const cell = grid.shadowRoot?.activeElement;
    const scroller = grid.shadowRoot?.querySelector('.scroller');
    if (scroller == null) throw new Error('There is nothing to scroll.');
    for (const place of [9e6, 0, 14e6, 100]) {
      scroller.scrollTop = place;
      await eventually(() => {
        expect(grid.shadowRoot?.querySelectorAll('.row').length).toBeGreaterThan(20);
        expect(Math.abs(scroller.scrollTop - place)).toBeLessThan(1);
      });
      await new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
      expect(grid.shadowRoot?.activeElement).toBe(cell);
      expect(cell?.closest('[role=row]')?.getAttribute('aria-rowindex')).toBe(String(MIDDLE));
    }
    await press(grid, '{ArrowDown}');
    expect(focused(grid)).toEqual({ row: MIDDLE + 1, column: 6, seen: true });
  });

  test('stays on its reading when the rows are sorted otherwise', async () => {
    const grid = await showGrid(4000);
    await goTo(grid, 'middle');
    const text = cellText(grid);
    grid.query = { filters: [], sort: [{ field: 'time', descending: true }] };
    await eventually(() => {
      expect(focused(grid)).toEqual({ row: 4000 - (MIDDLE - 2) - 1 + 2, column: 6, seen: true });
    });
    expect(cellText(grid)).toBe(text);
  });

  test('stays on its reading when others are filtered out', async () => {
    const grid = await showGrid(4000);
    await goTo(grid, 'first');
    await press(grid, '{ArrowDown>10/}');
    grid.query = filtered;
    await eventually(() => {
      expect(focused(grid)).toEqual({ row: 3, column: 1, seen: true });
    });
  });

  test('goes to the row in its place when its own reading is filtered out, and says so', async () => {
    const grid = await showGrid(4000);
    await goTo(grid, 'first');
    await press(grid, '{ArrowDown}');
    grid.query = filtered;
    await eventually(() => {
      expect(grid.shadowRoot?.querySelector('[aria-live]')?.textContent).toBe(
        'The reading of Q1 D→S is not among these. Row 2 of 400, HERON-48 F1, as received, OL\u00a0Ω, open',
      );
    });
    expect(focused(grid)).toEqual({ row: 3, column: 1, seen: true });
  });

  test('goes to the header when no reading is left', async () => {
    const { session, change } = fakeSession({
      ...fakeLog(400),
      count: ({ filters }) => ({ readings: filters.length > 0 ? 0 : 400, outOfBand: 0, repairs: 0 }),
      placeOf: () => -1,
    });
    const grid = await show('bt-readings-grid', { session });
    grid.style.height = HEIGHT;
    await eventually(() => {
      expect(cellsOf(grid).length).toBeGreaterThan(100);
    });
    await goTo(grid, 'middle');
    grid.query = filtered;
    await eventually(() => {
      expect(focused(grid)).toEqual({ row: 1, column: 6, seen: true });
    });
    change();
  });
});

const filtered: ReadingsQuery = { filters: [{ field: 'point', oneOf: ['F1'] }], sort: [] };

function cellText(grid: ReadingsGrid): string {
  return grid.shadowRoot?.activeElement?.closest('[role=row]')?.textContent.replaceAll(/\s+/g, ' ') ?? '';
}

describe('a header', () => {
  test('sorts by Enter: up, then down, then not at all', async () => {
    const grid = await showGrid(4000);
    const chosen = vi.fn();
    grid.addEventListener('sort-chosen', (event) => {
      const sort = (event as CustomEvent<ReadingsQuery['sort']>).detail;
      chosen(sort);
      grid.query = { filters: [], sort };
    });
    await goTo(grid, 'first');
    await press(grid, '{ArrowUp}{Enter}');
    expect(chosen).toHaveBeenLastCalledWith([{ field: 'time', descending: false }]);
    expect(grid.shadowRoot?.activeElement?.getAttribute('aria-sort')).toBe('ascending');
    await press(grid, '{Enter}');
    expect(grid.shadowRoot?.activeElement?.getAttribute('aria-sort')).toBe('descending');
    await eventually(() => {
      expect(cellsOf(grid)[COLUMNS - 1]?.textContent.trim()).toBe('shift-2026-03-14.csv:4001');
    });
    await press(grid, '{ArrowRight}{Shift>}{Enter}{/Shift}');
    expect(chosen).toHaveBeenLastCalledWith([
      { field: 'time', descending: true },
      { field: 'repair', descending: false },
    ]);
    expect(grid.shadowRoot?.querySelectorAll('[aria-sort]')).toHaveLength(1);
    await press(grid, '{ArrowLeft}{Enter}');
    expect(chosen).toHaveBeenLastCalledWith([]);
    expect(focused(grid)).toMatchObject({ row: 1, column: 1 });
  });
});

test('Enter on a reading asks for more about it', async () => {
  const grid = await showGrid(4000);
  const opened = vi.fn();
  grid.addEventListener('row-opened', opened);
  await goTo(grid, 'first');
  await press(grid, '{ArrowDown}{Enter}');
  expect(opened).toHaveBeenCalledOnce();
  expect((opened.mock.calls[0]?.[0] as CustomEvent).detail).toMatchObject({ row: 1 });
});

test('the live region says row, point, value and verdict, once the keys rest', async () => {
  const grid = await showGrid(4000);
  await goTo(grid, 'first');
  await press(grid, '{ArrowDown>7/}');
  await eventually(() => {
    expect(grid.shadowRoot?.querySelector('[aria-live]')?.textContent).toBe(
      'Row 8 of 4,000, HERON-48 backlight, live, 12.4\u00a0V, low',
    );
  });
});

test('Ctrl+C copies the selected rows as text', async () => {
  const write = vi.spyOn(navigator.clipboard, 'writeText').mockResolvedValue();
  const grid = await showGrid(4000);
  await goTo(grid, 'first');
  await press(grid, '{Shift>} {ArrowDown}{/Shift}{Control>}c{/Control}');
  await eventually(() => {
    expect(write).toHaveBeenCalledOnce();
  });
  const lines = write.mock.calls[0]?.[0].split('\r\n');
  expect(lines).toHaveLength(3);
  expect(lines?.[2]).toContain('T-0131\tHERON-48\tQ1 D→S\tas received\tresistance\t0.4\u00a0Ω\tshorted');
  write.mockRestore();
});
