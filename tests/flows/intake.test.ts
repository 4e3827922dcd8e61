import { describe, expect, test } from 'vitest';
import { BANDS, focused, logOf, openForEachTest, startEmpty, violations, type FlowPage } from './flow-page.ts';

let flow: FlowPage;

openForEachTest(async (opened) => {
  flow = opened;
  await startEmpty(flow);
});

const HEADER = 'When;Job;Family;Where;Stage;Mode;Value;Unit';
/** A log with a decimal comma that might as well group thousands. */
const doubtful = (name: string, clock: string) => ({
  name,
  content: `${HEADER}\n2026-03-14 ${clock};T-0131;HERON-48;bulk;live;DC volts;391,000;V\n`,
});

describe('a file that leaves a question open', () => {
  test('is asked about once; its twin of the same drop and the next file of its header are read silently', async () => {
    const { page, choose, go, faults } = flow;
    await choose(doubtful('one.csv', '09:00'), doubtful('twin.csv', '09:01'));
    await page.getByRole('heading', { name: 'How should one.csv be read?' }).waitFor();
    expect(await page.locator('header').innerText()).toContain('0 readings');
    expect(await violations(page)).toEqual([]);
    await page.getByRole('radio', { name: 'The comma starts the decimals: 391,000 is 391.' }).check();
    await page.getByRole('button', { name: 'Read it so' }).click();
    await page.getByText('2 files on the bench: 2 rows, of which 2 were taken').waitFor();
    expect(await page.getByRole('button', { name: 'Read it so' }).count()).toBe(0);
    await choose(doubtful('next.csv', '09:02'));
    await page.getByText('3 files on the bench: 3 rows, of which 3 were taken').waitFor();
    await page.getByText('Read with the columns that you settled for this header.').first().waitFor();
    await go('#/repairs/T-0131');
    const readings = page.getByRole('table', { name: 'What was measured, stage by stage?' });
    expect(await readings.innerText()).toContain('391.000');
    expect(faults).toEqual([]);
  });

  test('is answered, tried and read by the keyboard alone', async () => {
    const { page, choose, faults } = flow;
    await choose(doubtful('one.csv', '09:00'));
    await page.getByRole('heading', { name: 'How should one.csv be read?' }).waitFor();
    const button = page.getByRole('button', { name: 'Read it so' });
    await button.focus();
    await page.keyboard.press('Enter');
    await page.getByText('Say how its numbers are meant: choose one of the two answers.').waitFor();
    expect(await focused(page)).toMatch(/^It groups thousands/);
    await page.keyboard.press('ArrowDown');
    await expect.poll(() => page.locator('bt-file-plan-rows').getByText('→ 391,000 V').count()).toBe(1);
    await button.focus();
    await page.keyboard.press('Enter');
    await page.getByText('1 file on the bench: 1 row, of which 1 was taken').waitFor();
    expect(await focused(page)).toBe('Shift');
    expect(faults).toEqual([]);
  });

  test('says whether day or month comes first', async () => {
    const { page, choose, go, faults } = flow;
    await choose(logOf('dates.csv', '03/04/2026 09:00,T-0131,HERON-48,bulk,live,DC volts,391.0,V,M1'));
    await page.getByRole('radio', { name: 'The day comes first: 3 April.' }).check();
    await page.locator('bt-file-plan-rows').getByText('→ 2026-04-03 09:00').waitFor();
    await page.getByRole('button', { name: 'Read it so' }).click();
    await page.getByText('1 file on the bench: 1 row, of which 1 was taken').waitFor();
    await go('#/readings');
    await page.locator('bt-readings-place').getByText('2026-04-03').first().waitFor();
    expect(faults).toEqual([]);
  });

  test('is told what no column says: a bare stream of time, value and unit', async () => {
    const { page, choose, go, faults } = flow;
    await choose({ name: 'stream.csv', content: 'time,value,unit\n0.0,12.02,V\n0.5,12.03,V\n60,11.98,V\n' });
    await page.getByRole('combobox', { name: 'repair' }).fill('T-0131');
    await page.getByRole('combobox', { name: 'point' }).fill('12V main');
    await page.getByRole('combobox', { name: 'stage' }).selectOption('run-in');
    await page.getByLabel('start').fill('2026-03-14T09:59');
    await page.getByRole('button', { name: 'Read it so' }).click();
    await page.getByText('1 file on the bench: 3 rows, of which 3 were taken').waitFor();
    await go('#/repairs/T-0131');
    const text = await page.getByRole('table', { name: 'What was measured, stage by stage?' }).innerText();
    expect(text).toMatch(/run-in.*12\.02.*12\.03.*11\.98/s);
    expect(faults).toEqual([]);
  });

  test('is told which column holds what, where it has no header', async () => {
    const { page, choose, faults } = flow;
    await choose({ name: 'bare.csv', content: '2026-03-14 09:00,T-0131,bulk,390.1 V\n2026-03-14 09:01,T-0132,bulk,391.0 V\n' }); // prettier-ignore
    await page.getByRole('combobox', { name: 'column 2 is read as' }).selectOption('repair');
    await page.getByRole('combobox', { name: 'column 3 is read as' }).selectOption('point');
    await page.getByRole('combobox', { name: 'stage' }).selectOption('live');
    await page.getByRole('button', { name: 'Read it so' }).click();
    await page.getByText('1 file on the bench: 2 rows, of which 2 were taken').waitFor();
    expect(faults).toEqual([]);
  });
});

