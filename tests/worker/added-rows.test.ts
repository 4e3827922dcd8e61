import { describe, expect, test } from 'vitest';
import { createBench } from '../../src/worker/bench/bench.ts';
import type { BenchHandlers } from '../../src/worker/contract/calls.ts';
import type { NewRows } from '../../src/worker/contract/reading-edits.ts';
import { ask } from '../support/asking.ts';
import { ALL, plain, rowsOf } from '../support/edit-model.ts';
import { reading } from '../support/readings.ts';
import { SMALL_LOG } from '../ui/grid/bench-session.ts';

async function smallBench(): Promise<BenchHandlers> {
  const bench = createBench();
  await ask(bench, 'bringIn', [new File([SMALL_LOG], 'april.csv')]);
  return bench;
}

const FROM_READING: NewRows['columns'] = [
  { title: 'reading', field: 'reading' },
  { title: 'against its band' },
  { title: 'meter', field: 'meter' },
];
const LIKE = reading({ repair: 'T-0501', family: 'HERON-48', point: '5V standby', stage: 'live', mode: 'DC volts', meter: 'M1' }); // prettier-ignore
const block = (rows: NewRows['rows'], more: Partial<NewRows> = {}): NewRows => ({ rows, columns: FROM_READING, like: LIKE, ...more }); // prettier-ignore

describe('addReadings(rows, mark)', () => {
  test('takes what the block does not say from the reading beside it, and says so', async () => {
    const bench = await smallBench();
    const rows = block([['5,03 V', 'x', 'M2'], ['about 5', '', '']]); // prettier-ignore
    const tried = await ask(bench, 'tryAdd', rows, '.');
    expect(tried).toMatchObject({ hasHeader: false, setAside: 1, given: { repair: 'T-0501', point: '5V standby' } });
    expect(await rowsOf(bench)).toHaveLength(9);
    expect(await ask(bench, 'addReadings', rows, '.')).toEqual(tried);
    const [added] = (await rowsOf(bench)).slice(9);
    expect(added).toMatchObject({ repair: 'T-0501', point: '5V standby', value: 5.03, meter: 'M2', time: NaN });
    const { imports, setAside } = await ask(bench, 'shift');
    expect(imports[1]).toMatchObject({ rows: 2, taken: 1, setAside: 1 });
    expect(imports[1]?.file).toMatch(/^added by hand \d{4}-\d\d-\d\d \d\d\.\d\d\.\d\d$/);
    expect(setAside[0]?.content).toContain('about 5');
  });

  test('counts a row that is here already as new: whoever adds it by hand wants it twice', async () => {
    const bench = await smallBench();
    const [header = '', first = ''] = SMALL_LOG.split('\n');
    const rows = block([header.split(','), first.split(',')]);
    expect(await ask(bench, 'addReadings', rows, '.')).toMatchObject({ hasHeader: true, added: 1 });
    await ask(bench, 'addReadings', rows, '.');
    expect(await rowsOf(bench)).toHaveLength(11);
    const { imports } = await ask(bench, 'shift');
    expect(new Set(imports.map(({ hash }) => hash)).size).toBe(3);
  });

  test('says of each cell that cannot be read which row of the block it is in and why', async () => {
    const bench = await smallBench();
    const headed = block([['point', 'stage', 'reading'], ['F1', 'live', '12 Q'], ['F1', 'soon', '12 V']]); // prettier-ignore
    const { faults, added } = await ask(bench, 'tryAdd', headed, '.');
    expect(added).toBe(0);
    expect(faults.map(({ row, column }) => [row, column])).toEqual([[2, 'reading'], [3, 'stage']]); // prettier-ignore
    expect(faults[1]?.fault).toMatch(/“soon”.* is no stage/);
  });

  test('loses no row: notes, footers and headers amid the block are set aside like all else that cannot be read', async () => {
    const rows = block([['5 V'], ['# note'], [''], ['total'], ['reading'], ['7 V'], ['mean']]);
    const { added, setAside, faults } = await ask(await smallBench(), 'tryAdd', rows, '.');
    expect([added, setAside]).toEqual([2, 4]);
    expect(faults.map(({ row }) => row)).toEqual([2, 4, 5, 7]);
  });

  test('adds nothing at all where the whole is asked for and a row cannot be read', async () => {
    const bench = await smallBench();
    expect(await ask(bench, 'addReadings', block([['5 V'], ['x']]), '.', true)).toMatchObject({
      added: 1,
      setAside: 1,
    });
    expect(await rowsOf(bench)).toHaveLength(9);
  });

  test('asks for nothing: a number that may be read in two ways is read with the bench’s own mark, and told', async () => {
    const bench = await smallBench();
    const { doubts, examples } = await ask(bench, 'tryAdd', block([['5,000 V']]), ',');
    expect(examples[0]?.value).toBe(5);
    expect(doubts).toEqual([expect.stringMatching(/^Is “5,000 V” a number with decimals.* read with the decimal mark “,”/)]); // prettier-ignore
  });

  test.each([
    ['no column of readings', block([['M1']], { columns: [{ title: 'meter', field: 'meter' }] }), /^No column of the block holds readings/],
  ])('refuses a block with %s', async (_, rows, sentence) => {
    await expect(ask(await smallBench(), 'tryAdd', rows, '.')).rejects.toThrow(sentence);
  }); // prettier-ignore

  test.each([
    ['nul\0', '5 V'],
    ['=1+1', '5 V'],
    ['__proto__', '5 V'],
    ['a\nb', '5 V'],
    ['x'.repeat(300), '5 V'],
    ['F1', '9'.repeat(400)],
  ])('reads the point %j and the reading %j, or sets them aside', async (point, value) => {
    const bench = await smallBench();
    const { added, setAside } = await ask(bench, 'addReadings', block([['point', 'reading', 'mode'], [point, value, 'DC volts']]), '.'); // prettier-ignore
    expect(added + setAside).toBe(1);
  });
});

