import { describe, expect, test } from 'vitest';
import type { ColumnUse, Field } from '../../src/domain/file-plan.ts';
import { readHeader } from '../../src/intake/header-text.ts';
import { previewFile } from '../../src/intake/preview.ts';
import { planOf, read, readingsOf, utf8 } from './support.ts';

/** A log whose columns are read as stated. */
function planned(text: string, fields: readonly Field[]) {
  const plan = planOf(utf8(text));
  const columns = plan.columns.map((use, at): ColumnUse => ({
    header: use.header,
    field: fields[at]!,
    reason: 'is your choice',
    doubtful: false,
  }));
  return { ...plan, shape: 'readings' as const, columns };
}

describe('a status beside the value', () => {
  const text =
    'Job,Point,Stage,Value,Unit,State\nT-1,bulk,live,9999,V,OL\nT-1,bulk,live,390,V,ok\nT-1,bulk,live,391,V,odd\n';
  const plan = planned(text, ['repair', 'point', 'stage', 'reading', 'unit', 'status']);

  test('takes the place of a number that stands for over-range, and sets aside what it cannot read', async () => {
    const contents = await read(utf8(text), plan);
    const got = readingsOf(contents).map(({ state, value }) => [state, value]);
    expect(got).toEqual([['over-range', NaN], ['value', 390]]); // prettier-ignore
    expect(contents.setAside.map(({ line, column }) => [line, column])).toEqual([[4, 'State']]);
  });

  test('is counted from the head of the file', () => {
    expect(previewFile('log.csv', utf8(text), plan).count).toMatchObject({ rows: 3, taken: 2, isWhole: true });
  });
});

test('a prefix in a column of its own scales the value, and one that contradicts the unit sets the row aside', async () => {
  const text =
    'Job,Point,Stage,Value,P,Unit\nT-1,R1,part out,4.7,k,Ω\nT-1,R1,part out,4.7,,Ω\nT-1,R1,part out,4.7,M,kΩ\n';
  const plan = planned(text, ['repair', 'point', 'stage', 'reading', 'prefix', 'unit']);
  const contents = await read(utf8(text), plan);
  expect(readingsOf(contents).map(({ value }) => value)).toEqual([4700, 4.7]);
  expect(contents.setAside.map(({ line }) => line)).toEqual([4]);
});

test.each([
  ['backlight A (V DC)', { name: 'backlight A', mode: 'DC volts' }],
  ['sense R (mV DC)', { name: 'sense R', mode: 'DC volts' }],
  ['bulk cap (V)', { name: 'bulk cap', mode: undefined }],
  ['C9 ESR [Ω]', { name: 'C9', mode: 'ESR' }],
])('the header %s keeps the words of its point', (header, expected) => {
  expect(readHeader(header)).toMatchObject(expected);
});

test('a mode stated for the file touches only rows whose unit tells none', async () => {
  const text = 'Job,Point,Stage,Value\nT-1,R1,part out,4.7 kΩ\nT-1,bulk,live,390 V\nT-1,bulk,live,391\n';
  const plan = { ...planOf(utf8(text)), given: { mode: 'DC volts' as const } };
  expect(readingsOf(await read(utf8(text), plan)).map(({ mode }) => mode)).toEqual([
    'resistance',
    'DC volts',
    'DC volts',
  ]);
});
