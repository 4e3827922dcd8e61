import { describe, expect, test, vi } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import '../../src/ui/panels/set-aside-list.ts';
import { openSession, shift } from './app-bench.ts';
import { all, drawn, focusedName, rowsOf, show, violations } from './app-page.ts';

const { setAside } = shift;

async function showList(own: Parameters<typeof openSession>[0] = {}, rows = setAside) {
  const opened = await openSession(own);
  return { ...opened, element: await show('bt-set-aside-list', { session: opened.session, rows }) };
}

/** The calls of one name, each by what it was asked. */
const asked = (client: Awaited<ReturnType<typeof openSession>>['client'], call: string) =>
  client.calls.filter(({ name }) => name === call).map(({ args }) => args);

describe('<bt-set-aside-list>', () => {
  test('renders', async () => {
    const { element } = await showList();
    // As text and not as markup.
    expect(rowsOf(element, 'table').map((cells) => cells.slice(0, 5))).toEqual([
      ['shift.csv', '1204', 'reading', 'This is no number: write it as 12.3 V.', '12,x V'],
      ['shift.csv', '1240', 'whole row', 'The row has 2 cells where the header has 9.', '<b>total</b>;12'],
      ['shift.csv', '1241', 'time', 'There is no such day.', '2026-02-30'],
    ]);
  });

  test('is accessible', async () => {
    const { element } = await showList();
    expect(await violations(element)).toEqual([]);
    await page.getByRole('button', { name: 'Mend line 1204 of shift.csv' }).click();
    expect(await violations(element)).toEqual([]);
  });

  test('says that nothing is set aside', async () => {
    await showList({}, []);
    await expect.element(page.getByText('Every row could be read: nothing is set aside.')).toBeVisible();
  });

  test('shows thousands of rows a page at a time', async () => {
    const rows = Array.from({ length: 1130 }, (_, at) => ({ ...setAside[0]!, line: at + 1 }));
    const { element } = await showList({}, rows);
    expect(rowsOf(element, 'table')).toHaveLength(50);
    await page.getByRole('button', { name: 'Later' }).click();
    await expect.element(page.getByText('51 to 100 of 1,130 rows set aside')).toBeVisible();
    expect(rowsOf(element, 'table')[0]?.[1]).toBe('51');
  });
});

describe('mending a row', () => {
  test('shows what is still wrong with it, and admits it by Enter once it can be read', async () => {
    const { element, client } = await showList({
      mendRow: ([, , content]) => (content === '12.3 V' ? undefined : '“13,x V” is no number.'),
    });
    await page.getByRole('button', { name: 'Mend line 1204 of shift.csv' }).click();
    const input = page.getByRole('textbox', { name: 'Content of line 1204 of shift.csv' });
    await expect.poll(focusedName).toBe('Content of line 1204 of shift.csv');
    await userEvent.fill(input, '13,x V');
    await userEvent.keyboard('{Enter}');
    await expect.element(page.getByRole('alert')).toHaveTextContent('▲ still: “13,x V” is no number.');
    await userEvent.fill(input, '12.3 V');
    await userEvent.keyboard('{Enter}');
    await expect.element(page.getByText('Line 1204 of shift.csv was admitted.')).toBeVisible();
    expect(asked(client, 'mendRow')).toEqual([
      ['shift.csv', 1204, '13,x V'],
      ['shift.csv', 1204, '12.3 V'],
    ]);
    expect(all(element, 'textarea')).toHaveLength(0);
  });

  test('is left by Escape, and the focus goes back to the row', async () => {
    const { element } = await showList();
    await page.getByRole('button', { name: 'Mend line 1240 of shift.csv' }).click();
    await userEvent.keyboard('x{Escape}');
    await drawn(element);
    expect(all(element, 'textarea')).toHaveLength(0);
    expect(focusedName()).toBe('Mend line 1240 of shift.csv');
  });

  test('says a failure in a sentence', async () => {
    await showList({ mendRow: () => Promise.reject(new Error('The worker stopped.')) });
    await page.getByRole('button', { name: 'Mend line 1204 of shift.csv' }).click();
    await userEvent.keyboard('{Enter}');
    await expect.element(page.getByRole('alert')).toHaveTextContent('The worker stopped.');
  });
});

