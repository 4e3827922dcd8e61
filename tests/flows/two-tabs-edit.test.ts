import { expect, inject, test } from 'vitest';
import { openForEachTest, startEmpty, type FlowPage } from './flow-page.ts';

const LOG = [
  'time,repair,family,point,stage,mode,specimen,reading,unit,meter',
  '2026-04-01T09:00:00,T-0501,HERON-48,5V standby,live,DC volts,board,5.02,V,M1',
  '2026-04-01T09:02:00,T-0501,HERON-48,bulk,live,DC volts,board,390.1,V,M1',
  '',
].join('\n');

let flow: FlowPage;

openForEachTest((opened) => {
  flow = opened;
});

test('two tabs edit one family: nothing typed is lost, nothing is written over unseen, and what has readings goes only when asked', async () => {
  const { page, choose, go, faults } = flow;
  await startEmpty({ page });
  await choose({ name: 'april.csv', content: LOG });
  await go('#/bands/family?family=HERON-48');
  await page.getByLabel('Name of point 1').fill('5V standby');
  await page.getByRole('button', { name: 'Add a point' }).click();
  await page.getByLabel('Name of point 2').fill('bulk');
  await page.getByRole('button', { name: 'Save the family' }).click();
  await page.getByText('HERON-48 has 2 test points and 0 parts now.').waitFor();

  const other = await page.context().newPage();
  await other.goto(`${inject('baseUrl')}#/bands/family?family=HERON-48`);
  await expect.poll(() => other.getByLabel('Name of point 2').inputValue()).toBe('bulk');
  await page.getByLabel('Rail of bulk').fill('bulk rail');
  await other.getByRole('checkbox').check();
  await other.getByRole('button', { name: 'Save the family' }).click();
  await other.getByText('HERON-48 has 2 test points and 0 parts now.').waitFor();

  await page.getByText(/HERON-48 was changed while you typed.*boost stage no → yes/).waitFor();
  expect(await page.getByLabel('Rail of bulk').inputValue()).toBe('bulk rail');
  await page.getByRole('button', { name: 'Show it as it is now' }).click();
  await expect.poll(() => page.getByRole('checkbox').isChecked()).toBe(true);
  expect(await page.getByLabel('Rail of bulk').inputValue()).toBe('');

  await page.getByRole('button', { name: 'Remove bulk' }).click();
  await page.getByRole('button', { name: 'Save the family' }).click();
  await page.getByText('The point bulk, with 1 reading.').waitFor();
  await page.getByRole('button', { name: 'Back to the family' }).click();
  await page.reload();
  await expect.poll(() => page.getByLabel('Name of point 2').inputValue()).toBe('bulk');
  expect(faults).toEqual([]);
});
