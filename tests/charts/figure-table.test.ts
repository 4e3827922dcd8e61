import { expect, test } from 'vitest';
import { csvText } from '../../src/ui/charts/figure-table.ts';

test('a table is written with commas and unrounded numbers, as its first row says', () => {
  const text = csvText({
    caption: '',
    columns: [{ title: 'part' }, { title: 'share', number: true }],
    rows: [
      ['Q1', { text: '36 %', value: 0.3636 }],
      ['D3', { text: 'too few' }],
    ],
  });
  expect(text).toBe('part,share\r\nQ1,0.3636\r\nD3,too few\r\n');
});

test('texts with separators are quoted, formulas are made texts, and what is no number is never written as one', () => {
  const rows = [['a, "b"', '=1+1', { text: '', value: NaN }]];
  expect(csvText({ caption: '', columns: [{ title: 'x' }, { title: 'y' }, { title: 'z' }], rows })).toBe(
    'x,y,z\r\n"a, ""b""",\'=1+1,\r\n',
  );
});