test('copyReadings(query, first, last) adds readings once more, exactly as they are', async () => {
  const bench = await smallBench();
  await ask(bench, 'editReadings', ALL, [{ first: 0, last: 0, field: 'reading', text: '>40 V' }], '.');
  expect(await ask(bench, 'copyReadings', ALL, 0, 8)).toMatchObject({ last: { added: 9 } });
  const rows = (await rowsOf(bench)).map(plain).map(({ origin, ...fields }) => ({ ...fields, line: origin.line > 0 }));
  expect(rows.slice(9)).toEqual(rows.slice(0, 9));
  expect(await ask(bench, 'undoEdit')).toMatchObject({ next: { added: 9 } });
  expect(await rowsOf(bench)).toHaveLength(9);
});

test('a row that was set aside is mended like that of a file', async () => {
  const bench = await smallBench();
  await ask(
    bench,
    'addReadings',
    block([
      ['5.1 V', '', 'M1'],
      ['5.2 Q', '', 'M1'],
    ]),
    '.',
  );
  const [aside] = (await ask(bench, 'shift')).setAside;
  const { file = '', line = 0, content = '' } = aside ?? {};
  expect(await ask(bench, 'mendRow', file, line, content.replace('Q', 'V'))).toBeUndefined();
  expect((await rowsOf(bench)).slice(9).map(({ value }) => value)).toEqual([5.1, 5.2]);
  expect((await ask(bench, 'shift')).imports[1]).toMatchObject({ rows: 2, taken: 2, setAside: 0 });
});

test('what was taken back stands in no file’s way, and can be done again after another came in', async () => {
  const bench = await smallBench();
  const [header = '', first = ''] = SMALL_LOG.split('\n');
  const added = first.replace('09:00', '11:00');
  await ask(bench, 'addReadings', block([header.split(','), added.split(',')]), '.');
  await ask(bench, 'undoEdit');
  const { records } = await ask(bench, 'bringIn', [new File([`${header}\n${added}\n`], 'may.csv')]);
  expect(records[0]).toMatchObject({ taken: 1, known: 0 });
  await ask(bench, 'redoEdit');
  expect((await rowsOf(bench)).slice(9).map(({ origin }) => origin.file)).toEqual(['may.csv', expect.stringMatching(/^added by hand/)]); // prettier-ignore
});

test('an import of added rows that is taken back is no edit any more', async () => {
  const bench = await smallBench();
  await ask(bench, 'copyReadings', ALL, 0, 0);
  const { imports } = await ask(bench, 'shift');
  await ask(bench, 'takeBack', imports[1]?.hash ?? '');
  expect(await ask(bench, 'editsSoFar')).toMatchObject({ steps: 0, undone: 0 });
  expect(await rowsOf(bench)).toHaveLength(9);
});

test('readingHistory(row) tells who changed what, when, and why, with the original first', async () => {
  const bench = await smallBench();
  await ask(bench, 'changeSettings', { prices: [], technician: 'Ada' });
  const edit = (text: string) => ask(bench, 'editReadings', ALL, [{ first: 1, last: 1, field: 'reading', text }], '.');
  await edit('388.1 V');
  await ask(bench, 'explainEdit', 'misread');
  await edit('389.1 V');
  await ask(bench, 'deleteReadings', ALL, 0, 1);
  await ask(bench, 'returnReadings');
  const entries = await ask(bench, 'readingHistory', { file: 'april.csv', line: 3, nth: 0 });
  expect(entries).toMatchObject([
    { does: 'edited', who: 'Ada', why: 'misread', old: { value: 390.1 }, new: { value: 388.1 } },
    { does: 'edited', who: 'Ada', old: { value: 388.1 }, new: { value: 389.1 } },
    { does: 'deleted' },
    { does: 'returned' },
  ]);
  expect(await ask(bench, 'readingHistory', { file: 'april.csv', line: 4, nth: 0 })).toEqual([]);
});
