import { beforeEach, describe, expect, test } from 'vitest';
import { userEvent } from 'vitest/browser';
import type { ReadingsGrid } from '../../src/ui/grid/readings-grid.ts';
import '../../src/ui/grid/readings-grid.ts';
import { benchSession, type BenchSession } from '../ui/grid/bench-session.ts';
import { show, textOf } from './app-page.ts';
import { movingKeys } from './grid-moving-keys.ts';
import { eventually } from '../support/eventually.ts';

const COLUMNS = 11;
const READINGS = 200;
/** Rows that are deleted before each key, all from the middle on. */
const DELETED = 3;
const LAST = READINGS - DELETED + 1;
/** Rows of data that a grid of this height shows whole: 20, and 19 above the line about edits, so that the page keys move by 18 then. */
const HEIGHT = '640px';
const PAGE = 18;
const MIDDLE = 2 + 2 * PAGE + 1;
/** The first row that is deleted, as assistive technology counts. */
const DELETED_AT = 2 + 2 * (PAGE + 1) + 1;

const LOG = [
  'time,repair,family,point,stage,mode,reading,meter',
  ...Array.from({ length: READINGS }, (_, row) => `2026-04-01T09:${String(Math.floor(row / 60)).padStart(2, '0')}:${String(row % 60).padStart(2, '0')},T-0501,HERON-48,point ${row},live,DC volts,${row}.5 V,M1`),
  '',
].join('\n'); // prettier-ignore

let grid: ReadingsGrid;
let bench: BenchSession;

async function press(keys: string): Promise<void> {
  await userEvent.keyboard(keys);
  await grid.updateComplete;
}

/** Where the focus is as assistive technology is told it, and whether all of its cell can be seen. */
function focused(): { row: number; column: number; seen: boolean } {
  const cell = grid.shadowRoot?.activeElement;
  const scroller = grid.shadowRoot?.querySelector('[role=grid]');
  const header = grid.shadowRoot?.querySelector('.header');
  if (cell == null || scroller == null || header == null) return { row: NaN, column: NaN, seen: false };
  const box = cell.getBoundingClientRect();
  const view = scroller.getBoundingClientRect();
  const isHeader = cell.getAttribute('role') === 'columnheader';
  const top = isHeader ? view.top : header.getBoundingClientRect().bottom;
  const isSeen = box.top >= top - 1 && box.bottom <= view.bottom + 1 && box.left >= view.left - 1 && box.right <= view.right + 1; // prettier-ignore
  return {
    row: Number(cell.closest('[role=row]')?.getAttribute('aria-rowindex')),
    column: Number(cell.getAttribute('aria-colindex')),
    seen: isSeen,
  };
}

const point = (): string =>
  grid.shadowRoot?.activeElement?.closest('[role=row]')?.querySelector('[data-column=point]')?.textContent.trim() ?? '';

async function counted(rows: number): Promise<void> {
  await eventually(() => {
    expect(grid.shadowRoot?.querySelector('[role=grid]')?.getAttribute('aria-rowcount')).toBe(String(rows + 1));
  });
}

async function goTo(at: 'first' | 'middle' | 'last'): Promise<void> {
  await press(at === 'last' ? '{Control>}{End}{/Control}' : '{Control>}{Home}{/Control}');
  if (at === 'middle') await press('{PageDown}{PageDown}{ArrowDown}{ArrowRight>5/}');
}

beforeEach(async () => {
  bench = await benchSession(LOG);
  grid = await show('bt-readings-grid', { session: bench.session });
  grid.style.height = HEIGHT;
  await counted(READINGS);
  grid.focus();
  await grid.updateComplete;
  await goTo('middle');
  await press('{Shift>}{ArrowDown}{ArrowDown}{/Shift}{Shift>}{Delete}{/Shift}');
  await counted(READINGS - DELETED);
});

/** Source: WAI-ARIA Authoring Practices Guide, grid pattern, keyboard interaction for data grids. */
describe('after readings were deleted', () => {
  test.each(movingKeys({ page: PAGE, middle: MIDDLE, last: LAST, columns: COLUMNS }))(
    'from the %s cell: %s leads to row %i, column %i, in sight',
    async (from, keys, row, column) => {
      await goTo(from);
      await press(keys);
      expect(focused()).toEqual({ row, column, seen: true });
    },
  );

  test.each([
    ['{Shift>}{ArrowDown}{ArrowDown}{ArrowRight}{/Shift}', 6],
    ['{Shift>} {/Shift}', COLUMNS],
    ['{Shift>}{End}{/Shift}', COLUMNS - 5],
  ])('%s selects', async (keys, cells) => {
    await goTo('middle');
    await press(keys);
    expect(grid.shadowRoot?.querySelectorAll('[aria-selected=true]')).toHaveLength(cells);
  });

  test.each(['{Control>}a{/Control}', '{Control>} {/Control}'])('%s selects all that is left', async (keys) => {
    await goTo('middle');
    await press(keys);
    await eventually(() => {
      expect(textOf(grid, '.about')).toContain(`${READINGS - DELETED} readings selected`);
    });
  });

  test('the focus is on what stands in their place, and it is said what happened and where it is', async () => {
    expect(point()).toBe(`point ${DELETED_AT + DELETED}`);
    await eventually(() => {
      expect(textOf(grid, '[aria-live]')).toMatch(/^3 readings deleted\. The reading of point 41 is not among these\. Row 42 of 197/); // prettier-ignore
    });
  });

  test('they come back by Ctrl+Z, the focus staying on its reading', async () => {
    const stays = point();
    await press('{Control>}z{/Control}');
    await counted(READINGS);
    await eventually(() => {
      expect(point()).toBe(stays);
      expect(focused().seen).toBe(true);
      expect(textOf(grid, '[aria-live]')).toMatch(/^Taken back: 3 readings deleted\. Row \d+ of 200/);
    });
    await press('{Control>}y{/Control}');
    await counted(READINGS - DELETED);
    expect(point()).toBe(stays);
  });

  test('the last rows can go too: the focus goes to the row that is the last then', async () => {
    await goTo('last');
    await press('{Shift>}{ArrowUp}{/Shift}{Shift>}{Delete}{/Shift}');
    await counted(READINGS - DELETED - 2);
    expect(focused()).toEqual({ row: LAST - 2, column: COLUMNS, seen: true });
  });

  test('all can go: the focus is on a header, and Ctrl+Z brings them back', async () => {
    await press('{Control>}a{/Control}{Shift>}{Delete}{/Shift}');
    await counted(0);
    await eventually(() => {
      expect(grid.shadowRoot?.activeElement?.getAttribute('role')).toBe('columnheader');
    });
    await press('{Control>}z{/Control}');
    await counted(READINGS - DELETED);
  });
});

test('a reading whose place changes with its edit keeps the focus where it goes', async () => {
  grid.query = { filters: [], sort: [{ field: 'reading', descending: false }] };
  await eventually(() => {
    expect(grid.shadowRoot?.querySelector('[aria-sort]')).not.toBeNull();
  });
  await goTo('first');
  await press('{End}{ArrowLeft>4/}');
  const name = point();
  await press('9999 V{Control>}{Enter}{/Control}');
  await eventually(() => {
    expect(point()).toBe(name);
    expect(focused()).toMatchObject({ row: LAST, seen: true });
  });
});
