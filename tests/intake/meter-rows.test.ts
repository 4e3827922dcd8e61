import { describe, expect, test } from 'vitest';
import type { Meter } from '../../src/domain/meter.ts';
import { planOf, read, utf8 } from './support.ts';

const HEADER = 'meter,mode,range limit,resolution,percent,counts,over-range mark,calibration due';

async function metersOf(...rows: readonly string[]): Promise<readonly Meter[]> {
  const contents = await read(utf8([HEADER, ...rows, ''].join('\n')));
  if (contents.shape !== 'meters') throw new Error('The file holds no meters.');
  expect(contents.setAside).toEqual([]);
  return contents.meters;
}

async function reasonOf(...rows: readonly string[]): Promise<{ reason: string; line: number; column: string }> {
  const { setAside } = await read(utf8([HEADER, ...rows, ''].join('\n')));
  expect(setAside).toHaveLength(1);
  const [{ reason, line, column }] = setAside as [(typeof setAside)[number]];
  return { reason, line, column };
}

describe('a table of meters', () => {
  test.each([
    HEADER,
    'meter;range;% of reading;counts',
    'instrument,function,range up to,accuracy,+ digits',
    'mode,range limit,percent,counts',
    'meter,cal due',
  ])('is known by its header %j', (header) => {
    expect(planOf(utf8(`${header}\n`)).shape).toBe('meters');
  });

  test.each([
    'time,meter,mode,range,reading,unit\n2026-03-01 08:15,M1,DC volts,60,12.01,V\n',
    'family,point,mode,nominal,percent\nHERON-48,12V main,DC volts,12,5\n',
  ])('is none where its header tells otherwise: %j', (text) => {
    expect(planOf(utf8(text)).shape).not.toBe('meters');
  });

  test('gives each meter its ranges, with prefixes, signs and words as data sheets write them', async () => {
    const rows = [
      'M1,DC volts,6 V,0.001,±0.5 %,+3 digits,OFL,2026-09-01',
      'M1,DC volts,60,0.01 V,0.5,3,,',
      'M1,resistance,600k,100,0.8,5,,',
      'B1,V AC,600,,1,10,,',
      'M2,,,,,,,2026-01-15',
    ];
    expect(await metersOf(...rows)).toEqual([
      {
        name: 'M1',
        accuracies: [
          { mode: 'DC volts', upTo: 6, percent: 0.5, counts: 3, resolution: 0.001 },
          { mode: 'DC volts', upTo: 60, percent: 0.5, counts: 3, resolution: 0.01 },
          { mode: 'resistance', upTo: 600_000, percent: 0.8, counts: 5, resolution: 100 },
        ],
        overRangeMark: 'OFL',
        calibrationDue: Date.UTC(2026, 8, 1),
      },
      { name: 'B1', accuracies: [{ mode: 'AC volts', upTo: 600, percent: 1, counts: 10 }] },
      { name: 'M2', accuracies: [], calibrationDue: Date.UTC(2026, 0, 15) },
    ]);
  });

  test('asks for the meter that it does not name, and takes the one that is stated', async () => {
    const bytes = utf8('mode,range limit,percent,counts\nDC volts,60,0.5,3\n');
    const plan = planOf(bytes);
    expect(plan.questions.map(({ text }) => text)).toEqual([expect.stringContaining('which meter')]);
    const contents = await read(bytes, { ...plan, given: { meter: 'M1' } });
    expect(contents).toMatchObject({ meters: [{ name: 'M1' }], setAsideRows: 0 });
  });

  test.each([
    ['M1,DC volts,60,0.01,-0.5,3,,', 'percent', '“-0.5” in column “percent” is negative. An accuracy is ±'],
    ['M1,DC volts,60,0.01,0.5,-3,,', 'counts', '“-3” in column “counts” is negative'],
    ['M1,DC volts,-60,0.01,0.5,3,,', 'range limit', '“-60” in column “range limit” is not above zero'],
    ['M1,DC volts,6,60,0.5,3,,', 'resolution', '“60” in column “resolution” is larger than the range itself'],
    ['M1,DC volts,,0.01,0.5,3,,', 'range limit', 'This row names no range limit in column “range limit”. Fill it in.'],
    [
      'M1,DC volts,60,0.01,half,3,,',
      'percent',
      '“half” in column “percent” is no number. Take it from the meter’s data sheet.',
    ],
    ['M1,DC volts,60 Ω,0.01,0.5,3,,', 'range limit', 'is in Ω, in which DC volts is not measured'],
    ['M1,DC volts,60,0.01,0.5 V,3,,', 'percent', 'is in V, where a plain number is expected'],
    ['M1,volts,60,0.01,0.5,3,,', 'mode', '“volts” in column “mode” is no mode that is known. Write continuity, '],
    ['M1,,60,0.01,0.5,3,,', 'mode', 'This row names no mode in column “mode”. Fill it in.'],
    [',DC volts,60,0.01,0.5,3,,', 'meter', 'This row names no meter in column “meter”. Fill it in.'],
    ['M1,,,,,,,08:15', 'calibration due', 'is a time of day where a day is expected'],
    ['M1,,,,,,1,', '', 'The over-range mark “1” reads as a number'],
  ])('sets %j aside with the column and what to do', async (row, column, reason) => {
    expect(await reasonOf('B1,DC volts,6,0.001,0.5,3,,', row)).toMatchObject({
      line: 3,
      column,
      reason: expect.stringContaining(reason) as string,
    });
  });

  test('sets a range that is stated twice aside, and a day that contradicts an earlier one', async () => {
    const row = 'M1,DC volts,60,0.01,0.5,3,,2026-09-01';
    expect(await reasonOf(row, 'M1,DC volts,60,0.01,0.7,3,,')).toMatchObject({ line: 3, reason: expect.stringContaining('states this range of “M1” already') as string }); // prettier-ignore
    expect(await reasonOf(row, 'M1,,,,,,,2026-10-01')).toMatchObject({ line: 3, reason: expect.stringContaining('An earlier row says otherwise of “M1”') as string }); // prettier-ignore
  });
});

describe('a meter’s own over-range mark', () => {
  const log = utf8('time,repair,point,stage,mode,reading\n2026-03-01 08:15,T-1,Q1 D→S,part out,resistance,-OFL-\n');

  test('is over-range where the plan says so, and no reading without', async () => {
    const plan = planOf(log);
    expect(await read(log, plan)).toMatchObject({ taken: 0, setAsideRows: 1 });
    const contents = await read(log, { ...plan, overRangeMarks: ['-ofl-'] });
    expect(contents).toMatchObject({ taken: 1, setAsideRows: 0 });
    expect(contents.shape === 'readings' && contents.log.state[0]).toBe(1);
  });
});
