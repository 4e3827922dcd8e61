import { describe, expect, test } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import type { FilePlan } from '../../src/domain/file-plan.ts';
import '../../src/ui/panels/file-plan-panel.ts';
import { followSession } from '../../src/ui/controllers/session-controller.ts';
import { DECIMAL, GIVEN, ORDER, planOf, previewOf, use } from '../session/plan-of.ts';
import { openSession } from './app-bench.ts';
import { all, drawn, focusedName, rowsOf, show, violations } from './app-page.ts';

const odd = new File(['odd'], 'odd.csv');

/** The panel over a file that waits with this plan, following the session as its place has it do. */
async function showPanel(plan: FilePlan, own: Parameters<typeof openSession>[0] = {}) {
  const opened = await openSession({ planFile: () => plan, ...own });
  const { session } = opened;
  await session.bringIn([odd]);
  const panel = await show('bt-file-plan-panel', { session, waiting: session.state.waiting[0]! });
  session.subscribe(() => {
    const [first] = session.state.waiting;
    if (first !== undefined) panel.waiting = first;
  });
  followSession(panel, () => session);
  const rows = all(panel, 'bt-file-plan-rows')[0]!;
  await drawn(rows);
  const now = () => session.state.waiting[0]?.plan;
  return { ...opened, panel, rows, now };
}

const asking = planOf({ questions: [DECIMAL] });

describe('<bt-file-plan-panel>', () => {
  test('renders', async () => {
    const { rows } = await showPanel(asking);
    await expect.element(page.getByRole('heading', { name: 'How should odd.csv be read?' })).toBeVisible();
    const [uses, first, second, reason] = rowsOf(rows, 'table');
    expect(uses?.[1]).toMatch(/is named “When”$/);
    expect(first).toEqual(['2', '2026-03-14 09:00', 'T-0131', 'bulk', 'live', 'DC volts', '123,000']);
    expect(second?.[0]).toBe('3');
    expect(reason?.[1]).toBe('▲ set aside: There is no such day.');
  });

  test('is accessible', async () => {
    const { panel } = await showPanel(
      planOf({ questions: [DECIMAL, ORDER, GIVEN], columns: [use('Value', 'reading')] }),
    );
    expect(await violations(panel)).toEqual([]);
  });

  test('is accessible where a table of many points waits', async () => {
    const columns = [use('Job', 'repair'), use('12V main', 'reading', { doubtful: true }), use('F1 (Ω)', 'reading')];
    const { panel } = await showPanel(planOf({ columns, questions: [GIVEN] }));
    expect(await violations(panel)).toEqual([]);
  });
});

describe('what the answers would do', () => {
  test('is counted, with its reasons and the first and last time', async () => {
    const times = [Date.UTC(2026, 2, 14, 9), Date.UTC(2026, 2, 15, 16, 30)] as const;
    const setAside = [
      { reason: 'No mode is said.', rows: 70 },
      { reason: 'There is no such day.', rows: 6 },
    ];
    const count = { rows: 333, taken: 257, setAside, times, isWhole: true };
    await showPanel(asking, { previewFile: ([, plan]) => ({ ...previewOf(plan), count }) });
    await expect.element(page.getByText('257 of 333 rows will be read, 76 set aside.')).toBeVisible();
    await expect.element(page.getByText('70: No mode is said.')).toBeVisible();
    await expect.element(page.getByText(/^First time: .*09:00.* Last time: .*16:30/)).toBeVisible();
  });

  test('is asked one question at a time, the rest folded with their answers', async () => {
    const { panel } = await showPanel(planOf({ questions: [ORDER, DECIMAL] }));
    const told = () =>
      (all(panel, 'details.question') as HTMLDetailsElement[]).map(
        ({ open, firstElementChild }) => `${open ? 'open' : 'folded'} ${firstElementChild!.textContent}`,
      );
    expect(told()).toEqual(['open Decimal mark: not answered yet', 'folded Dates: not answered yet']);
    await page.getByRole('radio', { name: /^It groups thousands/ }).click();
    await page.getByRole('radio', { name: /^The day comes first/ }).click();
    await expect.poll(told).toEqual(['folded Decimal mark: point, 12.5', 'open Dates: day, month, year']);
  });
});

