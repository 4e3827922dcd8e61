import { beforeEach, describe, expect, test } from 'vitest';
import { userEvent } from 'vitest/browser';
import type { ReadingRow } from '../../src/session/answers.ts';
import { FIRST_LAYOUT, withShown } from '../../src/ui/grid/column-layout.ts';
import type { ReadingsGrid } from '../../src/ui/grid/readings-grid.ts';
import '../../src/ui/grid/readings-grid.ts';
import { benchSession, SMALL_LOG, type BenchSession } from '../ui/grid/bench-session.ts';
import { all, drawn, show, textOf, violations } from './app-page.ts';
import { eventually } from '../support/eventually.ts';

let grid: ReadingsGrid;
let bench: BenchSession;

beforeEach(async () => {
  bench = await benchSession(SMALL_LOG);
  await bench.ask('setBands', [
    { family: 'HERON-48', point: '5V standby', mode: 'DC volts', expects: { kind: 'percent', nominal: 5, percent: 5 }, basis: 'typed in' },
  ]); // prettier-ignore
  grid = await show('bt-readings-grid', { session: bench.session });
  grid.style.height = '640px';
  await eventually(() => {
    expect(all(grid, '.row')).toHaveLength(9);
  });
});

/** A cell by its line, the first being 0, and its column. */
function cell(line: number, column: string): HTMLElement {
  const [found] = all(grid, `[aria-rowindex="${line + 2}"] > [data-column=${column}]`);
  if (found === undefined) throw new Error(`There is no cell ${line} ${column}.`);
  return found;
}

const said = (line: number, column: string): string => cell(line, column).textContent.replaceAll(/\s+/g, ' ').trim();
const rows = (): Promise<readonly ReadingRow[]> => bench.ask('window', { filters: [], sort: [] }, 0, 100);

/** Presses keys with the focus on a cell. */
async function press(line: number, column: string, keys: string): Promise<void> {
  await userEvent.click(cell(line, column));
  await userEvent.keyboard(keys);
  await drawn(grid);
}

function pasteText(text: string): void {
  const clipboardData = new DataTransfer();
  clipboardData.setData('text/plain', text);
  grid.shadowRoot?.activeElement?.dispatchEvent(
    new ClipboardEvent('paste', { clipboardData, bubbles: true, composed: true, cancelable: true }),
  );
}

describe('a cell', () => {
  test('is edited by F2 in its own terms, judged anew, and marked with its original', async () => {
    await press(0, 'reading', '{F2}');
    const [editor] = all(grid, '.editor') as readonly HTMLInputElement[];
    expect(editor?.value).toBe('5.02\u00a0V');
    expect(grid.shadowRoot?.activeElement).toBe(editor);
    expect(await violations(grid)).toEqual([]);
    await userEvent.fill(editor ?? grid, '7,02 V');
    await userEvent.keyboard('{Enter}');
    await eventually(() => {
      expect(said(0, 'reading')).toBe('7.02 V, was 5.02 V');
    });
    expect(said(0, 'verdict')).toBe('▲high');
    expect(cell(0, 'reading').title).toBe('was 5.02\u00a0V');
    expect(textOf(grid, '.edits')).toContain('1 reading edited by hand');
    await eventually(() => {
      expect(grid.shadowRoot?.activeElement).toBe(cell(1, 'reading'));
    });
    expect(await violations(grid)).toEqual([]);
  });

  test('begins with the letter that is typed, and Escape leaves it as it was', async () => {
    await press(0, 'meter', 'M7');
    expect((all(grid, '.editor')[0] as HTMLInputElement).value).toBe('M7');
    await userEvent.keyboard('{Escape}');
    await drawn(grid);
    expect(all(grid, '.editor')).toHaveLength(0);
    expect(said(0, 'meter')).toBe('M1');
    expect(grid.shadowRoot?.activeElement).toBe(cell(0, 'meter'));
  });

  test('that cannot be read says why beside it, and keeps what was typed', async () => {
    await press(3, 'stage', 'soon{Enter}');
    await eventually(() => {
      expect(textOf(grid, '.fault')).toBe(
        '“soon” is no stage that is known. Write as received, part out, refitted, live or run-in.',
      );
    });
    const [editor] = all(grid, '.editor') as readonly HTMLInputElement[];
    expect(editor?.value).toBe('soon');
    expect(editor?.getAttribute('aria-invalid')).toBe('true');
    expect(grid.shadowRoot?.activeElement).toBe(editor);
    const fault = all(grid, '.fault')[0]?.getBoundingClientRect();
    expect(fault?.top).toBeGreaterThanOrEqual((editor?.getBoundingClientRect().bottom ?? 0) - 2);
    expect(await violations(grid)).toEqual([]);
  });

  test('near the lower end says what is wrong above it, where there is room', async () => {
    await press(8, 'stage', 'soon{Enter}');
    await eventually(() => {
      expect(textOf(grid, '.fault')).toContain('is no stage');
    });
    const fault = all(grid, '.fault')[0]?.getBoundingClientRect();
    expect(fault?.bottom).toBeLessThanOrEqual((all(grid, '.editor')[0]?.getBoundingClientRect().top ?? 0) + 2);
  });

  test('of a specimen is edited in its own words, where that column is shown', async () => {
    grid.layout = withShown(FIRST_LAYOUT, 'specimen', true);
    await eventually(() => {
      expect(said(0, 'specimen')).toBe('board');
    });
    await press(0, 'specimen', 'part{Enter}');
    await eventually(() => {
      expect(textOf(grid, '.fault')).toBe('“part” is no specimen that is known. Write board or new part.');
    });
    await userEvent.fill(all(grid, '.editor')[0] ?? grid, 'new part');
    await userEvent.keyboard('{Enter}');
    await eventually(() => {
      expect(said(0, 'specimen')).toBe('new part, was board');
      expect(said(0, 'point')).toBe('5V standby new part');
    });
  });

  test.each([
    ['reading', '12 Ω', /is in Ω, in which DC volts is not measured/],
    ['reading', '5,555', /may be read in two ways/],
    ['time', '2026-02-30', /no calendar has/],
    ['repair', ' ', /Every reading has a repair/],
    ['point', 'x'.repeat(5000), /is longer than/],
    ['mode', 'resistance', /is measured in Ω, and the reading is in V/],
  ])('of the column %s does not take “%s”: it says why, and nothing is changed', async (column, text, sentence) => {
    const before = await rows();
    await press(0, column, '{F2}');
    await userEvent.fill(all(grid, '.editor')[0] ?? grid, text);
    await userEvent.keyboard('{Enter}');
    await eventually(() => {
      expect(textOf(grid, '.fault')).toMatch(sentence);
    });
    await userEvent.keyboard('{Escape}');
    await drawn(grid);
    expect(await rows()).toEqual(before);
    expect(grid.shadowRoot?.activeElement).toBe(cell(0, column));
  });

  test('of a verdict cannot be edited, and is said to be so', async () => {
    await press(0, 'verdict', '{F2}');
    expect(all(grid, '.editor')).toHaveLength(0);
    expect(cell(0, 'verdict').getAttribute('aria-readonly')).toBe('true');
    expect(cell(0, 'reading').getAttribute('aria-readonly')).toBe('false');
  });
});

