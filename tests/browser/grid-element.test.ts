import { describe, expect, test, vi } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import type { ReadingsQuery, SelectionSummary } from '../../src/session/answers.ts';
import type { ReadingsGrid } from '../../src/ui/grid/readings-grid.ts';
import '../../src/ui/grid/readings-grid.ts';
import { fakeLog, fakeSession, type FakeSession } from '../ui/grid/fake-session.ts';
import { all, show, textOf, violations } from './app-page.ts';
import { eventually } from '../support/eventually.ts';
import { frames } from '../support/frames.ts';

interface Shown extends FakeSession {
  readonly grid: ReadingsGrid;
  readonly scroller: HTMLElement;
}

async function showGrid(rows: number, fake: FakeSession = fakeSession(fakeLog(rows))): Promise<Shown> {
  const grid = await show('bt-readings-grid', { session: fake.session });
  grid.style.height = '640px';
  await eventually(() => {
    expect(all(grid, '.row').length).toBeGreaterThanOrEqual(Math.min(20, rows));
  });
  const [scroller] = all(grid, '.scroller');
  if (scroller === undefined) throw new Error('There is no grid.');
  return { ...fake, grid, scroller };
}

/** The cells of one drawn row, as their texts. */
function cellTexts(grid: ReadingsGrid, rowIndex: number): readonly string[] {
  return all(grid, `[aria-rowindex="${rowIndex}"] > *`).map((cell) => cell.textContent.replaceAll(/\s+/g, ' ').trim());
}

/** The row indexes that can be seen, in the order of their places on the screen. */
function rowsInSight({ grid, scroller }: Shown): readonly number[] {
  const view = scroller.getBoundingClientRect();
  const header = all(grid, '.header')[0]?.getBoundingClientRect().bottom ?? 0;
  return all(grid, '.row')
    .map((row) => ({ index: Number(row.getAttribute('aria-rowindex')), box: row.getBoundingClientRect() }))
    .filter(({ box }) => box.bottom > header + 1 && box.top < view.bottom - 1)
    .sort((a, b) => a.box.top - b.box.top)
    .map(({ index }) => index);
}

describe('<bt-readings-grid>', () => {
  test('renders', async () => {
    const { grid } = await showGrid(4012);
    expect(cellTexts(grid, 1)).toEqual([
      'time',
      'repair',
      'family',
      'point',
      'stage',
      'mode',
      'reading',
      'against its band',
      'verdict',
      'meter',
      'file and line',
    ]);
    expect(cellTexts(grid, 4)).toEqual([
      '2026-03-14 09:15:18',
      'T-0131',
      'HERON-48',
      'Q1 D→S new part',
      'part out',
      'resistance',
      '0.640 MΩ',
      '',
      '✓good',
      'M1',
      'shift-2026-03-14.csv:4',
    ]);
  });

  test('is accessible', async () => {
    const { grid } = await showGrid(4012);
    expect(await violations(grid)).toEqual([]);
    await userEvent.click(all(grid, '[aria-rowindex="5"] > [aria-colindex="3"]')[0] ?? grid);
    await userEvent.keyboard('{Shift>}{ArrowDown}{/Shift}');
    expect(await violations(grid)).toEqual([]);
  });

  test('is accessible where it is empty', async () => {
    const { grid } = await showGrid(0);
    await eventually(() => {
      expect(all(grid, '[role=grid]')[0]?.getAttribute('aria-busy')).toBe('false');
    });
    expect(await violations(grid)).toEqual([]);
  });
});

describe('assistive technology', () => {
  test('is told the size of the whole grid, the header row included, and the place of each row and cell in it', async () => {
    const { grid, scroller } = await showGrid(4012);
    expect(scroller.getAttribute('aria-rowcount')).toBe('4013');
    expect(scroller.getAttribute('aria-colcount')).toBe('11');
    expect(all(grid, '[role=row]').slice(0, 4).map((row) => row.getAttribute('aria-rowindex'))).toEqual(['1', '2', '3', '4']); // prettier-ignore
    const first = all(grid, '[aria-rowindex="2"] > [role=gridcell]');
    expect(first.map((cell) => cell.getAttribute('aria-colindex'))).toEqual(first.map((_, index) => String(index + 1)));
  });

  test('finds grid, rows and cells by their roles', async () => {
    await showGrid(4012);
    await expect.element(page.getByRole('grid', { name: 'Readings' })).toBeVisible();
    await expect.element(page.getByRole('columnheader', { name: 'verdict' })).toBeVisible();
    expect(page.getByRole('gridcell', { name: 'T-0131' }).elements().length).toBeGreaterThan(5);
  });

  test('is told the direction of the first sort key alone', async () => {
    const { grid } = await showGrid(4012);
    grid.query = { filters: [], sort: [{ field: 'reading', descending: true }, { field: 'time', descending: false }] }; // prettier-ignore
    await grid.updateComplete;
    const sorted = all(grid, '[aria-sort]');
    expect(sorted.map((cell) => [cell.dataset.column, cell.getAttribute('aria-sort')])).toEqual([
      ['reading', 'descending'],
    ]);
    expect(textOf(grid, '[data-column=time]')).toBe('time ↑2, key 2, ascending');
  });
});

