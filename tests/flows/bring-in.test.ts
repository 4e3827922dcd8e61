import { describe, expect, test } from 'vitest';
import { BANDS, logOf, openForEachTest, startEmpty, violations, type FlowPage } from './flow-page.ts';

let flow: FlowPage;

openForEachTest(async (opened) => {
  flow = opened;
  await startEmpty(flow);
});

const LOG = logOf(
  'shift.csv',
  '2026-03-14T09:31:18,T-0131,HERON-48,Q1 D→S,part out,resistance,0.3,Ω,M1',
  '2026-03-14T09:59:33,T-0131,HERON-48,12V main,live,DC volts,12.58,V,M1',
  '2026-03-14T10:02:00,T-0132,HERON-48,12V main,live,DC volts,13.10,V,M1',
);

describe.each(['choose', 'drop'] as const)('a log of one’s own (%s)', (way) => {
  test('is read and judged against the bands brought in with it', async () => {
    const { page, go, faults } = flow;
    await flow[way](BANDS, LOG);
    await page
      .getByText('2 files on the bench: 5 rows, of which 5 were taken, 0 set aside and 0 known already.')
      .waitFor();
    await go('#/repairs/T-0131');
    const readings = page.getByRole('table', { name: 'What was measured, stage by stage?' });
    await readings.waitFor();
    const text = await readings.innerText();
    // A transistor of 0.3 Ω is shorted, and 12.58 V lies within 12 V ± 5 %: common practice, no source.
    expect(text).toMatch(/Q1 D→S.*0\.3.*▼\s*shorted/s);
    expect(text).toMatch(/12V main.*12\.58.*✓\s*pass/s);
    await go('#/repairs/T-0132');
    await expect.poll(() => readings.innerText()).toMatch(/13\.10.*▲\s*high/s);
    expect(faults).toEqual([]);
  });
});

test('the same file brought in twice adds nothing, and says so', async () => {
  const { page, choose, faults } = flow;
  await choose(BANDS, LOG);
  await page.getByText(/2 files on the bench/).waitFor();
  await choose(LOG);
  await page.getByText('3 rows: 0 taken, 0 set aside, 3 known already.').waitFor();
  await page.getByText('2 files on the bench: 5 rows').waitFor();
  expect(await page.locator('header').innerText()).toContain('3 readings · 2 repairs');
  expect(faults).toEqual([]);
});

test('files may be added to the sample, and the page says that they were', async () => {
  const { page, choose, faults } = flow;
  await page.getByRole('button', { name: 'open the invented sample' }).click();
  await page.getByText('(sample, invented)').waitFor();
  await page.getByText(/6 files on the bench/).waitFor();
  await choose(LOG);
  await page.getByText('(sample, invented, and your files)').waitFor();
  expect(faults).toEqual([]);
});

describe('a file that is no log', () => {
  test.each([
    [
      'a picture',
      { name: 'board.png', content: new Uint8Array([0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10, 0, 0, 0, 13]) },
      /^board\.png: left out whole\. .*PNG picture.*\.$/s,
    ],
    ['an empty file', { name: 'empty.csv', content: '' }, /^empty\.csv: left out whole\. .*is empty.*\.$/s],
  ])('%s is refused by a sentence, and what is on the bench stays', async (_what, file, says) => {
    const { page, choose, faults } = flow;
    await choose(LOG);
    await page.getByText(/1 file on the bench/).waitFor();
    await choose(file);
    await page.getByText('left out whole.').waitFor();
    expect(await page.locator('section[aria-labelledby=last] li').innerText()).toMatch(says);
    expect(await page.locator('header').innerText()).toContain('3 readings · 2 repairs');
    expect(await violations(page)).toEqual([]);
    expect(faults).toEqual([]);
  });

  test.each([
    ['a header without a known column', { name: 'books.csv', content: 'title,author\nOne,Two\nThree,Four\n' }],
    ['a letter', { name: 'letter.txt', content: 'Dear customer,\nyour board is on its way back.\nKind regards\n' }],
  ])('%s is asked about by a sentence, and left out when that is chosen', async (_what, file) => {
    const { page, choose, faults } = flow;
    await choose(LOG);
    await page.getByText(/1 file on the bench/).waitFor();
    await choose(file);
    await page.getByText('No column looks like readings, repairs, bands or meters. Which column holds what?').waitFor();
    expect(await violations(page)).toEqual([]);
    await page.getByRole('button', { name: 'Read it so' }).click();
    await page.getByText('Say what the file holds, or choose what one of its columns is read as.').waitFor();
    await page.getByRole('button', { name: 'Leave it out' }).click();
    expect(await page.locator('section[aria-labelledby=last] li').innerText()).toMatch(
      /^\S+: left out whole\. You chose to leave it out: bring it in again to be asked again\.$/,
    );
    expect(await page.locator('header').innerText()).toContain('3 readings · 2 repairs');
    expect(faults).toEqual([]);
  });

  test('is refused alone: the files beside it are read', async () => {
    const { page, choose, faults } = flow;
    await choose({ name: 'empty.csv', content: '' }, LOG);
    await page.getByText(/1 file on the bench: 3 rows/).waitFor();
    await page.getByText('empty.csv').first().waitFor();
    expect(faults).toEqual([]);
  });
});

