import { describe, expect, test } from 'vitest';
import { planFile } from '../../src/intake/plan-file.ts';
import { expectReason, planOf, read, utf8 } from './support.ts';

const log = 'time,repair,family,point,stage,mode,specimen,reading,unit,meter';
const good = '2026-03-01T08:15:30,T-1,HERON-48,bulk,live,DC volts,board,389.4,V,M1';

/** The reason for which the second row of a table is set aside. */
async function reasonOf(header: string, first: string, bad: string): Promise<string | undefined> {
  const plan = planOf(utf8(`${header}\n${first}\n`));
  const { setAside } = await read(utf8(`${header}\n${first}\n${bad}\n`), plan);
  expect(setAside.length).toBeLessThanOrEqual(1);
  setAside.forEach(expectReason);
  return setAside[0]?.reason;
}

describe('a row of a log is set aside with what is wrong, in which column, and what to do', () => {
  const withReading = (reading: string): string => good.replace('389.4', reading);

  test.each([
    ['12..4 V', 'is no number. Write the number with one decimal mark, such as 12.4 V.'],
    ['1.2.3', 'is no number. Write the number with one decimal mark, such as 12.4 V.'],
    ['4.7l V', 'is no number. Write a digit in place of the letter “l”.'],
    ['1O.5', 'is no number. Write a digit in place of the letter “O”.'],
    ['38x.4', 'is no number. Write the number with one decimal mark, such as 12.4 V.'],
    ['12.5 °C', 'has the unit “°C”, which is none of V, Ω, F and A. Correct the unit, such as 12.4 V.'],
    ['5 l', 'has the unit “l”, which is none of V, Ω, F and A. Correct the unit, such as 12.4 V.'],
    ['soon', 'is no number and none of the words that meters show. Write it as the meter showed it, such as 12.4 V or OL.'],
    ['NaN', 'is no number: the meter had none to give. Measure again, or let the row go.'],
    ['1e99', 'is a larger number than any meter shows. Write it as the meter showed it.'],
    ['-1.1e15 V', 'is a larger number than any meter shows. Write it as the meter showed it.'],
    ['-5e-324', 'is a smaller number than any meter shows. Write it as the meter showed it, or 0.'],
    ['1e-261 V', 'is a smaller number than any meter shows. Write it as the meter showed it, or 0.'],
    ['0.5 kΩ', 'is in Ω, in which DC volts is not measured. Correct the unit or the mode.'],
  ])('reading “%s” %s', async (reading, end) => {
    expect(await reasonOf(log, good, withReading(reading))).toBe(`“${reading}” in column “reading” ${end}`);
  }); // prettier-ignore

  test('a number with the other decimal mark is told from one that is none', async () => {
    const header = 'repair;point;stage;reading [V]';
    expect(await reasonOf(header, 'T-1;bulk;live;4,98', 'T-1;bulk;live;4.9')).toBe(
      '“4.9” in column “reading [V]” is no number where the decimal mark is the comma. Write it with a decimal comma, or choose the point for the whole file.',
    );
    expect(await reasonOf(header, 'T-1;bulk;live;4,98', 'T-1;bulk;live;4,,9')).toContain('such as 12,4 V.');
  });

  test.each([
    ['2026-02-30T08:15:30', 'time', 'names the day 2026-02-30, which no calendar has. Correct the day.'],
    ['noon', 'time', 'is no time that can be read. Write it as year-month-day hours:minutes:seconds, such as 2026-03-01 08:15:30.'],
    ['08:15', 'time', 'is a time without its day. State the day for the whole file, or for this line.'],
    ['1/2/2026', 'time', 'has day and month in an order that this file does not settle. Choose their order for the file, or write the year first, such as 2026-03-01.'],
  ])('time “%s”', async (time, column, end) => {
    const reason = await reasonOf(log, good, good.replace('2026-03-01T08:15:30', time));
    expect(reason).toBe(`“${time}” in column “${column}” ${end}`);
  }); // prettier-ignore

  test.each([
    ['T-1,', ',', 'This row names no repair in column “repair”. Fill it in, or state it for the file.'],
    ['bulk', '', 'This row names no test point in column “point”. Fill it in, or state it for the file.'],
    ['live', '', 'This row names no stage in column “stage”. Fill it in, or state it for the file.'],
    ['live', 'boiling', '“boiling” in column “stage” is no stage that is known. Write as received, part out, refitted, live or run-in.'],
    ['389.4,V,M1', '389.4', 'This row has 8 of 10 cells and ends before column “unit”. Fill in what is missing, or let the row go.'],
    [',M1', ',M1,x', 'This row has 11 cells where the header has 10. Look for a separator inside a cell, and put that cell in quotation marks.'],
    [',M1', ',"M1', 'A quotation mark opens a cell of this line, and none closes it. Remove it, or close the cell.'],
    [',V,', ',bar,', '“bar” in column “unit” is none of the units V, Ω, F and A. Correct the unit, or let the row go.'],
  ])('“%s” written as “%s”', async (from, to, reason) => {
    expect(await reasonOf(log, good, good.replace(from, to))).toBe(reason);
  }); // prettier-ignore

  test('what no column says is to be stated for the file', async () => {
    const { setAside } = await read(utf8('point,stage,reading [V]\nbulk,live,389.4\n'));
    expect(setAside[0]).toMatchObject({
      column: '',
      reason: 'This row names no repair, and no column does. State it for the file.',
    });
  });
});

