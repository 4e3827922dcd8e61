import { afterEach, describe, expect, test } from 'vitest';
import '../../src/ui/panels/sheet-board.ts';
import '../../src/ui/panels/sheet-shift.ts';
import { CAUTIONS } from '../../src/ui/cautions.ts';
import { lines, story } from './app-bench.ts';
import { all, drawn, rowsOf, show, textOf, violations } from './app-page.ts';
import { decision, openRepairs } from './repairs-bench.ts';

afterEach(() => {
  document.body.replaceChildren();
});

const showBoard = () => show('bt-sheet-board', { story, decision });

describe('<bt-sheet-board>', () => {
  test('renders', async () => {
    const sheet = await showBoard();
    expect(textOf(sheet, 'h1')).toBe('T-0131, HERON-48');
    expect(rowsOf(sheet, 'table')).toEqual([
      ['F1', 'OL\u00a0Ω'.replace('\u00a0', ' '), '', '▲ open', 'not read', '', ''],
      ['24V main', 'not read', '', '', '25.27 V', '', '▲ high'],
      ['dimming', 'not read', '', '', '24.02 V', '', '· no band'],
    ]);
  });

  test('is accessible', async () => {
    expect(await violations(await showBoard())).toEqual([]);
  });

  test('tells what failed apart from what was replaced, every line with its overrule, and every caution', async () => {
    const text = (await showBoard()).shadowRoot?.textContent.replaceAll(/\s+/g, ' ') ?? '';
    expect(text).toContain('Failed: Q1 (shorted).');
    expect(text).toContain('Replaced: Q1 and F1. Not every part that was replaced had failed.');
    expect(text).toContain('Overruled: checked against B1');
    for (const caution of CAUTIONS) expect(text).toContain(caution);
    expect(text).toContain('Local electrical codes and licensed practice come before');
  });
});

describe('a sheet alone on paper', () => {
  test('marks the way to it and takes the marks away with it', async () => {
    const sheet = await showBoard();
    expect([...document.querySelectorAll('[data-to-print]')]).toEqual([document.documentElement, document.body, sheet]);
    const adopted = document.adoptedStyleSheets.length;
    sheet.remove();
    expect(document.querySelectorAll('[data-to-print]')).toHaveLength(0);
    expect(document.adoptedStyleSheets).toHaveLength(adopted - 2);
  });
});

async function showShift(day = '') {
  const { session } = await openRepairs({
    window: () => [story.readings[2]!],
    count: () => ({ readings: 42, outOfBand: 3, repairs: 2 }),
    facet: ([, field]) =>
      ({
        repair: [{ value: 'T-0131', count: 30 }, { value: 'T-0140', count: 12 }],
        verdict: [{ value: 'pass', count: 39 }, { value: 'fail', count: 3 }],
        meter: [{ value: 'M2', count: 42 }],
        file: [{ value: 'shift.csv', count: 42 }],
      } as Partial<Record<string, readonly { value: string; count: number }[]>>)[field] ?? [], // prettier-ignore
    repairs: () => lines,
    metersOverview: () => ({
      periods: [
        {
          meter: 'M2',
          since: 0,
          until: Infinity,
          repairs: 25,
          percent: 1.55,
          low: 1.3,
          high: 1.8,
          turned: 0,
          turnedIn: [],
        },
      ],
      test: undefined,
      onlyDifference: false,
      tooFew: [],
    }),
  });
  return show('bt-sheet-shift', { session, day });
}

describe('<bt-sheet-shift>', () => {
  test('renders', async () => {
    const sheet = await showShift();
    await drawn(sheet);
    expect(textOf(sheet, 'h1')).toBe('Shift of 2026-03-14');
    expect(rowsOf(sheet, 'table[aria-labelledby=boards]').map((row) => [row[0], row[2], row[5], row[6]])).toEqual([
      ['T-0131', 'no standby light', '30', '✗ Not yet: 1 line does not hold, 1 was not measured. The meters rule holds. Overruled: checked against B1.'],
      ['T-0140', 'burnt smell (comeback of T-0009)', '12', '✗ Not yet: 1 line does not hold, 1 was not measured. The meters rule holds. Overruled: checked against B1.'],
    ]); // prettier-ignore
    expect(all(sheet, 'li').map(({ textContent }) => textContent.replaceAll(/\s+/g, ' ').trim())).toContain(
      'M2: 42 readings. ▲ 1.6 % high against the other meters (95 % limits 1.3 to 1.8 %, 25 repairs).',
    );
    expect(rowsOf(sheet, 'table[aria-labelledby=aside]')).toHaveLength(3);
  });

  test('is accessible', async () => {
    const sheet = await showShift();
    await drawn(sheet);
    expect(await violations(sheet)).toEqual([]);
  });

  test('sums up the day that is asked for', async () => {
    const sheet = await showShift('2026-03-12');
    await drawn(sheet);
    expect(textOf(sheet, 'h1')).toBe('Shift of 2026-03-12');
  });
});