test('a table of test points in UTF-16 is read with a point in each column', async () => {
  const { page, choose, go, faults } = flow;
  const text = 'repair\tfamily\tstage\tQ1 D→S [kΩ]\tbulk VDC\r\nT-0131\tHERON-48\tlive\t640\t390,1\r\n';
  await choose({ name: 'wide.csv', content: new Uint8Array([0xff, 0xfe, ...Buffer.from(text, 'utf16le')]) });
  await page.getByText('1 file on the bench: 1 row, of which 1 was taken').waitFor();
  await page.getByText('UTF-16 LE, tab').waitFor();
  await go('#/repairs/T-0131');
  const readings = await page.getByRole('table', { name: 'What was measured, stage by stage?' }).innerText();
  expect(readings).toMatch(/Q1 D→S.*640/s);
  expect(readings).toMatch(/bulk.*390\.1/s);
  expect(faults).toEqual([]);
});

const GOOD = '2026-03-14T09:59:33,T-0131,HERON-48,12V main,live,DC volts,12.58,V,M1';

test('a row that was set aside is mended in its place and admitted', async () => {
  const { page, choose, faults } = flow;
  await choose(logOf('shift.csv', GOOD, GOOD.replace('12.58', '12.x8').replace('33', '40')));
  await page.getByRole('button', { name: 'Mend line 3 of shift.csv' }).click();
  await page.keyboard.press('Enter');
  await page
    .getByRole('alert')
    .getByText(/12\.x8/)
    .waitFor();
  const input = page.getByRole('textbox', { name: 'Content of line 3 of shift.csv' });
  await input.fill((await input.inputValue()).replace('12.x8', '12.58'));
  await page.keyboard.press('Enter');
  await page.getByText('2 rows, of which 2 were taken, 0 set aside').waitFor();
  await page.getByText('Line 3 of shift.csv was admitted.').waitFor();
  expect(faults).toEqual([]);
});

test('rows that were set aside are saved as CSV and then let go', async () => {
  const { page, choose, faults } = flow;
  await choose(logOf('shift.csv', GOOD, GOOD.replace('12.58', '12.x8')));
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save as CSV' }).click();
  expect((await download).suggestedFilename()).toBe('rows set aside.csv');
  await page.getByRole('button', { name: 'Let all go…' }).click();
  await page.getByRole('button', { name: 'Let all go', exact: true }).click();
  await page.getByText('Every row could be read: nothing is set aside.').waitFor();
  expect(faults).toEqual([]);
});

test('an import is taken back whole, after one question that names what goes', async () => {
  const { page, choose, faults } = flow;
  await choose(BANDS, logOf('shift.csv', GOOD));
  await page.getByRole('button', { name: 'Take back shift.csv' }).click();
  await page.getByText('Take shift.csv back? 1 reading goes from the bench').waitFor();
  expect(await violations(page)).toEqual([]);
  await page.getByRole('button', { name: 'Take it back' }).click();
  await page.getByText('1 file on the bench: 2 rows').waitFor();
  expect(await page.locator('header').innerText()).toContain('0 readings');
  expect(faults).toEqual([]);
});

test('a file that is in is read in another way, in the place of its import', async () => {
  const { page, choose, go, faults } = flow;
  await choose(logOf('shift.csv', GOOD));
  await page.getByRole('button', { name: 'Change how it was read: shift.csv' }).click();
  await page.getByRole('heading', { name: 'How should shift.csv be read instead?' }).waitFor();
  await page.getByRole('combobox', { name: 'meter is read as' }).selectOption('ignored');
  await page.getByRole('button', { name: 'Read it so' }).click();
  await page.getByText('1 file on the bench: 1 row, of which 1 was taken').waitFor();
  await go('#/readings');
  await page.locator('bt-readings-place').getByText('12.58').first().waitFor();
  expect(await page.locator('bt-readings-place').getByText('M1').count()).toBe(0);
  expect(faults).toEqual([]);
});

test('a name that is not known is answered once, and holds for the files to come', async () => {
  const { page, choose, go, faults } = flow;
  await choose(BANDS, logOf('shift.csv', GOOD.replace('HERON-48', 'HERON 48')));
  await page.getByRole('button', { name: '1 name is not known yet' }).click();
  await page.getByRole('button', { name: 'Take it as that: HERON 48' }).click();
  await page.getByText('HERON 48 is HERON-48 from now on.').waitFor();
  await choose(logOf('next.csv', GOOD.replace('HERON-48', 'HERON 48').replace('09:59', '10:59')));
  await page.getByText(/3 files on the bench/).waitFor();
  expect(await page.getByText(/not known yet/).count()).toBe(0);
  await go('#/families');
  const families = page.locator('bt-families-place');
  await families.getByText('HERON-48').first().waitFor();
  expect(await families.getByText('HERON 48').count()).toBe(0);
  expect(faults).toEqual([]);
});
