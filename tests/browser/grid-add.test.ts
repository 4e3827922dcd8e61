import { beforeEach, describe, expect, test } from 'vitest';
import { userEvent } from 'vitest/browser';
import type { ReadingRow } from '../../src/session/answers.ts';
import type { ReadingsGrid } from '../../src/ui/grid/readings-grid.ts';
import '../../src/ui/grid/readings-grid.ts';
import type { ReadingsHistory } from '../../src/ui/panels/readings-history.ts';
import '../../src/ui/panels/readings-history.ts';
import { benchSession, SMALL_LOG, type BenchSession } from '../ui/grid/bench-session.ts';
import { all, drawn, show, textOf, violations } from './app-page.ts';
import { eventually } from '../support/eventually.ts';

let grid: ReadingsGrid;
let bench: BenchSession;

beforeEach(async () => {
  bench = await benchSession(SMALL_LOG);
  grid = await show('bt-readings-grid', { session: bench.session });
  grid.style.height = '900px';
  await eventually(() => {
    expect(all(grid, '.row')).toHaveLength(9);
  });
});

function cell(line: number, column: string): HTMLElement {
  const [found] = all(grid, `[aria-rowindex="${line + 2}"] > [data-column=${column}]`);
  if (found === undefined) throw new Error(`There is no cell ${line} ${column}.`);
  return found;
}

const rows = (): Promise<readonly ReadingRow[]> => bench.ask('window', { filters: [], sort: [] }, 0, 100);
const plainText = (element: Element): string => element.textContent.replaceAll(/\s+/g, ' ').trim();

async function press(line: number, column: string, keys: string): Promise<void> {
  await userEvent.click(cell(line, column));
  await userEvent.keyboard(keys);
  await drawn(grid);
}

function button(words: string): HTMLElement {
  const found = all(grid, 'button').find((one) => plainText(one) === words);
  if (found === undefined) throw new Error(`There is no button “${words}”.`);
  return found;
}

async function rowCount(count: number): Promise<void> {
  await eventually(async () => {
    expect(await rows()).toHaveLength(count);
    expect(all(grid, '.row')).toHaveLength(count);
  });
}

async function said(text: RegExp | string): Promise<void> {
  await eventually(() => {
    expect(textOf(grid, '[aria-live]')).toMatch(text);
  });
}

async function paste(line: number, column: string, text: string): Promise<void> {
  await userEvent.click(cell(line, column));
  const clipboardData = new DataTransfer();
  clipboardData.setData('text/plain', text);
  grid.shadowRoot?.activeElement?.dispatchEvent(
    new ClipboardEvent('paste', { clipboardData, bubbles: true, composed: true, cancelable: true }),
  );
  await eventually(() => {
    expect(textOf(grid, '.preview [role=status]')).not.toMatch(/Reading the block/);
    expect(grid.shadowRoot?.activeElement?.className).toBe('preview');
  });
}

describe('a block pasted as new readings', () => {
  beforeEach(async () => {
    await paste(0, 'reading', '5,11 V\tgood\tM1\r\n"5,12 V"\tx\tM9\r\ntwelve\tx\tM9\r\n');
    await userEvent.click(all(grid, '.manner input')[1] ?? grid);
    await eventually(() => {
      expect(textOf(grid, '.preview')).toMatch(/would be added/);
    });
  });

  test('is shown with what would be added, and what is wrong in which cell', async () => {
    expect(all(grid, '.preview p').slice(1).map(plainText)).toEqual([
      '2 readings would be added and 1 row set aside with the reason, to be mended on Shift.',
      'Read by the columns of the grid: reading and meter. What the block does not say is as in the current row: T-0501, HERON-48, 5V standby, live, DC volts.',
    ]);
    expect(all(grid, '.preview li').map(plainText)).toEqual([
      expect.stringMatching(/^Row 3 of the block, reading: “twelve” .*is no number/),
      'T-0501, HERON-48 5V standby, live, 5.11 V, M1',
      'T-0501, HERON-48 5V standby, live, 5.12 V, M9',
    ]);
    expect(await rows()).toHaveLength(9);
    expect(await violations(grid)).toEqual([]);
  });

  test('is added and said, taken back by Ctrl+Z and done again by Ctrl+Y, while the focus stays on its reading', async () => {
    await userEvent.click(button('Add them'));
    await rowCount(11);
    await said(/^2 readings added\. 1 row set aside: see Shift\./);
    expect(grid.shadowRoot?.activeElement).toBe(cell(0, 'reading'));
    await userEvent.keyboard('{Control>}z{/Control}');
    await rowCount(9);
    await said(/^Taken back: 2 readings added\./);
    await userEvent.keyboard('{Control>}y{/Control}');
    await rowCount(11);
    await said(/^Done again: 2 readings added\./);
  });

  test('changes nothing by Escape, and gives the focus back', async () => {
    await userEvent.keyboard('{Escape}');
    await drawn(grid);
    expect(all(grid, '.preview')).toHaveLength(0);
    expect(grid.shadowRoot?.activeElement).toBe(cell(0, 'reading'));
    expect(await bench.ask('editsSoFar')).toMatchObject({ steps: 0 });
  });
});

test('a block longer than the readings under it says what it leaves out', async () => {
  await paste(8, 'meter', 'M7\nM8\nM9\n');
  expect(textOf(grid, '.preview')).toMatch(
    /2 rows of the block fall below the last line and are left out: as new readings/,
  );
});

