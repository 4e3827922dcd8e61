import { describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import '../../src/ui/panels/bands-place.ts';
import { bandsHash, parseRoute } from '../../src/ui/route.ts';
import { drawn, show, violations } from './app-page.ts';
import { openBands } from './bands-bench.ts';

async function showMeters() {
  const opened = await openBands();
  const place = await show('bt-bands-place', { session: opened.session, route: parseRoute(bandsHash('meters')) });
  await drawn(place);
  return { place, ...opened };
}

describe('the meters', () => {
  test('renders', async () => {
    await showMeters();
    await expect.element(page.getByRole('row', { name: /^M1/ })).toHaveTextContent(/1,200.*DC volts up to 60 V: ± \(0\.5 % \+ 2 counts\)/s); // prettier-ignore
    await expect.element(page.getByRole('row', { name: /^B1/ })).toHaveTextContent(/351.*unknown/s);
    await expect.element(page.getByText('2 meters, 1 of unknown accuracy.', { exact: false })).toBeVisible();
  });

  test('is accessible', async () => {
    const { place } = await showMeters();
    await page.getByRole('button', { name: 'Edit M1' }).click();
    await expect.element(page.getByLabelText('range up to, line 1')).toHaveValue('60\u00a0V');
    expect(await violations(place)).toEqual([]);
  });

  test('are given an accuracy, line by line, and readings are judged again', async () => {
    const { client } = await showMeters();
    await page.getByRole('button', { name: 'Edit B1' }).click();
    await page.getByLabelText('range up to, line 1').fill('600 mV');
    await page.getByRole('button', { name: 'Save the meter' }).click();
    await expect.element(page.getByRole('alert')).toHaveTextContent('Line 1, DC volts: “± % of reading” is empty');
    await page.getByLabelText('± % of reading, line 1').fill('0,5');
    await page.getByLabelText('+ counts, line 1').fill('2');
    await page.getByRole('button', { name: 'Add a line' }).click();
    await page.getByLabelText('Mode of line 2').selectOptions('resistance');
    await page.getByLabelText('range up to, line 2').fill('60M');
    await page.getByLabelText('± % of reading, line 2').fill('1.5');
    await page.getByLabelText('+ counts, line 2').fill('3');
    await page.getByLabelText('last digit, line 2').fill('10k');
    await page.getByRole('button', { name: 'Save the meter' }).click();
    await expect.element(page.getByText('B1 has 2 ranges now.')).toBeVisible();
    expect(client.calls.find(({ name }) => name === 'setMeter')?.args).toEqual([
      {
        name: 'B1',
        accuracies: [
          { mode: 'DC volts', upTo: 0.6, percent: 0.5, counts: 2 },
          { mode: 'resistance', upTo: 60e6, percent: 1.5, counts: 3, resolution: 10e3 },
        ],
      },
    ]);
    await expect.element(page.getByText('3 past readings changed their verdict.')).toBeVisible();
  });

  test('can be described before their first log, and never over another', async () => {
    const { client } = await showMeters();
    await page.getByRole('button', { name: 'Add a meter' }).click();
    await page.getByLabelText('name', { exact: true }).fill('M1');
    await page.getByRole('button', { name: 'Save the meter' }).click();
    await expect.element(page.getByRole('alert')).toHaveTextContent('M1 is there already');
    await page.getByLabelText('name', { exact: true }).fill('M7');
    await page.getByRole('button', { name: 'Save the meter' }).click();
    await expect.element(page.getByText('The accuracy of M7 is unknown now.')).toBeVisible();
    expect(client.calls.filter(({ name }) => name === 'setMeter').map(({ args }) => args)).toEqual([[{ name: 'M7', accuracies: [] }]]); // prettier-ignore
  });
});
