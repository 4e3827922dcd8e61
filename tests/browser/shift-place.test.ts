import { describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import '../../src/ui/panels/shift-place.ts';
import { openSession, shift } from './app-bench.ts';
import { all, drawn, rowsOf, show, textOf, violations } from './app-page.ts';

describe('<bt-shift-place>', () => {
  test('renders', async () => {
    const { session } = await openSession();
    const place = await show('bt-shift-place', { session });
    expect(textOf(place, 'h1')).toBe('Shift');
    expect(rowsOf(place, 'table[aria-labelledby=held]')).toEqual([
      ['shift.csv', 'readings', '1,245', '1,241', '3', '1', '2', 'semicolon', 'utf-8'],
      ['The times have no seconds.'],
    ]);
  });

  test('is accessible', async () => {
    const { session } = await openSession();
    expect(await violations(await show('bt-shift-place', { session }))).toEqual([]);
  });
});

describe('rows set aside', () => {
  test('are listed with file, line, column, content and reason, as text and not as markup', async () => {
    const { session } = await openSession();
    const place = await show('bt-shift-place', { session });
    expect(rowsOf(place, 'table[aria-labelledby=aside]')).toEqual([
      ['shift.csv', '1204', 'reading', 'This is no number: write it as 12.3 V.', '12,x V'],
      ['shift.csv', '1240', 'whole row', 'The row has 2 cells where the header has 9.', '<b>total</b>;12'],
      ['shift.csv', '1241', 'time', 'There is no such day.', '2026-02-30'],
    ]);
  });

  test('are shown a page at a time where there are many', async () => {
    const row = shift.setAside[0]!;
    const setAside = Array.from({ length: 250 }, (_, at) => ({ ...row, line: at + 1 }));
    const { session } = await openSession({ shift: () => ({ ...shift, setAside }) });
    const place = await show('bt-shift-place', { session });
    expect(rowsOf(place, 'table[aria-labelledby=aside]')).toHaveLength(100);
    await page.getByRole('button', { name: 'Later' }).click();
    await page.getByRole('button', { name: 'Later' }).click();
    await expect.element(page.getByText('201 to 250 of 250 rows set aside')).toBeVisible();
    expect(rowsOf(place, 'table[aria-labelledby=aside]')).toHaveLength(50);
    await expect.element(page.getByRole('button', { name: 'Later' })).toBeDisabled();
  });

  test('are said to be none where every row could be read', async () => {
    const { session } = await openSession({ shift: () => ({ ...shift, setAside: [] }) });
    await show('bt-shift-place', { session });
    await expect.element(page.getByText('Every row could be read: nothing was set aside.')).toBeVisible();
  });
});

test('what became of the files brought in last is told file by file, and why one was left out', async () => {
  const refused = [{ file: 'picture.png', reason: 'This is a picture: save the log as CSV.' }];
  const again = { ...shift.imports[0]!, rows: 1, taken: 0, setAside: 0, known: 1, notices: ['It was here already.'] };
  const { session } = await openSession({ bringIn: () => ({ records: [again], setAside: [], refused }) });
  await session.bringIn([new File(['x'], 'picture.png')]);
  const place = await show('bt-shift-place', { session });
  expect(
    all(place, 'section[aria-labelledby=last] li').map((line) => line.textContent.replaceAll(/\s+/g, ' ')),
  ).toEqual([
    'picture.png: left out whole. This is a picture: save the log as CSV.',
    'shift.csv: 1 row: 0 taken, 0 set aside, 1 known already. It was here already.',
  ]);
  expect(await violations(place)).toEqual([]);
});

describe('an empty bench', () => {
  test('tells how to begin', async () => {
    const { session } = await openSession({ shift: () => ({ imports: [], setAside: [] }) });
    const place = await show('bt-shift-place', { session });
    await expect.element(page.getByRole('heading', { name: 'Nothing has been brought in yet' })).toBeVisible();
    await expect.element(page.getByRole('button', { name: 'Bring in logs…' })).toBeVisible();
    expect(await violations(place)).toEqual([]);
  });

  test('opens the sample when asked', async () => {
    const { session, client } = await openSession({ shift: () => ({ imports: [], setAside: [] }) });
    await show('bt-shift-place', { session });
    client.calls.length = 0;
    await page.getByRole('button', { name: 'open the invented sample' }).click();
    expect(client.calls.map(({ name }) => name)).toContain('bringIn');
  });
});

test('an answer that fails is a sentence on the page', async () => {
  const { session } = await openSession({ shift: () => Promise.reject(new Error('The worker stopped.')) });
  await show('bt-shift-place', { session });
  await expect.element(page.getByText('The worker stopped.')).toBeVisible();
});

test('the page says that nothing is kept', async () => {
  const { session } = await openSession();
  await show('bt-shift-place', { session });
  await expect.element(page.getByText('Nothing is kept when this page closes: keep your files.')).toBeVisible();
});

test('the decimal mark is chosen by keyboard and changes the counts', async () => {
  const { session } = await openSession();
  const place = await show('bt-shift-place', { session });
  await page.getByRole('radio', { name: /comma/ }).click();
  await drawn(place);
  expect(session.state.decimalMark).toBe(',');
  expect(rowsOf(place, 'table[aria-labelledby=held]')[0]).toContain('1.245');
  expect(all(place, 'input[value="."]')[0]).toHaveProperty('checked', false);
});