describe('scrolling', () => {
  test('reaches the last of 5,000,000 readings by the scroll bar', async () => {
    const shown = await showGrid(5_000_000);
    shown.scroller.scrollTop = 1e9;
    await eventually(() => {
      expect(rowsInSight(shown).at(-1)).toBe(5_000_001);
    });
    await eventually(() => {
      expect(cellTexts(shown.grid, 5_000_001).at(-1)).toBe('shift-2026-03-14.csv:5000001');
    });
    const last = all(shown.grid, '[aria-rowindex="5000001"]')[0]?.getBoundingClientRect();
    expect(last?.bottom).toBeLessThanOrEqual(shown.scroller.getBoundingClientRect().bottom);
  });

  test('by the wheel moves by real rows, also where the scroll bar is scaled', async () => {
    const shown = await showGrid(5_000_000);
    const height = all(shown.grid, '.row')[0]?.getBoundingClientRect().height ?? 0;
    for (let notch = 0; notch < 5; notch += 1) {
      shown.scroller.dispatchEvent(new WheelEvent('wheel', { deltaY: 3 * height, bubbles: true, cancelable: true }));
      await shown.grid.updateComplete;
    }
    expect(rowsInSight(shown)[0]).toBe(2 + 15);
    // The scroll event that the browser sends after the bar was moved must not move the rows again.
    await frames(3);
    expect(rowsInSight(shown)[0]).toBe(2 + 15);
  });

  test('shows rows without a gap and in their order at whatever place', async () => {
    const shown = await showGrid(1_000_000);
    for (const place of [1, 777, 1e6, 7_654_321, 14_999_000, 3]) {
      shown.scroller.scrollTop = place;
      await eventually(() => {
        expect(Math.abs(shown.scroller.scrollTop - place)).toBeLessThan(1);
      });
      await new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
      const rows = rowsInSight(shown);
      expect(rows.length).toBeGreaterThanOrEqual(20);
      expect(rows).toEqual(rows.map((_, index) => (rows[0] ?? 0) + index));
    }
  });

  test('is never undone by a drawing that comes before the scroll event', async () => {
    const shown = await showGrid(100_000);
    shown.scroller.scrollTop = 50_000;
    shown.grid.requestUpdate();
    await shown.grid.updateComplete;
    await eventually(() => {
      expect(rowsInSight(shown)[0]).toBeGreaterThan(1700);
    });
    expect(shown.scroller.scrollTop).toBe(50_000);
  });

  test('asks for no more than is looked at', async () => {
    const shown = await showGrid(1_000_000);
    shown.asked.length = 0;
    shown.scroller.scrollTop = 7e6;
    await eventually(() => {
      expect(cellTexts(shown.grid, rowsInSight(shown)[3] ?? 0)[1]).toMatch(/^T-/);
    });
    expect(shown.asked.filter(([name]) => name === 'lines').length).toBeLessThanOrEqual(4);
  });

  test('keeps the grid within its own height, where nothing else limits it', async () => {
    const { grid } = await showGrid(5_000_000);
    grid.style.height = '';
    await frames(3);
    expect(all(grid, '.row').length).toBeLessThan(40);
  });
});

describe('what is not here yet', () => {
  test('is drawn as rows that wait, and the grid says that it is busy', async () => {
    const slow = fakeSession(fakeLog(100_000), { delay: 150 });
    const shown = await showGrid(100_000, slow);
    shown.scroller.scrollTop = 1_000_000;
    await eventually(() => {
      expect(all(shown.grid, '.waiting').length).toBeGreaterThan(100);
    });
    await eventually(() => {
      expect(all(shown.grid, '.waiting')).toHaveLength(0);
    });
    shown.grid.query = byTime;
    await shown.grid.updateComplete;
    expect(shown.scroller.getAttribute('aria-busy')).toBe('true');
    // The rows before stay until the others are here.
    expect(all(shown.grid, '.waiting')).toHaveLength(0);
    await eventually(() => {
      expect(shown.scroller.getAttribute('aria-busy')).toBe('false');
    });
    expect(all(shown.grid, '.waiting')).toHaveLength(0);
  });

  test('is fetched anew after the bench has changed', async () => {
    const { grid, asked, change } = await showGrid(4012);
    asked.length = 0;
    change();
    await eventually(() => {
      expect(asked.map(([name]) => name)).toEqual(expect.arrayContaining(['count', 'lines']));
    });
    expect(all(grid, '.row').length).toBeGreaterThan(19);
  });

  test('is said, where it cannot be had', async () => {
    const { session } = fakeSession({
      count: () => {
        throw new Error('The part that reads logs has stopped.');
      },
    });
    const grid = await show('bt-readings-grid', { session });
    await eventually(() => {
      expect(textOf(grid, '[role=alert]')).toBe('The part that reads logs has stopped.');
    });
  });
});

