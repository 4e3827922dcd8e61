import { describe, expect, test } from 'vitest';
import { openForEachTest, startEmpty, violations, type FlowPage } from './flow-page.ts';

let flow: FlowPage;

openForEachTest(async (opened) => {
  flow = opened;
  await startEmpty(flow);
});

/** A hand-kept table in which neither the order of day and month nor what a comma means can be known. */
const DOUBTFUL = {
  name: 'hand-kept.csv',
  content: [
    'date;repair;point;stage;reading;unit',
    '03/04/2026 08:12;T-0001;Q1 D-S;part out;1,234;Ω',
    '05/04/2026 08:14;T-0002;Q1 D-S;part out;2,345;Ω',
    '',
  ].join('\n'),
};

/** A log in which some rows lack the stage. */
const GAPS = {
  name: 'gaps.csv',
  content: [
    'time,repair,point,stage,mode,reading',
    '2026-11-03 08:12,T-0001,bulk,live,DC volts,388.4 V',
    '2026-11-03 08:13,T-0001,12V main,,DC volts,12.05 V',
    '2026-11-03 08:14,T-0001,12V main,,DC volts,12.04 V',
    '2026-11-03 08:15,T-0001,standby,live,DC volts,5.02 V',
    ...Array.from({ length: 8 }, (_, at) => `2026-11-03 09:1${at},T-000${at + 2},standby,live,DC volts,5.0${at} V`),
    '',
  ].join('\n'),
};

describe('a hand-kept table', () => {
  test('is asked about one question after the other, and what an answer would do is counted at once', async () => {
    const { page, choose, go, faults } = flow;
    await choose(DOUBTFUL);
    await page.getByRole('heading', { name: 'How should hand-kept.csv be read?' }).waitFor();
    await page.getByText('2 of 2 rows will be read.').waitFor();
    const months = page.getByRole('radio', { name: 'The day comes first: 3 April.' });
    expect(await months.isVisible()).toBe(false);
    await page.getByRole('radio', { name: 'The comma starts the decimals: 1,234 is 1,234.' }).check();
    await months.check();
    await page.getByText(/^First time: 2026-04-03 08:12.* Last time: 2026-04-05 08:14/).waitFor();
    expect(await violations(page)).toEqual([]);
    await page.getByRole('button', { name: 'Read it so' }).click();
    await page.getByText('1 file on the bench: 2 rows, of which 2 were taken').waitFor();
    await go('#/repairs/T-0001');
    const readings = page.getByRole('table', { name: 'What was measured, stage by stage?' });
    await expect.poll(() => readings.innerText()).toMatch(/Q1 D-S.*1\.234/s);
    expect(faults).toEqual([]);
  });
});

describe('rows that lack one thing', () => {
  test('are counted by reason, set aside, and mended together in one step', async () => {
    const { page, choose, go, faults } = flow;
    await choose(GAPS);
    await page.getByText('1 file on the bench: 12 rows, of which 10 were taken, 2 set aside').waitFor();
    await page.getByRole('button', { name: '2 rows are set aside' }).click();
    await page.getByRole('button', { name: /^Mend all 2 rows of gaps.csv/ }).click();
    await page.getByRole('combobox', { name: 'stage', exact: true }).selectOption('run-in');
    await page.getByText('2 of 2 rows would be read.').waitFor();
    expect(await violations(page)).toEqual([]);
    await page.getByRole('button', { name: 'Admit 2 rows' }).click();
    await page.getByText('1 file on the bench: 12 rows, of which 12 were taken, 0 set aside').waitFor();
    await go('#/repairs/T-0001');
    const readings = page.getByRole('table', { name: 'What was measured, stage by stage?' });
    await expect.poll(() => readings.innerText()).toMatch(/run-in.*12\.04/s);
    expect(faults).toEqual([]);
  });
});
