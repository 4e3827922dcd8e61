import { expect, test } from 'vitest';
import { isDayOnly } from '../../src/domain/day.ts';
import { read, readingsOf, utf8 } from './support.ts';

// ISO 8601-1:2019, 5.2.2: a calendar date is a day, and says nothing of the time within it.
test.each([
  ['a column of days', 'date,repair,point,stage,reading,unit\n2026-03-01,T-1,bulk,live,330,V\n', [true]],
  ['a clock left empty', 'date,clock,repair,point,stage,reading,unit\n2026-03-01,,T-1,bulk,live,330,V\n2026-03-01,00:00,T-1,bulk,live,331,V\n', [true, false]],
  ['days among moments', 'time,repair,point,stage,reading,unit\n2026-03-01 00:00,T-1,bulk,live,330,V\n2026-03-02,T-1,bulk,live,331,V\n', [false, true]],
])('%s: a day without its time stays a day', async (_, text, expected) => {
  const readings = readingsOf(await read(utf8(text)));
  expect(readings.map(({ time }) => isDayOnly(time))).toEqual(expected);
}); // prettier-ignore
