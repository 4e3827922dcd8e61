import { describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import '../../src/ui/panels/shift-place.ts';
import { DECIMAL, planOf } from '../session/plan-of.ts';
import { openSession, shift } from './app-bench.ts';
import { all, drawn, show, textOf, violations } from './app-page.ts';

const oneSpaced = (text: string | null | undefined) => (text ?? '').replaceAll(/\s+/g, ' ').trim();

describe('<bt-shift-place>', () => {
  test('renders', async () => {
    const { session } = await openSession();
    const place = await show('bt-shift-place', { session });
    expect(textOf(place, 'h1')).toBe('Shift');
    expect(textOf(place, '.sums')).toBe(
      '1 file on the bench: 1,245 rows, of which 1,241 were taken, 3 set aside and 1 known already. They hold 4,012 readings of 152 repairs, and 96 bands.',
    );
    expect(all(place, 'bt-shift-imports, bt-set-aside-list, bt-names-list')).toHaveLength(3);
  });

  test('is accessible', async () => {
    const { session } = await openSession({
      planFile: () => planOf({ questions: [DECIMAL] }),
      unknownNames: () => [{ kind: 'family', name: 'HERON 48', readings: 2, alike: ['HERON-48'] }],
    });
    await session.bringIn([new File(['x'], 'odd.csv')]);
    expect(await violations(await show('bt-shift-place', { session }))).toEqual([]);
  });
});

describe('what asks for an answer', () => {
  test('is counted at the top, each with the way to it', async () => {
    const { session } = await openSession({
      planFile: () => planOf({ questions: [DECIMAL] }),
      unknownNames: () => [{ kind: 'family', name: 'HERON 48', readings: 2, alike: ['HERON-48'] }],
    });
    await session.bringIn([new File(['x'], 'odd.csv'), new File(['y'], 'twin.csv')]);
    const place = await show('bt-shift-place', { session });
    expect(all(place, '.open li').map((line) => oneSpaced(line.textContent))).toEqual([
      '2 files wait for an answer',
      '1 name is not known yet',
      '3 rows are set aside',
    ]);
    await page.getByRole('button', { name: '1 name is not known yet' }).click();
    const list = all(place, 'bt-names-list')[0]!;
    expect(list.shadowRoot?.activeElement?.localName).toBe('h2');
  });

  test('is one screen for the first file, and the next after it', async () => {
    const { session } = await openSession({ planFile: () => planOf({ questions: [DECIMAL] }) });
    await session.bringIn([new File(['x'], 'odd.csv'), new File(['y'], 'twin.csv')]);
    const place = await show('bt-shift-place', { session });
    expect(all(place, 'bt-file-plan-panel')).toHaveLength(1);
    await expect.element(page.getByRole('heading', { name: 'How should odd.csv be read?' })).toBeVisible();
    await page.getByRole('button', { name: 'Leave it out' }).click();
    await expect.element(page.getByRole('heading', { name: 'How should twin.csv be read?' })).toBeVisible();
    await expect.element(page.getByText('You chose to leave it out')).toBeVisible();
  });
});

test('what became of the files brought in last is told file by file, and why one was left out', async () => {
  const refused = [{ file: 'picture.png', reason: 'This is a picture: save the log as CSV.' }];
  const again = { ...shift.imports[0]!, rows: 1, taken: 0, setAside: 0, known: 1, notices: ['It was here already.'] };
  const { session } = await openSession({ bringIn: () => ({ records: [again], setAside: [], refused }) });
  await session.bringIn([new File(['x'], 'picture.png')]);
  const place = await show('bt-shift-place', { session });
  expect(all(place, 'section[aria-labelledby=last] li').map((line) => oneSpaced(line.textContent))).toEqual([
    'picture.png: left out whole. This is a picture: save the log as CSV.',
    'shift.csv: 1 row: 0 taken, 0 set aside, 1 known already. 2 lines without data. It was here already.',
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
    await expect.poll(() => client.calls.map(({ name }) => name)).toContain('bringIn');
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
  await expect.element(page.getByText(/Nothing is kept/)).toBeVisible();
});

test('the decimal mark is chosen by keyboard and changes the counts', async () => {
  const { session } = await openSession();
  const place = await show('bt-shift-place', { session });
  await page.getByRole('radio', { name: /comma/ }).click();
  await drawn(place);
  expect(session.state.decimalMark).toBe(',');
  expect(textOf(place, '.sums')).toContain('1.245 rows');
  expect(all(place, 'input[value="."]')[0]).toHaveProperty('checked', false);
});