describe('a row that cannot be read', () => {
  test('is set aside with file, line, column, content and reason, and the others are read', async () => {
    const { page, choose, faults } = flow;
    await choose(
      logOf(
        'shift.csv',
        ...[30, 31, 32, 33].map(
          (second) => `2026-03-14T09:59:${second},T-0131,HERON-48,12V main,live,DC volts,12.58,V,M1`,
        ),
        '2026-03-14T10:00:00,T-0131,HERON-48,12V main,live,DC volts,twelve <b>volts</b>,V,M1',
        '2026-02-30T10:01:00,T-0131,HERON-48,12V main,live,DC volts,12.60,V,M1',
      ),
    );
    await page
      .getByText('1 file on the bench: 6 rows, of which 4 were taken, 2 set aside and 0 known already.')
      .waitFor();
    const aside = page.getByRole('table', { name: 'Which rows were set aside, and why?' });
    const rows = await aside.locator('tbody tr').allInnerTexts();
    expect(rows).toHaveLength(2);
    expect(rows[0]).toMatch(/^shift\.csv\s+6\s+reading\s+“twelve <b>volts<\/b>”.+\.\s+2026-03-14T10:00:00,T-0131,/s);
    expect(rows[1]).toMatch(/^shift\.csv\s+7\s+time\s+“2026-02-30T10:01:00”.+\.\s+2026-02-30T10:01:00,T-0131,/s);
    expect(faults).toEqual([]);
  });
});

test('a family and a point that nobody has set bands for are read, and listed as without a band', async () => {
  const { page, choose, go, faults } = flow;
  await choose(BANDS, logOf('new.csv', '2026-03-14T09:00:00,T-0200,SISKIN-40,9V odd,live,DC volts,9.02,V,M1'));
  await go('#/bands');
  const without = page.getByRole('table', { name: 'What is measured without a band?' });
  await without.waitFor();
  expect((await without.locator('tbody').innerText()).split(/\s+/).join(' ')).toBe('SISKIN-40 9V odd live DC volts 1');
  await without.getByRole('link', { name: /readings of SISKIN-40/ }).click();
  await page.locator('bt-readings-place').getByText('9V odd').first().waitFor();
  expect(faults).toEqual([]);
});

test('text that would act as markup is shown as text, wherever it comes from', async () => {
  const { page, choose, go, faults } = flow;
  const bait = '<img src=x onerror=window.caught=1>';
  await choose(
    logOf(
      `${bait}.csv`,
      `2026-03-14T09:59:33,${bait},${bait},${bait},live,DC volts,12.58,V,${bait}`,
      `2026-03-14T10:00:00,T-0131,HERON-48,12V main,live,DC volts,${bait},V,M1`,
    ),
  );
  await page.getByText(/1 file on the bench/).waitFor();
  for (const hash of [
    '#/readings',
    '#/repairs',
    `#/repairs/${encodeURIComponent(bait)}`,
    '#/bands',
    '#/families',
    '#/shift',
  ]) {
    await go(hash);
    await page.getByText(bait).first().waitFor();
  }
  expect(await page.evaluate(() => 'caught' in window)).toBe(false);
  expect(faults).toEqual([]);
});

test('a long import is cancelled, and leaves nothing half in', async () => {
  const { page, faults } = flow;
  // Made in the page: two million rows would take longer to be handed over than to be read.
  const transfer = await page.evaluateHandle(() => {
    const rows = '2026-03-14T09:59:33,T-0131,HERON-48,12V main,live,DC volts,12.58,V,M1\n'.repeat(10_000);
    const header = 'time,repair,family,point,stage,mode,reading,unit,meter\n';
    const data = new DataTransfer();
    data.items.add(new File([header, ...Array.from({ length: 200 }, () => rows)], 'long.csv'));
    return data;
  });
  await page.dispatchEvent('body', 'drop', { dataTransfer: transfer });
  await page.getByText('Reading long.csv, file 1 of 1.').waitFor();
  await page.getByRole('button', { name: 'Cancel' }).click();
  await page.getByText('The import was cancelled: its files were left out.').waitFor();
  expect(await page.locator('header').innerText()).toContain('0 readings · 0 repairs');
  expect(faults).toEqual([]);
});
