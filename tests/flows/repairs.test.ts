import { describe, expect, test } from 'vitest';
import { logOf, openForEachTest, startEmpty, type FlowPage } from './flow-page.ts';

let flow: FlowPage;

openForEachTest((opened) => {
  flow = opened;
});

/** The sample's board whose fuse nobody measured, with a meter that reads high. */
const BOARD = 'T-0117';

describe('whether a board may go back', () => {
  test('a line is overruled with a reason, which is kept, printed, and taken back', async () => {
    const { page, go, faults } = flow;
    await go(`#/repairs/${BOARD}`);
    await page.getByText('Not yet: 1 line does not hold, 1 was not measured.').waitFor();
    await page.getByRole('button', { name: 'Overrule: The fuse is good.' }).click();
    await page.keyboard.type('the board draws current, so it conducts');
    await page.keyboard.press('Enter');
    await page.getByText('Not yet: 1 line does not hold.').waitFor();
    await page.getByRole('link', { name: 'Sheet to print' }).click();
    await page.getByText('Overruled: the board draws current, so it conducts').waitFor();
    await page.goBack();
    await page.getByRole('button', { name: 'Take back: The fuse is good.' }).click();
    await page.getByText('Not yet: 1 line does not hold, 1 was not measured.').waitFor();
    expect(faults).toEqual([]);
  });

  test('a board brought in with odd data shows it as found', async () => {
    const { page, go, choose } = flow;
    await startEmpty(flow);
    await choose(
      logOf(
        'odd.csv',
        '2026-03-14 09:10,T-1,WREN-19,Q1 D→S,refitted,resistance,250.1,kΩ,M1',
        '2026-03-14 09:20,T-1,WREN-19,Q1 D→S,part out,resistance,0.4,Ω,M1',
        '2026-03-14 09:05,T-1,WREN-19,D1 A→K,as received,diode,0.41,V,M1',
        '2026-03-14 09:20,T-1,WREN-19,D2 A→K,part out,diode,0.42,V,M2',
      ),
    );
    await go('#/repairs/T-1');
    const found = page.getByRole('region', { name: 'What stands out?' });
    await found.getByText(/^As found: Nobody has declared the family WREN-19/).waitFor();
    await found.getByText('Q1 reads as refitted before it came out').waitFor();
    await found.getByText('M1 and M2 read at the same moment, once').waitFor();
    await found.getByText('In odd.csv, 2 readings have an earlier line').waitFor();
  });

  test('the time to discharge is told from what is typed, with the caution', async () => {
    const { page, go } = flow;
    await go(`#/repairs/${BOARD}`);
    await page.getByLabel('Capacitance').fill('470');
    await page.getByLabel('Bleeder').fill('100');
    await page.getByLabel('Charged to').fill('400');
    // 400 V to 60 V through 100 kΩ from 470 µF: 89.16 s by t = RC·ln(V₀/V).
    await page.getByText('About 89 s from 400 V to 60 V d.c., if the bleeder is whole.').waitFor();
    await page.getByText('Only a measurement counts.').waitFor();
    await go('#/repairs/T-0003');
    await page.getByRole('heading', { name: 'T-0003' }).waitFor();
    expect(await page.getByLabel('Capacitance').inputValue()).toBe('470');
  });
});

describe('a repair by hand', () => {
  test('is added, refused where it cannot be, and linked with its comeback both ways', async () => {
    const { page, go, faults } = flow;
    await go('#/repairs?add');
    await page.getByRole('textbox', { name: 'Repair', exact: true }).fill('T-0200');
    await page.getByLabel('Board family').fill('WREN-19');
    await page.getByLabel('Received').fill('2026-01-03');
    await page.getByLabel('Comeback of').fill('T-0003');
    await page.getByRole('button', { name: 'Keep' }).click();
    await page.getByText('T-0200 was received before T-0003 was returned').waitFor();
    await page.getByLabel('Received').fill('2026-04-02');
    await page.getByRole('button', { name: 'Keep' }).click();
    await page.getByRole('heading', { name: 'T-0200' }).waitFor();
    await page.getByText('Nobody has declared the family WREN-19').waitFor();
    await page.getByRole('link', { name: 'T-0003' }).click();
    await page.getByRole('heading', { name: 'T-0003' }).waitFor();
    await page.getByRole('link', { name: 'T-0200' }).waitFor();
    await go('#/repairs?text=T-0200');
    await page.getByRole('row', { name: /^T-0200 WREN-19/ }).waitFor();
    expect(faults).toEqual([]);
  });
});
