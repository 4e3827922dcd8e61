import { expect, test } from 'vitest';
import { planOf, read, readingsOf, utf8 } from './support.ts';

const planned = (text: string) => planOf(utf8(text));
const fields = (text: string): string[] => planned(text).columns.map(({ field }) => field);

test('a clock beside a date is found by its content, whatever its header is called', async () => {
  const text =
    'Date,Kellonaika,Job,Point,Stage,Value\n2026-03-01,08:15,T-1,bulk,live,390 V\n,20:20,T-1,bulk,live,391 V\n,00:10,T-1,bulk,live,392 V\n';
  expect(fields(text)[1]).toBe('clock');
  const contents = await read(utf8(text));
  expect(readingsOf(contents).map(({ time }) => new Date(time).toISOString().slice(0, 16))).toEqual([
    '2026-03-01T08:15',
    '2026-03-01T20:20',
    '2026-03-02T00:10',
  ]);
  expect(contents.notices.join(' ')).toContain('without a date');
});

test('a status, a prefix and a counter beside the value are told by their content', () => {
  const text =
    'ID,Job,Point,Stage,Value,xx,yy,Unit\n1,T-1,R1,part out,4.7,k,,Ω\n2,T-1,R2,part out,9999,M,OL,Ω\n3,T-1,R3,part out,470,k,ok,Ω\n';
  expect(fields(text)).toEqual(['ignored', 'repair', 'point', 'stage', 'reading', 'prefix', 'status', 'unit']);
});

test('auto as a mode names no mode', () => {
  const text = 'Job,Point,Stage,Mode,Value\nT-1,R1,part out,AUTO,4.7 kΩ\nT-1,R2,part out,AUTO,47 kΩ\n';
  expect(fields(text)[3]).toBe('ignored');
});

test('numbers under a name that is not known are asked about, and what bears on nothing says why', () => {
  const text =
    'Job,Point,Stage,Value,Zork,Empty,Place\nT-1,bulk,live,390 V,4.2,,aisle\nT-2,bulk,live,391 V,4.9,,aisle\nT-3,bulk,live,392 V,4.3,,aisle\n';
  const { columns, questions } = planned(text);
  const asked = questions.filter(({ about }) => about === 'columns');
  expect(asked.map(({ columns: meant }) => meant)).toEqual([[4]]);
  expect(columns.slice(5).map(({ reason }) => reason)).toEqual(['is empty', 'says “aisle” in each row']);
});