describe('a question with plain answers', () => {
  test('shows what each answer makes of the file’s own number, and tries it at once', async () => {
    const { client, now } = await showPanel(asking);
    await expect.element(page.getByText('Is “123,000” a number with decimals')).toBeVisible();
    await page.getByRole('radio', { name: 'It groups thousands: 123,000 is 123000.' }).click();
    await expect.poll(() => now()?.decimalMark).toBe('.');
    expect(client.calls.findLast(({ name }) => name === 'previewFile')?.args[1]).toMatchObject({ decimalMark: '.' });
    await expect.element(page.getByRole('combobox', { name: 'decimal mark as you say' })).toHaveValue('.');
  });

  test('names the day that each answer makes of the file’s own date', async () => {
    const { now } = await showPanel(planOf({ questions: [ORDER] }));
    await expect.element(page.getByRole('radio', { name: 'The month comes first: 4 March.' })).toBeVisible();
    await page.getByRole('radio', { name: 'The day comes first: 3 April.' }).click();
    await expect.poll(() => now()?.dateOrder).toBe('day-month-year');
  });

  test('has to be answered before the file is read, and takes the focus until it is', async () => {
    const { session, client } = await showPanel(asking);
    client.calls.length = 0;
    await page.getByRole('button', { name: 'Read it so' }).click();
    await expect.element(page.getByText('Say how its numbers are meant: choose one of the two answers.')).toBeVisible();
    expect(focusedName()).toMatch(/^It groups thousands/);
    await userEvent.keyboard(' ');
    await expect.poll(() => session.state.waiting[0]?.answered).toEqual(['decimal mark']);
    await page.getByRole('button', { name: 'Read it so' }).click();
    await expect.poll(() => session.state.waiting).toEqual([]);
    expect(client.calls.find(({ name }) => name === 'bringIn')?.args).toMatchObject([[odd], [{ decimalMark: '.' }]]);
  });
});

describe('what no column says', () => {
  const stream = planOf({
    questions: [GIVEN],
    columns: [use('time', 'elapsed'), use('value', 'reading'), use('unit', 'unit')],
  });

  test('is stated for all rows, with names that are known suggested', async () => {
    const { panel, now } = await showPanel(stream, { facet: ([, field]) => [{ value: `a known ${field}`, count: 1 }] });
    const given = all(panel, 'bt-file-plan-given')[0]!;
    await drawn(given);
    expect(all(given, '#known-repair option').map((option) => option.getAttribute('value'))).toEqual([
      'a known repair',
    ]);
    await userEvent.fill(page.getByRole('combobox', { name: 'repair' }), 'T-0131');
    await userEvent.keyboard('{Tab}');
    await userEvent.fill(page.getByRole('combobox', { name: 'point' }), 'bulk');
    await userEvent.keyboard('{Tab}');
    await userEvent.selectOptions(page.getByRole('combobox', { name: 'stage' }), 'run-in');
    await userEvent.fill(page.getByLabelText('start'), '2026-03-14T09:00');
    await userEvent.keyboard('{Tab}');
    // Local wall time counted as if it were UTC.
    await expect
      .poll(() => now()?.given)
      .toEqual({ repair: 'T-0131', point: 'bulk', stage: 'run-in', start: Date.UTC(2026, 2, 14, 9) });
  });

  test('is asked for by name where it is missing', async () => {
    await showPanel(stream);
    await page.getByRole('button', { name: 'Read it so' }).click();
    await expect.element(page.getByText(/State which repair these readings belong to/)).toBeVisible();
    expect(focusedName()).toBe('repair');
  });
});

describe('columns', () => {
  test('are marked where they are doubtful, by shape and word', async () => {
    const { rows } = await showPanel(
      planOf({ columns: [use('Job', 'repair'), use('x', 'reading', { doubtful: true })], questions: [GIVEN] }),
    );
    expect(all(rows, '.why').map((why) => why.textContent)).toEqual(['is named “Job”', '◇ doubtful: is named “x”']);
  });

  test('are read as what is chosen', async () => {
    const { now } = await showPanel(asking);
    await userEvent.selectOptions(page.getByRole('combobox', { name: 'Stage is read as' }), 'meter');
    await expect.poll(() => now()?.columns[3]?.field).toBe('meter');
  });

  test('of readings say mode, prefix and point where no other column does', async () => {
    const columns = [use('Job', 'repair'), use('Stage', 'stage'), use('a', 'reading'), use('b', 'reading')];
    const { now } = await showPanel(planOf({ columns, questions: [GIVEN] }));
    await userEvent.fill(page.getByRole('textbox', { name: 'point of a' }), 'Q1 D→S');
    await userEvent.keyboard('{Tab}');
    await userEvent.selectOptions(page.getByRole('combobox', { name: 'mode of a' }), 'resistance');
    await expect.poll(() => now()?.columns[2]?.mode).toBe('resistance');
    await userEvent.selectOptions(page.getByRole('combobox', { name: 'in of a' }), '3');
    await expect.poll(() => now()?.columns[2]).toMatchObject({ point: 'Q1 D→S', mode: 'resistance', prefix: 3 });
  });

  test('beyond the first thirty are shown on request', async () => {
    const columns = Array.from({ length: 70 }, (_, at) => use(`c${at}`, at === 0 ? 'repair' : 'ignored'));
    const { rows } = await showPanel(planOf({ columns, questions: [GIVEN] }));
    expect(all(rows, 'thead th')).toHaveLength(31);
    await page.getByRole('button', { name: 'Show more columns' }).click();
    await drawn(rows);
    expect(all(rows, 'thead th')).toHaveLength(61);
  });

  test('of a file of which nothing is known are asked about in a sentence', async () => {
    const unknown = planOf({
      shape: 'unknown',
      columns: [use('title', 'ignored'), use('author', 'ignored')],
      questions: [
        { about: 'columns', text: 'No column looks like readings, repairs or bands. Which column holds what?' },
      ],
    });
    const { rows } = await showPanel(unknown);
    await expect.element(page.getByText('No column looks like readings, repairs or bands.')).toBeVisible();
    await page.getByRole('button', { name: 'Read it so' }).click();
    await expect.element(page.getByText('Say what the file holds, or choose what one of its columns is read as.')).toBeVisible(); // prettier-ignore
    expect(rows.shadowRoot?.activeElement?.id).toBe('use-0');
  });
});

