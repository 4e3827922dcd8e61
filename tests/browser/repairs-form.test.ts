import { afterEach, describe, expect, test } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import '../../src/ui/panels/repair-form.ts';
import type { FakeAnswers } from '../session/fake-client.ts';
import { lines } from './app-bench.ts';
import { show, violations } from './app-page.ts';
import { openRepairs } from './repairs-bench.ts';

async function showForm(repair = lines[0]?.repair, own: FakeAnswers = {}) {
  const { session, client } = await openRepairs({
    repairFault: () => undefined,
    setRepair: () => session.state.summary!,
    ...own,
  });
  const form = await show('bt-repair-form', { session, repair });
  const kept = () => client.calls.filter(({ name }) => name === 'setRepair').map(({ args }) => args[0]);
  return { form, kept };
}

afterEach(() => {
  history.replaceState(null, '', '#/repairs');
});

describe('<bt-repair-form>', () => {
  test('renders', async () => {
    await showForm();
    await expect.element(page.getByLabelText('Board family')).toHaveValue('HERON-48');
    await expect.element(page.getByLabelText('Received')).toHaveValue('2026-03-14');
    await expect.element(page.getByLabelText('Replaced parts')).toHaveValue('Q1 F1');
    await expect.element(page.getByLabelText('Outcome')).toHaveValue('open');
  });

  test('is accessible', async () => {
    const { form } = await showForm();
    expect(await violations(form)).toEqual([]);
  });
});

test('a corrected record is kept whole, and its story opened', async () => {
  const { kept } = await showForm();
  await userEvent.fill(page.getByLabelText('Replaced parts'), 'q1, d3');
  await userEvent.fill(page.getByLabelText('Returned'), '2026-03-16');
  await userEvent.selectOptions(page.getByLabelText('Outcome'), 'returned working');
  await userEvent.fill(page.getByLabelText('Comeback of'), 'T-0009');
  await userEvent.fill(page.getByLabelText('Bench'), ' door ');
  await page.getByRole('button', { name: 'Keep' }).click();
  expect(kept()).toEqual([
    {
      ...lines[0]?.repair,
      returned: Date.UTC(2026, 2, 16),
      outcome: 'returned working',
      replaced: ['Q1', 'D3'],
      comebackOf: 'T-0009',
      bench: 'door',
    },
  ]);
  await expect.poll(() => location.hash).toBe('#/repairs/T-0131');
});

test('a repair is added under its own id', async () => {
  const { session, client } = await openRepairs({
    repairFault: () => undefined,
    setRepair: () => session.state.summary!,
  });
  await show('bt-repair-form', { session });
  await userEvent.fill(page.getByRole('textbox', { name: 'Repair', exact: true }), 'T-0200');
  await userEvent.keyboard('{Enter}');
  await expect
    .poll(() => client.calls.find(({ name }) => name === 'setRepair')?.args[0])
    .toEqual({
      id: 'T-0200',
      family: '',
      complaint: '',
      received: NaN,
      returned: NaN,
      outcome: 'open',
      replaced: [],
    });
});

test('what cannot be is told at its field, and stays as it was typed', async () => {
  const sentence = 'A repair cannot be the comeback of itself: name the earlier one.';
  const { form, kept } = await showForm(undefined, { repairFault: () => ({ field: 'comebackOf', sentence }) });
  await userEvent.fill(page.getByLabelText('Comeback of'), 'T-0200');
  await page.getByRole('button', { name: 'Keep' }).click();
  await expect.element(page.getByRole('alert')).toHaveTextContent(sentence);
  await expect.element(page.getByLabelText('Comeback of')).toHaveAccessibleDescription(`▲ ${sentence}`);
  await expect.element(page.getByLabelText('Comeback of')).toHaveAttribute('aria-invalid', 'true');
  await expect.element(page.getByLabelText('Comeback of')).toHaveValue('T-0200');
  await expect.element(page.getByLabelText('Returned')).toHaveAttribute('aria-invalid', 'false');
  expect(await violations(form)).toEqual([]);
  expect(kept()).toEqual([]);
});

test('a repair that is added is asked about as new, so that it takes nobody’s place', async () => {
  const asked: unknown[] = [];
  const { session, client } = await openRepairs({
    repairFault: ([repair, isNew]) => {
      asked.push([repair.id, isNew]);
      return { field: 'id', sentence: 'T-0131 is on the bench already.' };
    },
  });
  await show('bt-repair-form', { session });
  await userEvent.fill(page.getByRole('textbox', { name: 'Repair', exact: true }), 'T-0131');
  await userEvent.keyboard('{Enter}');
  await expect.element(page.getByRole('alert')).toHaveTextContent('T-0131 is on the bench already.');
  expect(asked).toEqual([['T-0131', true]]);
  expect(client.calls.some(({ name }) => name === 'setRepair')).toBe(false);
});

test('what the bench could not keep is told', async () => {
  const refuse = (): never => {
    throw new Error('The disk is full.');
  };
  await showForm(undefined, { setRepair: refuse });
  await page.getByRole('button', { name: 'Keep' }).click();
  await expect.element(page.getByRole('alert')).toHaveTextContent('The disk is full.');
});