test('a block with headers of another program is matched by them', async () => {
  await paste(0, 'time', 'Date;x\tTest point\tPhase\tValue\tJob\r\n1\tF1\tlive\t0,2 Ω\tT-0999\r\n');
  await userEvent.click(all(grid, '.manner input')[1] ?? grid);
  await eventually(() => {
    expect(textOf(grid, '.preview')).toMatch(/1 reading would be added\. Read by its headers: “Test point” as point, “Phase” as stage, “Value” as reading and “Job” as repair/); // prettier-ignore
  });
});

test('the selected readings are added once more by Shift+Ctrl+D', async () => {
  await press(2, 'point', '{Shift>}{ArrowDown}{/Shift}{Shift>}{Control>}d{/Control}{/Shift}');
  await rowCount(11);
  await said(/^2 readings added\./);
  expect((await rows()).slice(9).map(({ point, value }) => [point, value])).toEqual([['Q1 D→S', 0.4], ['Q1 D→S', 0.5]]); // prettier-ignore
});

test('Ctrl+D fills a selection with what its first row holds', async () => {
  await press(0, 'meter', '{Shift>}{ArrowDown>5/}{/Shift}');
  await bench.ask('editReadings', { filters: [], sort: [] }, [{ first: 0, last: 0, field: 'meter', text: 'B1' }], '.');
  await press(4, 'meter', '{Control>}d{/Control}');
  await said(/^Nothing was filled: select several rows/);
  await press(5, 'reading', '{Shift>}{ArrowDown}{ArrowRight>3/}{/Shift}{Control>}d{/Control}');
  await eventually(async () => {
    expect((await rows())[6]).toMatchObject({ state: 'value', value: 5.1, decimals: 2, meter: 'M2' });
  });
});

describe('a reading that is written by hand', () => {
  const field = (name: string): HTMLInputElement => {
    const [found] = all(grid, `.new-row [name=${name}]`);
    if (!(found instanceof HTMLInputElement)) throw new Error(`There is no field ${name}.`);
    return found;
  };

  beforeEach(async () => {
    await press(1, 'point', '{Insert}');
    await eventually(() => {
      expect(grid.shadowRoot?.activeElement).toBe(field('reading'));
    });
  });

  test('begins as the current one, and is accessible', async () => {
    expect([field('repair').value, field('point').value, field('reading').value]).toEqual(['T-0501', 'bulk', '']);
    expect(field('time').value).toMatch(/^\d{4}-\d\d-\d\d \d\d:\d\d:\d\d$/);
    expect(await violations(grid)).toEqual([]);
  });

  test('keeps what was written so far however often the grid is drawn', async () => {
    await userEvent.keyboard('388');
    grid.requestUpdate();
    await drawn(grid);
    await userEvent.keyboard(',2');
    expect(field('reading').value).toBe('388,2');
  });

  test('is added by Enter, and the next one can be written at once', async () => {
    await userEvent.keyboard('388,2 V{Enter}');
    await rowCount(10);
    await said(/^Added: .*T-0501, HERON-48 bulk, live, 388\.2.V, M1\./);
    expect((await rows())[9]).toMatchObject({ repair: 'T-0501', point: 'bulk', value: 388.2 });
    expect(grid.shadowRoot?.activeElement).toBe(field('reading'));
    expect(field('reading').value).toBe('');
    await userEvent.keyboard('{Escape}');
    await drawn(grid);
    expect(grid.shadowRoot?.activeElement).toBe(cell(1, 'point'));
  });

  test.each([
    ['reading', '12 Ω', /is in Ω, in which DC volts is not measured/],
    ['reading', '5,555', /with decimals, or one with a mark between thousands/],
    ['reading', '', /Write what the meter showed/],
    ['repair', '', /no repair/],
    ['time', '2026-02-30', /no calendar has/],
  ])('with %s “%s” is not added, and says beside the field why', async (name, text, sentence) => {
    if (name !== 'reading') await userEvent.fill(field('reading'), '5 V');
    await userEvent.fill(field(name), text);
    await userEvent.keyboard('{Enter}');
    await eventually(() => {
      expect(textOf(grid, `#new-${name}`)).toMatch(sentence);
    });
    expect(field(name).getAttribute('aria-invalid')).toBe('true');
    expect(grid.shadowRoot?.activeElement).toBe(field(name));
    expect(await rows()).toHaveLength(9);
    expect(await violations(grid)).toEqual([]);
  });
});

test('why the last edit was made is asked beside it, and told in the history with who made it', async () => {
  await bench.ask('changeSettings', { prices: [], technician: 'Ada' });
  await press(0, 'reading', '7,02 V{Enter}');
  await eventually(() => {
    expect(textOf(grid, '.edits')).toMatch(/last: 1 reading edited, \d{4}-\d\d-\d\d \d\d:\d\d, Ada/);
  });
  await userEvent.fill(all(grid, '.why')[0] ?? grid, 'misread');
  await userEvent.tab();
  await eventually(async () => {
    expect((await bench.ask('editsSoFar')).last?.why).toBe('misread');
  });
  expect(await violations(grid)).toEqual([]);
  const [row] = await rows();
  const history: ReadingsHistory = await show('bt-readings-history', { session: bench.session, ...(row && { row }) });
  await eventually(() => {
    expect(textOf(history, 'li')).toMatch(/Ada reading 5\.02.V → 7\.02.V: “misread”$/);
  });
  expect(textOf(history, 'p')).toMatch(/^As it was brought in: reading 5\.02.V\./);
  expect(await violations(history)).toEqual([]);
  await userEvent.click(all(history, 'button')[0] ?? history);
  await eventually(async () => {
    expect((await rows())[0]).toMatchObject({ value: 5.02, decimals: 2 });
  });
});