describe('letting go', () => {
  test('lets one row go', async () => {
    const { client } = await showList({ letGo: () => shift });
    await page.getByRole('button', { name: 'Let go line 1240 of shift.csv' }).click();
    await expect.poll(() => asked(client, 'letGo')).toEqual([[[{ file: 'shift.csv', line: 1240 }]]]);
  });

  test('asks once before it lets all go', async () => {
    const { element, client } = await showList({ letGo: () => shift });
    await page.getByRole('button', { name: 'Let all go…' }).click();
    await expect.element(page.getByText('Let 3 rows go?')).toBeVisible();
    expect(await violations(element)).toEqual([]);
    await page.getByRole('button', { name: 'Keep them' }).click();
    expect(asked(client, 'letGo')).toEqual([]);
    await page.getByRole('button', { name: 'Let all go…' }).click();
    await page.getByRole('button', { name: 'Let all go', exact: true }).click();
    await expect.poll(() => (asked(client, 'letGo')[0]?.[0] as readonly unknown[] | undefined)?.length).toBe(3);
  });
});

test('the rows are saved as CSV', async () => {
  const saved: string[] = [];
  const click = vi.spyOn(HTMLAnchorElement.prototype, 'click').mockImplementation(function (this: HTMLAnchorElement) {
    saved.push(this.download, this.href);
  });
  await showList({ setAsideText: () => 'file,line\r\nshift.csv,1204\r\n' });
  await page.getByRole('button', { name: 'Save as CSV' }).click();
  await expect.poll(() => saved).toHaveLength(2);
  click.mockRestore();
  expect(saved[0]).toBe('rows set aside.csv');
  expect(await (await fetch(saved[1]!)).text()).toBe('file,line\r\nshift.csv,1204\r\n');
});

describe('rows of one kind', () => {
  const bare = [7, 8, 9].map((line) => ({
    file: 'shift.csv',
    line,
    column: 'reading',
    content: `T-0131,Q1 D-S,part out,${line}`,
    reason: `“${line}” in column “reading” has no unit, and nothing else says what was measured. Add the unit, or state the mode for the file.`,
  }));
  const reading = {
    time: NaN, repair: 'T-0131', family: '', point: 'Q1 D-S', stage: 'part out', mode: 'resistance', specimen: 'board', state: 'value',
    value: 7, prefix: 0, decimals: 0, meter: '', origin: { file: 'shift.csv', line: 7 },
  } as const; // prettier-ignore
  const answers = { tryMend: () => ({ admitted: 2, left: 1, fault: 'Still no number.', readings: [reading] }) };

  test('are mended all at once, after a look at what comes of it', async () => {
    const { client } = await showList({ ...answers, mendRows: answers.tryMend }, [...setAside, ...bare]);
    await page
      .getByRole('button', { name: /^Mend all 3 rows of shift.csv: A cell in column “reading” has no unit/ })
      .click();
    await expect.poll(focusedName).toMatch(/^in all of these rows/);
    await expect.element(page.getByRole('button', { name: 'Admit them' })).toBeDisabled();
    await userEvent.selectOptions(page.getByRole('combobox', { name: 'mode' }), 'resistance');
    await expect.element(page.getByText('2 of 3 rows would be read, 1 stays set aside.')).toBeVisible();
    await expect.element(page.getByText(/^line 7: T-0131 · Q1 D-S · part out · resistance · 7.Ω$/)).toBeVisible();
    expect(asked(client, 'mendRows')).toEqual([]);
    await page.getByRole('button', { name: 'Admit 2 rows' }).click();
    await expect.element(page.getByText('2 rows of shift.csv admitted.')).toBeVisible();
    expect(asked(client, 'mendRows')).toEqual([[bare, { given: { mode: 'resistance' } }]]);
  });

  test('have one text replaced by another', async () => {
    const rows = bare.map((row) => ({
      ...row,
      reason: '“12,x V” in column “reading” is no number. Write it as 12.3 V.',
    }));
    const { client, element } = await showList(answers, rows);
    await page.getByRole('button', { name: /^Mend all 3 rows/ }).click();
    await expect.element(page.getByRole('textbox', { name: 'this text' })).toHaveValue('12,x V');
    await userEvent.fill(page.getByRole('textbox', { name: 'becomes' }), '12.1 V');
    await expect.poll(() => asked(client, 'tryMend').at(-1)).toEqual([rows, { text: '12,x V', by: '12.1 V' }]);
    expect(await violations(element)).toEqual([]);
    await page.getByRole('button', { name: 'Back', exact: true }).click();
    expect(focusedName()).toMatch(/^Mend all 3 rows/);
  });
});
