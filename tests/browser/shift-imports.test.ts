import { describe, expect, test } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import '../../src/ui/panels/shift-imports.ts';
import { planOf } from '../session/plan-of.ts';
import { openSession, shift } from './app-bench.ts';
import { all, drawn, focusedName, rowsOf, show, textOf, violations } from './app-page.ts';

const { imports } = shift;

async function showImports(...session: Parameters<typeof openSession>) {
  const opened = await openSession(...session);
  return { ...opened, element: await show('bt-shift-imports', { session: opened.session, imports }) };
}

describe('<bt-shift-imports>', () => {
  test('renders', async () => {
    const { element } = await showImports();
    expect(rowsOf(element, 'table')).toEqual([
      [
        'shift.csv', 'readings', '1,245', '1,241', '3', '1', '2', 'UTF-8, semicolon',
        'Change how it was read Take back shift.csv',
      ],
      ['The times have no seconds.'],
    ]); // prettier-ignore
  });

  test('is accessible', async () => {
    const { element } = await showImports();
    expect(await violations(element)).toEqual([]);
    await page.getByRole('button', { name: 'Take back shift.csv' }).click();
    expect(await violations(element)).toEqual([]);
  });
});

describe('take back', () => {
  test('asks once in place and names what goes; the import stays where it is kept', async () => {
    const { element, client } = await showImports();
    await page.getByRole('button', { name: 'Take back shift.csv' }).click();
    await drawn(element);
    expect(textOf(element, '.asked span')).toBe(
      'Take shift.csv back? 1,241 readings go from the bench; the file itself stays where it is.',
    );
    await page.getByRole('button', { name: 'Keep it' }).click();
    await drawn(element);
    expect(all(element, '.asked')).toHaveLength(0);
    expect(focusedName()).toBe('Take back shift.csv');
    expect(client.calls.map(({ name }) => name)).not.toContain('takeBack');
  });

  test('takes the import back by keyboard', async () => {
    const { client } = await showImports({ takeBack: () => ({ readings: 0, repairs: 0, families: 0, bands: 0 }) });
    (page.getByRole('button', { name: 'Take back shift.csv' }).element() as HTMLElement).focus();
    await userEvent.keyboard('{Enter}');
    await expect.poll(focusedName).toBe('Take it back');
    await userEvent.keyboard('{Enter}');
    await expect.poll(() => client.calls.find(({ name }) => name === 'takeBack')?.args).toEqual([imports[0]!.hash]);
  });
});

describe('change how it was read', () => {
  test('asks about the kept file at once', async () => {
    const { session } = await showImports({ bringIn: () => ({ records: [imports[0]!], setAside: [], refused: [] }) });
    const file = new File(['x'], 'shift.csv');
    await session.bringIn([file]);
    await page.getByRole('button', { name: 'Change how it was read: shift.csv' }).click();
    await expect.poll(() => session.state.waiting).toMatchObject([{ file, replaces: imports[0]!.hash }]);
  });

  test('says that the file is not at hand, and takes it when it is chosen again', async () => {
    const file = new File(['abc'], 'shift.csv');
    // SHA-256 of “abc”: FIPS 180-4.
    const hash = 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad';
    const { session } = await openSession({ planFile: () => planOf() });
    const element = await show('bt-shift-imports', { session, imports: [{ ...imports[0]!, hash }] });
    await page.getByRole('button', { name: 'Change how it was read: shift.csv' }).click();
    await expect.element(page.getByText('The file shift.csv is not at hand any more.')).toBeVisible();
    expect(await violations(element)).toEqual([]);
    await userEvent.upload(all(element, 'input[type=file]')[0]!, file);
    await expect.poll(() => session.state.waiting.map(({ replaces }) => replaces)).toEqual([hash]);
  });
});