describe('so is a row of a repairs table', () => {
  const header = 'repair,family,complaint,received,returned,outcome';
  const row = 'T-1,HERON-48,flicker,2026-02-01,2026-02-03,returned working';

  test.each([
    [',HERON-48,,2026-02-01,,', 'This row names no repair in column “repair”. Fill in its id.'],
    ['T-1,HERON-48,,2026-02-01,,', '“T-1” in column “repair” stands on line 2 already. Keep one of the two rows.'],
    ['T-2,HERON-48,,2026-02-03,2026-02-01,', '“2026-02-01” in column “returned” lies before the day on which the repair was received. Correct one of the two days.'],
    ['T-2,HERON-48,,2026-02-31,,', '“2026-02-31” in column “received” names the day 2026-02-31, which no calendar has. Correct the day.'],
    ['T-2,HERON-48,,2026-02-01,,lost', '“lost” in column “outcome” is no outcome that is known. Write open, returned working, not worth repairing, no fault found or comeback.'],
  ])('%s', async (bad, reason) => {
    expect(await reasonOf(header, row, bad)).toBe(reason);
  }); // prettier-ignore
});

describe('so is a row of a bands table', () => {
  const header = 'family,point,mode,stage,kind,low,high,nominal,percent,unit,basis,set on,nodes,boost,role';
  const row = 'HERON-48,bulk,DC volts,live,between,380,400,,,V,,,,,';

  test.each([
    [',bulk,DC volts,live,between,380,400,,,V,,,,,', 'This row names no family in column “family”. Fill it in.'],
    ['HERON-48,,DC volts,live,between,380,400,,,V,,,,,', 'This row names no test point in column “point”. Fill it in.'],
    ['HERON-48,bulk,smell,live,between,380,400,,,V,,,,,', '“smell” in column “mode” is no mode that is known. Write continuity, resistance, diode, capacitance, ESR, DC volts, AC volts or current.'],
    ['HERON-48,bulk,DC volts,live,near,380,400,,,V,,,,,', '“near” in column “kind” is no kind of band. Write between, percent, at least, at most, open, shorted or rectified mains.'],
    ['HERON-48,bulk,DC volts,live,between,380,,,,V,,,,,', 'This row names no high limit in column “high”. Fill it in.'],
    ['HERON-48,bulk,DC volts,live,between,400,380,,,V,,,,,', 'The low limit lies above the high limit: swap them. Correct the numbers of this row.'],
    ['HERON-48,bulk,DC volts,live,,,,12,,V,,,,,', 'This row has a nominal value or a percentage alone. Fill in both, or a limit.'],
    ['HERON-48,bulk,DC volts,live,between,380,400,,,bar,,,,,', '“bar” in column “unit” is none of the units V, Ω, F and A. Correct the unit.'],
    ['HERON-48,bulk,DC volts,live,between,380,400,,,V,hearsay,,,,', '“hearsay” in column “basis” is no basis that is known. Write board marking, learned, common practice or typed in.'],
    ['HERON-48,bulk,DC volts,live,between,380,400,,,V,,,A,,', '“A” in column “nodes” does not name two nodes. Write them as one/other.'],
    ['HERON-48,bulk,DC volts,live,between,380,400,,,V,,,,perhaps,', '“perhaps” in column “boost” is neither yes nor no. Write yes or no.'],
    ['HERON-48,bulk,DC volts,live,between,380,400,,,V,,,,,chief', '“chief” in column “role” is no role that is known. Write mains, bulk, standby, main, backlight or part.'],
  ])('%s', async (bad, reason) => {
    expect(await reasonOf(header, row, bad)).toBe(reason);
  }); // prettier-ignore
});

test.each([
  ['nothing', '', '“x.csv” is empty: it holds no bytes. Save it again where it came from, and choose the new file.'],
  ['JSON', '[{"a": 1}]', '“x.csv” is JSON, not a table of text. Save the table in it as CSV, and choose that file.'],
  ['PDF', '%PDF-1.7', '“x.csv” is a PDF document, not a table of text. Save the table in it as CSV, and choose that file.'],
])('a file of %s is refused with what it is and what to do', (_, text, refused) => {
  expect(planFile('x.csv', utf8(text), true)).toEqual({ refused });
}); // prettier-ignore