describe('a selection', () => {
  test('is filled by Ctrl+Enter, and undo and redo lead back and forth', async () => {
    await press(0, 'meter', '{Shift>}{ArrowDown}{ArrowDown}{/Shift}B1{Control>}{Enter}{/Control}');
    await eventually(async () => {
      expect((await rows()).slice(0, 4).map(({ meter }) => meter)).toEqual(['B1', 'B1', 'B1', 'M1']);
    });
    await userEvent.keyboard('{Control>}z{/Control}');
    await eventually(() => {
      expect(said(0, 'meter')).toBe('M1');
    });
    await userEvent.keyboard('{Control>}y{/Control}');
    await eventually(() => {
      expect(said(0, 'meter')).toBe('B1, was M1');
    });
  });

  test('gets its original values back at one key, and is deleted and brought back', async () => {
    await press(0, 'meter', '{Shift>}{ArrowDown}{/Shift}B1{Control>}{Enter}{/Control}');
    await eventually(() => {
      expect(said(1, 'meter')).toBe('B1, was M1');
    });
    await userEvent.keyboard('{Control>}{Backspace}{/Control}');
    await eventually(() => {
      expect([said(0, 'meter'), said(1, 'meter')]).toContain('M1');
    });
    await press(2, 'point', '{Shift>}{Delete}{/Shift}');
    await eventually(() => {
      expect(all(grid, '.row')).toHaveLength(8);
    });
    expect(textOf(grid, '.edits')).toContain('1 reading deleted');
    await eventually(() => {
      expect(grid.shadowRoot?.activeElement?.getAttribute('role')).toBe('gridcell');
    });
    const back = all(grid, '.edits button').find((button) => button.textContent === 'bring the deleted back');
    await userEvent.click(back ?? grid);
    await eventually(() => {
      expect(all(grid, '.row')).toHaveLength(9);
    });
  });
});

describe('a pasted block', () => {
  test('is shown with what it changes before it does, under the headers of the grid too', async () => {
    await userEvent.click(cell(0, 'reading'));
    pasteText('reading\tverdict\tmeter\r\n5.11 V\tgood\tM1\r\nOL\tgood\tM9\r\n');
    await eventually(() => {
      expect(textOf(grid, '.preview [role=status] p')).toBe('3 cells would change:');
    });
    expect(all(grid, '.preview li').map((item) => item.textContent.replaceAll(/\s+/g, ' ').trim())).toEqual([
      'Row 1, reading: 5.02 V becomes 5.11 V',
      'Row 2, reading: 390.1 V becomes OL V',
      'Row 2, meter: M1 becomes M9',
    ]);
    expect((await rows())[0]?.value).toBe(5.02);
    expect(await violations(grid)).toEqual([]);
    await userEvent.click(all(grid, '.preview button.main')[0] ?? grid);
    await eventually(async () => {
      expect((await rows()).slice(0, 2).map(({ state, meter }) => [state, meter])).toEqual([['value', 'M1'], ['over-range', 'M9']]); // prettier-ignore
    });
    expect(all(grid, '.preview')).toHaveLength(0);
  });

  test('with a cell that cannot be read changes nothing, and says which', async () => {
    await userEvent.click(cell(0, 'reading'));
    pasteText('5.11 V\r\n12 Ω');
    await eventually(() => {
      expect(textOf(grid, '.preview li')).toMatch(/^Row 2, reading: “12 Ω” is in Ω/);
    });
    expect(all(grid, '.preview button.main')).toHaveLength(0);
    await userEvent.click(all(grid, '.preview button')[0] ?? grid);
    await drawn(grid);
    expect(await bench.ask('editsSoFar')).toMatchObject({ steps: 0 });
  });
});