const byTime: ReadingsQuery = { filters: [], sort: [{ field: 'time', descending: true }] };

describe('the pointer', () => {
  test('makes a cell current, and with Shift selects up to another', async () => {
    const { grid } = await showGrid(4012);
    const cell = (row: number, column: number): HTMLElement => {
      const [found] = all(grid, `[aria-rowindex="${row}"] > [aria-colindex="${column}"]`);
      if (found === undefined) throw new Error('There is no such cell.');
      return found;
    };
    await userEvent.click(cell(4, 3));
    expect(grid.shadowRoot?.activeElement).toBe(cell(4, 3));
    await userEvent.keyboard('{Shift>}');
    await userEvent.click(cell(7, 5));
    await userEvent.keyboard('{/Shift}');
    expect(all(grid, '[aria-selected=true]')).toHaveLength(4 * 3);
  });

  test('sorts by a header, and with Shift by one more', async () => {
    const { grid } = await showGrid(4012);
    const chosen = vi.fn();
    grid.addEventListener('sort-chosen', (event) => {
      chosen((event as CustomEvent).detail);
      grid.query = { filters: [], sort: (event as CustomEvent<ReadingsQuery['sort']>).detail };
    });
    await userEvent.click(all(grid, '[role=columnheader][data-column=verdict]')[0] ?? grid);
    expect(chosen).toHaveBeenLastCalledWith([{ field: 'verdict', descending: false }]);
    await userEvent.keyboard('{Shift>}');
    await userEvent.click(all(grid, '[role=columnheader][data-column=meter]')[0] ?? grid);
    await userEvent.keyboard('{/Shift}');
    expect(chosen).toHaveBeenLastCalledWith([
      { field: 'verdict', descending: false },
      { field: 'meter', descending: false },
    ]);
  });
});

describe('the line about the selection', () => {
  async function lineOf(summary: SelectionSummary, decimalMark: '.' | ',' = '.'): Promise<string> {
    const fake = fakeSession({ ...fakeLog(4012), summarise: () => summary }, { decimalMark });
    const { grid } = await showGrid(4012, fake);
    grid.focus();
    await grid.updateComplete;
    await userEvent.keyboard('{Shift>}{ArrowDown}{/Shift}');
    await eventually(() => {
      expect(textOf(grid, '.about')).toContain('selected');
    });
    return textOf(grid, '.about');
  }

  const numbers = { count: 5, mean: 14.8312, median: 12.58, deviation: 7.61, minimum: 5.02, maximum: 25.27, minimumShown: { prefix: 0, decimals: 2 }, maximumShown: { prefix: 0, decimals: 1 }, unit: 'V', lastDigit: -1 } as const; // prettier-ignore

  test('says how many, how many out of band, and what the numbers come to, with their unit', async () => {
    expect(await lineOf({ rows: 5, outOfBand: 1, overRange: 0, numbers })).toBe(
      '5 readings selected out of band 1 mean 14.83 V median 12.6 V standard deviation 7.61 V from 5.02 V to 25.3 V',
    );
  });

  test('counts over-range apart and writes numbers with the decimal mark of the technician', async () => {
    expect(await lineOf({ rows: 5, outOfBand: 1, overRange: 2, numbers }, ',')).toContain(
      'over-range 2, not averaged mean 14,83 V',
    );
  });

  test('has no mean of two units', async () => {
    expect(await lineOf({ rows: 5, outOfBand: 1, overRange: 0 })).toBe('5 readings selected out of band 1');
  });
});

test('numbers stand under one another by their decimal marks', async () => {
  const { grid } = await showGrid(4012);
  const wholes = all(grid, '.reading:not(.word) .whole').map((whole) => whole.getBoundingClientRect().right);
  expect(wholes.length).toBeGreaterThan(10);
  expect(Math.max(...wholes) - Math.min(...wholes)).toBeLessThan(0.5);
});

test('rows grow with the text, and the last one is still reached', async () => {
  const shown = await showGrid(5_000_000);
  const height = (): number => all(shown.grid, '.row')[0]?.getBoundingClientRect().height ?? 0;
  const before = height();
  shown.grid.style.fontSize = '30px';
  await eventually(() => {
    expect(height()).toBe(2 * before);
  });
  await userEvent.click(all(shown.grid, '.row [role=gridcell]')[0] ?? shown.grid);
  await userEvent.keyboard('{Control>}{End}{/Control}');
  await eventually(() => {
    expect(rowsInSight(shown).at(-1)).toBe(5_000_001);
  });
});

test.each([1280, 1920])('all columns are in sight on a page of %i px', async (width) => {
  await page.viewport(width, 800);
  const { scroller } = await showGrid(4012);
  expect(scroller.scrollWidth).toBeLessThanOrEqual(scroller.clientWidth);
  await page.viewport(1280, 800);
});
