import { beforeAll, describe, expect, test } from 'vitest';
import { userEvent } from 'vitest/browser';
import type { ReadingsQuery } from '../../src/session/answers.ts';
import type { ReadingsGrid } from '../../src/ui/grid/readings-grid.ts';
import '../../src/ui/grid/readings-grid.ts';
import { benchSession } from '../ui/grid/bench-session.ts';
import { show } from './app-page.ts';
import { focused } from './grid-focus.ts';
import { eventually } from '../support/eventually.ts';

const COLUMNS = 11;
/** Rows of data that a grid of this height shows whole: 20, so that the page keys move by 19. */
const HEIGHT = '640px';
const PAGE = 19;

/** Three hundred readings of three points over ten repairs, one a minute. */
const LOG = [
  'time,repair,family,point,stage,mode,reading,unit,meter',
  ...Array.from({ length: 300 }, (_, row) => {
    const time = new Date(Date.UTC(2026, 3, 1, 9) + row * 60_000).toISOString().slice(0, 19);
    const point = ['bulk', '12V main', '24V main'][row % 3] ?? '';
    return `${time},T-${501 + Math.floor(row / 30)},HERON-48,${point},live,DC volts,${((row * 37) % 101) / 10},V,M1`;
  }),
  '',
].join('\n');

interface Shown {
  readonly query: ReadingsQuery;
  /** Lines of the grid, the groups' own included. */
  readonly lines: number;
  /** Lines of groups by their places, from 0. */
  readonly groups: readonly number[];
}

const STATES: Readonly<Record<string, Shown>> = {
  'sorted by two columns': {
    query: { filters: [], sort: [{ field: 'reading', descending: true }, { field: 'repair', descending: false }] }, // prettier-ignore
    lines: 300,
    groups: [],
  },
  filtered: { query: { filters: [{ field: 'point', oneOf: ['bulk'] }], sort: [] }, lines: 100, groups: [] },
  grouped: {
    query: { filters: [], sort: [], group: { by: 'point', folded: false, except: [] } },
    lines: 303,
    groups: [0, 101, 202],
  },
};

/** Where a key leads by the grid pattern for data grids of the WAI-ARIA Authoring Practices Guide; rows from 0, the header being -1. */
const KEYS: readonly [string, (row: number, column: number, lastRow: number) => readonly [number, number]][] = [
  ['{ArrowRight}', (row, column) => [row, Math.min(column + 1, COLUMNS - 1)]],
  ['{ArrowLeft}', (row, column) => [row, Math.max(column - 1, 0)]],
  ['{ArrowDown}', (row, column, lastRow) => [Math.min(row + 1, lastRow), column]],
  ['{ArrowUp}', (row, column) => [row - 1, column]],
  ['{PageDown}', (row, column, lastRow) => [Math.min(row + PAGE, lastRow), column]],
  ['{PageUp}', (row, column) => [Math.max(row - PAGE, 0), column]],
  ['{Home}', (row) => [row, 0]],
  ['{End}', (row) => [row, COLUMNS - 1]],
  ['{Control>}{Home}{/Control}', () => [0, 0]],
  ['{Control>}{End}{/Control}', (_row, _column, lastRow) => [lastRow, COLUMNS - 1]],
  ['{Shift>}{ArrowRight}{/Shift}', (row, column) => [row, Math.min(column + 1, COLUMNS - 1)]],
  ['{Shift>}{ArrowLeft}{/Shift}', (row, column) => [row, Math.max(column - 1, 0)]],
  ['{Shift>}{ArrowDown}{/Shift}', (row, column, lastRow) => [Math.min(row + 1, lastRow), column]],
  ['{Shift>}{PageDown}{/Shift}', (row, column, lastRow) => [Math.min(row + PAGE, lastRow), column]],
  ['{Shift>}{PageUp}{/Shift}', (row, column) => [Math.max(row - PAGE, 0), column]],
  ['{Shift>}{Home}{/Shift}', (row) => [row, 0]],
  ['{Shift>}{End}{/Shift}', (row) => [row, COLUMNS - 1]],
  ['{Shift>}{Control>}{Home}{/Control}{/Shift}', () => [0, 0]],
  ['{Shift>}{Control>}{End}{/Control}{/Shift}', (_row, _column, lastRow) => [lastRow, COLUMNS - 1]],
  ['{Shift>} {/Shift}', (row, column) => [row, column]],
  ['{Control>} {/Control}', (row, column) => [row, column]],
  ['{Control>}a{/Control}', (row, column) => [row, column]],
];

describe.each(Object.entries(STATES))('in a grid %s', (_, { query, lines, groups }) => {
  let grid: ReadingsGrid;
  beforeAll(async () => {
    const { session } = await benchSession(LOG);
    grid = await show('bt-readings-grid', { session, query });
    grid.style.height = HEIGHT;
    await eventually(() => {
      expect(grid.shadowRoot?.querySelector('[aria-rowcount]')?.getAttribute('aria-rowcount')).toBe(String(lines + 1));
      expect(grid.shadowRoot?.querySelectorAll('.row').length).toBeGreaterThan(19);
    });
  });

  const middle = [...Array<string>(2).fill('PageDown'), 'ArrowDown', ...Array<string>(5).fill('ArrowRight')];
  const starts = [
    ['first', [], 0, 0],
    ['middle', middle, 2 * PAGE + 1, 5],
    ['last', ['End'], lines - 1, COLUMNS - 1],
  ] as const;

  describe.each(starts)('from the %s cell', (_start, way, row, column) => {
    test.each(KEYS)('%s leads where it should, in sight', async (keys, target) => {
      grid.focus();
      await grid.updateComplete;
      await go(grid, 'Home');
      await selectionLeft(grid);
      for (const key of way) await go(grid, key);
      await userEvent.keyboard(keys);
      const [toRow, toColumn] = target(row, column, lines - 1);
      const expected = { row: toRow + 2, column: groups.includes(toRow) ? 1 : toColumn + 1, seen: true };
      await eventually(() => {
        expect(focused(grid)).toEqual(expected);
      });
      expect(grid.shadowRoot?.querySelectorAll('.scroller [tabindex="0"]')).toHaveLength(1);
    });
  });
});

/** Waits until the line about a selection is gone, and the rows have the room that it took. */
async function selectionLeft(grid: ReadingsGrid): Promise<void> {
  await eventually(() => {
    expect(grid.shadowRoot?.querySelector('.about b')).toBeNull();
  });
  for (let frame = 0; frame < 2; frame += 1) await new Promise((resolve) => requestAnimationFrame(resolve));
  await grid.updateComplete;
}

/** Goes to where a test starts, by the event that a key would make: Home and End lead to the ends of all. */
async function go(grid: ReadingsGrid, key: string): Promise<void> {
  const ctrlKey = key === 'Home' || key === 'End';
  const event = new KeyboardEvent('keydown', { key, ctrlKey, bubbles: true, composed: true });
  grid.shadowRoot?.activeElement?.dispatchEvent(event);
  await grid.updateComplete;
}
