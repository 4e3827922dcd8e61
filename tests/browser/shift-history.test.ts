import { describe, expect, test } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { changedSettings } from '../../src/domain/bench-settings.ts';
import type { HistoryLine } from '../../src/session/answers.ts';
import '../../src/ui/panels/history.ts';
import '../../src/ui/panels/shift-history.ts';
import { bandOf, repairOf } from '../store/fixtures.ts';
import { openSession } from './app-bench.ts';
import { drawn, show, violations } from './app-page.ts';

const at = Date.UTC(2026, 2, 14, 12);
const lines: readonly HistoryLine[] = [
  {
    step: 3,
    at,
    who: 'A. Tern',
    does: 'changed',
    changes: [{ part: 'bands', old: bandOf('12V main', 5), new: bandOf('12V main', 4) }],
    more: 0,
  },
  {
    step: 2,
    at,
    why: 'typed wrongly',
    does: 'taken back',
    changes: [{ part: 'repairs', old: repairOf('T-0002') }],
    more: 0,
  },
  {
    step: 1,
    at,
    does: 'brought',
    file: 'repairs.csv',
    changes: [{ part: 'repairs', new: repairOf('T-0001') }],
    more: 149,
  },
  {
    at,
    does: 'changed',
    changes: [],
    more: 0,
    readings: { when: at, edited: 2, deleted: 0, returned: 0, added: 0 },
  },
];

async function showHistory(total = lines.length) {
  const opened = await openSession({
    history: ([kind]) => (kind === 'meters' ? { total: 0, lines: [] } : { total, lines }),
    undoable: () => ({ undo: lines[0]!, redo: lines[1]! }),
    settings: () => ({ prices: [], fee: 40 }),
    changeSettings: ([changes]) => changedSettings({ prices: [], fee: 40 }, changes),
    explain: () => undefined,
    undo: () => undefined,
  });
  const element = await show('bt-shift-history', { session: opened.session });
  await expect.element(page.getByRole('list', { name: 'Changes, latest first' })).toBeVisible();
  return { ...opened, element };
}

const asked = (client: Awaited<ReturnType<typeof openSession>>['client'], call: string) =>
  client.calls.filter(({ name }) => name === call).map(({ args }) => args);

describe('<bt-shift-history>', () => {
  test('renders', async () => {
    await showHistory();
    await expect.element(page.getByText(/12\sV ± 5\s% → 12\sV ± 4\s%/)).toBeVisible();
    await expect.element(page.getByText('“typed wrongly”')).toBeVisible();
    await expect.element(page.getByText('brought by repairs.csv')).toBeVisible();
    await expect.element(page.getByText('and 149 items more')).toBeVisible();
    await expect.element(page.getByText('2 readings edited')).toBeVisible();
    await expect.element(page.getByText(/2026-03-14 \d\d:\d\d, A\. Tern/)).toBeVisible();
  });

  test('is accessible', async () => {
    const { element } = await showHistory(45);
    expect(await violations(element)).toEqual([]);
    await page.getByRole('button', { name: 'say why' }).first().click();
    expect(await violations(element)).toEqual([]);
  });

  test('keeps the name of who works here, and all other settings as they are', async () => {
    const { client } = await showHistory();
    await userEvent.fill(page.getByLabelText('Who works here?'), '  B. Dunlin ');
    await userEvent.keyboard('{Enter}');
    await expect.poll(() => asked(client, 'changeSettings')).toEqual([[{ technician: 'B. Dunlin' }]]);
  });

  test('shows one kind alone, and says where nothing of it was changed', async () => {
    const { client } = await showHistory();
    await userEvent.selectOptions(page.getByLabelText('Show'), 'meters');
    await expect.element(page.getByText('Nothing of meters was changed yet.')).toBeVisible();
    expect(asked(client, 'history').at(-1)).toEqual(['meters', 0, 20]);
  });

  test('turns its pages', async () => {
    const { client } = await showHistory(45);
    await page.getByRole('button', { name: 'Later' }).click();
    await expect.poll(() => asked(client, 'history').at(-1)).toEqual([undefined, 20, 20]);
  });

  test('takes a reason afterwards, and goes back by the buttons that name what they take back', async () => {
    const { client } = await showHistory();
    await page.getByRole('button', { name: 'say why' }).first().click();
    await userEvent.keyboard('read on the board{Enter}');
    await expect.poll(() => asked(client, 'explain')).toEqual([[3, 'read on the board']]);
    await page.getByRole('button', { name: 'Take back: HERON-48, 12V main, live, DC volts' }).click();
    await expect.poll(() => asked(client, 'undo')).toHaveLength(1);
    await expect.element(page.getByRole('button', { name: 'Do again: T-0002' })).toBeVisible();
  });
});

describe('<bt-history>', () => {
  const open = async (found: readonly HistoryLine[]) => {
    const { session } = await openSession({ historyOf: () => found });
    return show('bt-history', { session, subject: { kind: 'repair', repair: 'T-0001' } });
  };

  test('renders', async () => {
    await open(lines.slice(1, 3));
    await expect.element(page.getByRole('heading', { name: 'What was changed here, when and by whom?' })).toBeVisible();
  });

  test('is accessible', async () => {
    expect(await violations(await open(lines))).toEqual([]);
  });

  test('shows nothing where nothing was changed', async () => {
    const element = await open([]);
    await drawn(element);
    expect(element.shadowRoot?.textContent.trim()).toBe('');
  });
});
