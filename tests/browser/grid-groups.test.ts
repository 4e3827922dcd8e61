import { expect, test } from 'vitest';
import { userEvent } from 'vitest/browser';
import type { Grouping, ReadingsQuery } from '../../src/session/answers.ts';
import type { ReadingsGrid } from '../../src/ui/grid/readings-grid.ts';
import '../../src/ui/grid/readings-grid.ts';
import { benchSession, SMALL_LOG } from '../ui/grid/bench-session.ts';
import { all, drawn, show, textOf, violations } from './app-page.ts';
import { eventually } from '../support/eventually.ts';

const BY_FAMILY: Grouping = { by: 'family', folded: true, except: ['HERON-48'] };
const asked = (group: Grouping): ReadingsQuery => ({ filters: [], sort: [], group });

/** Shows the small log in groups, and folds and unfolds them as a place around the grid would. */
async function showGroups(group = BY_FAMILY, log = SMALL_LOG): Promise<ReadingsGrid> {
  const { session } = await benchSession(log);
  const grid = await show('bt-readings-grid', { session, query: asked(group) });
  grid.style.height = '640px';
  grid.addEventListener('grouping-chosen', (event) => {
    grid.query = asked((event as CustomEvent<Grouping>).detail);
  });
  await eventually(() => {
    expect(all(grid, '.group').length).toBeGreaterThan(1);
  });
  return grid;
}

/** The lines that are drawn: a group by its text, a reading by its point. */
function linesOf(grid: ReadingsGrid): readonly string[] {
  return all(grid, '.row').map((row) => {
    const cell = row.querySelector('.group-line') ?? row.querySelector('[data-column=point]');
    return cell?.textContent.replaceAll(/\s+/g, ' ').trim() ?? '';
  });
}

test('groups show their numbers, folded ones alone, and are told to assistive technology as a tree of rows', async () => {
  const grid = await showGroups();
  expect(linesOf(grid)).toEqual([
    '▾HERON-48 7 readings none judged 1 over-range',
    '5V standby',
    'bulk',
    'Q1 D→S',
    'Q1 D→S',
    'Q1 D→S new part',
    '5V standby',
    'bulk',
    '▸PLOVER-32 2 readings none judged median 163.2 V median absolute deviation 158.3 V',
  ]);
  const [tree] = all(grid, '[role=treegrid]');
  expect(tree?.getAttribute('aria-rowcount')).toBe('10');
  const rows = all(grid, '.row').map((row) => [row.getAttribute('aria-level'), row.getAttribute('aria-expanded')]);
  expect(rows[0]).toEqual(['1', 'true']);
  expect(rows[1]).toEqual(['2', null]);
  expect(rows.at(-1)).toEqual(['1', 'false']);
  expect(await violations(grid)).toEqual([]);
});

test('Enter folds and unfolds the group under the cursor, which keeps the focus', async () => {
  const grid = await showGroups();
  grid.focus();
  await drawn(grid);
  await userEvent.keyboard('{Enter}');
  await eventually(() => {
    expect(linesOf(grid)).toHaveLength(2);
  });
  const focused = (): string => grid.shadowRoot?.activeElement?.textContent.replaceAll(/\s+/g, ' ').trim() ?? '';
  await drawn(grid);
  expect(focused()).toContain('▸HERON-48');
  await userEvent.keyboard('{ArrowDown}{Enter}');
  await eventually(() => {
    expect(linesOf(grid)).toHaveLength(4);
  });
  await drawn(grid);
  expect(focused()).toContain('▾PLOVER-32');
});

test('keys move through groups and readings in one column, and what is reached is said', async () => {
  const grid = await showGroups();
  grid.focus();
  await drawn(grid);
  await userEvent.keyboard('{ArrowDown}{ArrowRight}{ArrowRight}{Control>}{End}{/Control}');
  await drawn(grid);
  await eventually(() => {
    expect(textOf(grid, '[aria-live]')).toBe(
      'Row 9 of 9, PLOVER-32: 2 readings, none judged, median 163.2 V, median absolute deviation 158.3 V',
    );
  });
  await userEvent.keyboard('{ArrowUp}');
  await drawn(grid);
  expect(grid.shadowRoot?.activeElement?.getAttribute('aria-colindex')).toBe('11');
  expect(all(grid, '[role=treegrid] [tabindex="0"]')).toHaveLength(1);
});

test('days are groups too, and a double click folds one', async () => {
  const grid = await showGroups({ by: 'day', folded: false, except: [] });
  const groups = (): readonly string[] => linesOf(grid).filter((line) => /^[▸▾]/.test(line));
  expect(groups().map((line) => line.slice(0, 11))).toEqual(['▾2026-04-01', '▾2026-04-02']);
  await userEvent.dblClick(all(grid, '.group-line')[0] ?? grid);
  await eventually(() => {
    expect(groups()[0]).toContain('▸2026-04-01');
  });
  expect(linesOf(grid)).toHaveLength(6);
});

test('a selection over groups counts the readings in it alone', async () => {
  const grid = await showGroups();
  grid.focus();
  await drawn(grid);
  await userEvent.keyboard('{Control>}a{/Control}');
  await eventually(() => {
    expect(textOf(grid, '.about')).toContain('7 readings selected');
  });
});

test('thousands of groups are listed as far as they are seen, and the last is reached', async () => {
  const [header = ''] = SMALL_LOG.split('\n');
  const rows = Array.from(
    { length: 6000 },
    (_, index) => `2026-04-01T09:00:00,T-${String(index >> 1).padStart(4, '0')},HERON-48,bulk,live,DC volts,board,${380 + (index % 7)},V,M1`,
  ); // prettier-ignore
  const grid = await showGroups({ by: 'repair', folded: true, except: [] }, [header, ...rows, ''].join('\n'));
  expect(all(grid, '[role=treegrid]')[0]?.getAttribute('aria-rowcount')).toBe('3001');
  expect(all(grid, '.row').length).toBeLessThan(40);
  grid.focus();
  await drawn(grid);
  await userEvent.keyboard('{Control>}{End}{/Control}');
  await eventually(() => {
    expect(grid.shadowRoot?.activeElement?.textContent).toContain('T-2999');
  });
});
