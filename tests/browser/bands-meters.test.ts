import { describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import '../../src/ui/panels/bands-place.ts';
import { bandsHash, parseRoute } from '../../src/ui/route.ts';
import type { FakeAnswers } from '../session/fake-client.ts';
import { drawn, show, violations } from './app-page.ts';
import { openBands } from './bands-bench.ts';

async function showMeters(own: FakeAnswers = {}) {
  const opened = await openBands(own);
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
    await page.getByLabelText('shows over-range as').fill('1');
    await page.getByRole('button', { name: 'Save the meter' }).click();
    await expect.element(page.getByRole('alert')).toHaveTextContent('reads as a number');
    await page.getByLabelText('shows over-range as').fill('-OFL-');
    await page.getByLabelText('calibration due').fill('2026-09-01');
    await page.getByRole('button', { name: 'Save the meter' }).click();
    await expect.element(page.getByText('B1 has 2 ranges now.')).toBeVisible();
    expect(client.calls.find(({ name }) => name === 'setMeters')?.args).toEqual([
      [
        {
          name: 'B1',
          accuracies: [
            { mode: 'DC volts', upTo: 0.6, percent: 0.5, counts: 2 },
            { mode: 'resistance', upTo: 60e6, percent: 1.5, counts: 3, resolution: 10e3 },
          ],
          overRangeMark: '-OFL-',
          calibrationDue: Date.UTC(2026, 8, 1),
        },
      ],
    ]);
    await expect.element(page.getByText('3 past readings changed their verdict.')).toBeVisible();
  });

  test('say when their calibration is due, and what they show above their range', async () => {
    const day = (year: number) => Date.UTC(year, 0, 15);
    await showMeters({
      meters: () => [
        { name: 'M1', accuracies: [], overRangeMark: '-OFL-', calibrationDue: day(2001) },
        { name: 'B1', accuracies: [], calibrationDue: day(2901) },
      ],
    });
    await expect.element(page.getByRole('row', { name: /^M1/ })).toHaveTextContent(/shows “-OFL-” above its range\s*2001-01-15 overdue/); // prettier-ignore
    await expect.element(page.getByRole('row', { name: /^B1/ })).toHaveTextContent(/2901-01-15(?! overdue)/);
  });

  test('are taken from a pasted table, or none of them where a row cannot be read', async () => {
    const fault = { file: 'the table', line: 3, column: 'percent', content: '', reason: '“-1” in column “percent” is negative.' }; // prettier-ignore
    const { client } = await showMeters({
      readMeters: ([text]) => ({
        meters: [{ name: 'M1', accuracies: [] }, { name: 'M9', accuracies: [] }], // prettier-ignore
        faults: text.includes('-1') ? [fault] : [],
      }),
    });
    const area = page.getByRole('textbox', { name: 'Are they in a table already?' });
    await area.fill('meter,mode,range limit,percent,counts\nM9,DC volts,60,-1,3');
    await page.getByRole('button', { name: 'Take the table' }).click();
    await expect.element(page.getByRole('alert')).toHaveTextContent(/1 row cannot be read, so no meter was changed\.\s*Line 3: “-1” in column “percent” is negative\./); // prettier-ignore
    expect(client.calls.some(({ name }) => name === 'setMeters')).toBe(false);
    await area.fill('meter,mode,range limit,percent,counts\nM9,DC volts,60,1,3');
    await page.getByRole('button', { name: 'Take the table' }).click();
    await expect.element(page.getByText('M1 and M9 have new profiles now.')).toBeVisible();
    expect(client.calls.find(({ name }) => name === 'setMeters')?.args).toMatchObject([[{ name: 'M1' }, { name: 'M9' }]]); // prettier-ignore
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
    expect(client.calls.filter(({ name }) => name === 'setMeters').map(({ args }) => args)).toEqual([[[{ name: 'M7', accuracies: [] }]]]); // prettier-ignore
  });
});