describe('the file as a whole', () => {
  test('leads from the question about an odd word to the choice of its encoding', async () => {
    const text = 'Is “Óçìåßùóç” spelled as it should be? If not, choose another encoding for the file.';
    await showPanel(planOf({ questions: [{ about: 'encoding', text }] }));
    await page.getByRole('button', { name: 'Choose the encoding below' }).click();
    expect(focusedName()).toMatch(/^encoding/);
  });

  test('is guessed anew with another encoding or separator', async () => {
    const { client } = await showPanel(asking);
    await userEvent.selectOptions(page.getByRole('combobox', { name: /^separator/ }), '\t');
    await expect
      .poll(() => client.calls.findLast(({ name }) => name === 'planFile')?.args)
      .toEqual([odd, { separator: '\t' }]);
    await userEvent.selectOptions(page.getByRole('combobox', { name: /^encoding/ }), 'windows-1252');
    await expect
      .poll(() => client.calls.findLast(({ name }) => name === 'planFile')?.args)
      .toEqual([odd, { separator: '\t', encoding: 'windows-1252' }]);
  });

  test('takes another line as its header, from among its own first lines', async () => {
    const { now } = await showPanel(asking);
    await userEvent.selectOptions(page.getByRole('combobox', { name: /^header/ }), '3');
    await expect.poll(() => now()?.headerLine).toBe(3);
    expect(now()?.columns[1]).toMatchObject({ header: 'T-0131', field: 'repair' });
    await userEvent.selectOptions(page.getByRole('combobox', { name: /^header/ }), '0');
    await expect.poll(() => now()?.headerLine).toBe(0);
  });

  test('takes another kind of table, a line of units and another decimal mark', async () => {
    const { now } = await showPanel(asking);
    await page.getByRole('checkbox', { name: 'a line of units' }).click();
    await expect.poll(() => now()?.unitsLine).toBe(true);
    await userEvent.selectOptions(page.getByRole('combobox', { name: /^decimal mark/ }), '.');
    await expect.poll(() => now()?.decimalMark).toBe('.');
    await userEvent.selectOptions(page.getByRole('combobox', { name: /^holds/ }), 'repairs');
    await expect.poll(() => now()?.shape).toBe('repairs');
  });
});

test('where no row that is shown can be read, that is said before the file is read all the same', async () => {
  const plan = planOf({ questions: [{ about: 'columns', text: 'Are these columns read as what they are: “Value”?' }] });
  const { session, client } = await showPanel(plan, {
    previewFile: ([, tried]) => {
      const preview = previewOf(tried);
      return { ...preview, rows: preview.rows.slice(1) };
    },
  });
  client.calls.length = 0;
  await page.getByRole('button', { name: 'Read it so' }).click();
  await expect.element(page.getByText(/None of these rows can be read this way. There is no such day./)).toBeVisible();
  expect(client.calls).toEqual([]);
  await page.getByRole('button', { name: 'Read it so' }).click();
  await expect.poll(() => session.state.waiting).toEqual([]);
});

test('a file is left out by the other button', async () => {
  const { session } = await showPanel(asking);
  await page.getByRole('button', { name: 'Leave it out' }).click();
  expect(session.state.waiting).toEqual([]);
});

describe('what is stated for ranges of lines', () => {
  const stream = planOf({ questions: [GIVEN], columns: [use('Time', 'time'), use('Value', 'reading')] });

  test('is accessible', async () => {
    const { panel } = await showPanel({
      ...stream,
      givenRanges: [{ from: 2, to: 40, given: { repair: 'T-0131', stage: 'live' } }],
    });
    expect(await violations(panel)).toEqual([]);
  });

  test('is added by keyboard, changed and removed, and stands in the plan', async () => {
    const { now } = await showPanel(stream);
    await page.getByRole('button', { name: 'State it for a range of lines' }).click();
    await expect.poll(() => now()?.givenRanges).toEqual([{ from: 2, to: 2, given: {} }]);
    await page.getByRole('spinbutton', { name: 'to line' }).fill('40');
    await userEvent.tab();
    await expect.poll(() => now()?.givenRanges?.[0]?.to).toBe(40);
    await page.getByRole('group', { name: 'Lines 2 to 40' }).getByLabelText('repair').fill('T-0131');
    await userEvent.tab();
    await expect.poll(() => now()?.givenRanges?.[0]?.given).toEqual({ repair: 'T-0131' });
    await page.getByRole('button', { name: 'Remove lines 2 to 40' }).click();
    await expect.poll(() => now()?.givenRanges).toEqual([]);
  });
});
