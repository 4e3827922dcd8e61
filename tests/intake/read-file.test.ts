import { describe, expect, test } from 'vitest';
import type { FilePlan } from '../../src/domain/file-plan.ts';
import { MAX_CELL, MAX_FILE_BYTES, MAX_NAME, MAX_SET_ASIDE_KEPT } from '../../src/intake/caps.ts';
import { readFile } from '../../src/intake/read-file.ts';
import { inPieces, planOf, read, readingsOf, utf8 } from './support.ts';

const header = 'time,repair,family,point,stage,mode,specimen,reading,unit,meter';
const row = '2026-03-01T08:15:30,T-0131,HERON-48,bulk,live,DC volts,board,389.4,V,M1';

describe('logs in long form', () => {
  test('a row becomes a reading with everything that it says', async () => {
    const contents = await read(
      utf8(`${header}\n2026-03-01T08:16:10,T-0131,HERON-48,Q1 D→S,part out,resistance,new part,0.640,MΩ,M1\n`),
    );
    expect(readingsOf(contents)).toEqual([
      {
        time: Date.UTC(2026, 2, 1, 8, 16, 10),
        repair: 'T-0131',
        family: 'HERON-48',
        point: 'Q1 D→S',
        stage: 'part out',
        mode: 'resistance',
        specimen: 'new part',
        state: 'value',
        value: 640_000,
        prefix: 6,
        decimals: 3,
        meter: 'M1',
        origin: { file: 'log.csv', line: 2 },
      },
    ]);
  });

  test('a blank reading of a named point is kept as blank', async () => {
    const [reading] = readingsOf(
      await read(utf8(`${header}\n2026-03-01T08:15:30,T-0131,HERON-48,C3,live,capacitance,board,,µF,M1\n`)),
    );
    expect(reading).toMatchObject({ state: 'blank', value: NaN, mode: 'capacitance' });
  });

  test.each([
    ['2026-02-30T08:15:30,T-0131,HERON-48,bulk,live,DC volts,board,389.4,V,M1', 'time', 'no calendar has'],
    ['2026-03-01T08:15:30,,HERON-48,bulk,live,DC volts,board,389.4,V,M1', 'repair', 'names no repair'],
    ['2026-03-01T08:15:30,T-0131,HERON-48,,live,DC volts,board,389.4,V,M1', 'point', 'names no test point'],
    ['2026-03-01T08:15:30,T-0131,HERON-48,bulk,boiling,DC volts,board,389.4,V,M1', 'stage', 'no stage that is known'],
    ['2026-03-01T08:15:30,T-0131,HERON-48,bulk,live,smell,board,389.4,V,M1', 'mode', 'no mode that is known'],
    ['2026-03-01T08:15:30,T-0131,HERON-48,bulk,live,DC volts,board,38x.4,V,M1', 'reading', 'is no number'],
    ['2026-03-01T08:15:30,T-0131,HERON-48,bulk,live,DC volts,board,389.4,bar,M1', 'unit', 'none of the units'],
    ['2026-03-01T08:15:30,T-0131,HERON-48,bulk,live,DC volts,board,389.4,kΩ,M1', 'reading', 'not measured'],
    ['2026-03-01T08:15:30,T-0131,HERON-48,bulk,live,DC volts,board,389', 'unit', '8 of 10 cells'],
    [`${row},,x`, '', '12 cells where the header has 10'],
    [
      `2026-03-01T08:15:30,${'T'.repeat(MAX_NAME + 1)},HERON-48,bulk,live,DC volts,board,389.4,V,M1`,
      'repair',
      'longer than 200',
    ],
  ])('%s is set aside for its %s: %s', async (bad, column, reason) => {
    const contents = await read(utf8(`${header}\n${row}\n${bad}\n${row}\n`));
    expect(contents).toMatchObject({ rows: 3, taken: 2, setAsideRows: 1 });
    expect(contents.setAside).toEqual([
      { file: 'log.csv', line: 3, column, content: bad, reason: expect.stringContaining(reason) as string },
    ]);
  });

  test('extra separators at the end of a row do no harm', async () => {
    expect(await read(utf8(`${header}\n${row},,\n`))).toMatchObject({ taken: 1, setAsideRows: 0 });
  });
});

describe('lines that are no data', () => {
  test('each kind is counted, and all add up', async () => {
    const text = [
      'Bench logger B1',
      '# cal 2025',
      '',
      'time,repair,point,stage,reading',
      ',,,,V',
      '2026-03-01T08:15:30,T-1,bulk,live,389.4',
      '',
      'time,repair,point,stage,reading',
      ',,,,V',
      '2026-03-01T08:15:31,T-1,bulk,live,389.5',
      'Mean,,,,389.45',
      'end of shift',
    ].join('\r\n');
    const contents = await read(utf8(text));
    expect(contents.noDataKinds).toEqual({
      blank: 2,
      preamble: 1,
      header: 1,
      'repeated header': 1,
      units: 2,
      comment: 1,
      footer: 2,
    });
    expect(contents).toMatchObject({ rows: 2, taken: 2, noData: 10 });
    expect(readingsOf(contents)[1]).toMatchObject({ mode: 'DC volts', value: 389.5, origin: { line: 10 } });
  });

  test('a line of one cell amid the rows is set aside, not taken for a footer', async () => {
    const contents = await read(utf8(`${header}\n${row}\nlunch\n${row}\n`));
    expect(contents).toMatchObject({ taken: 2, setAsideRows: 1 });
    expect(contents.setAside[0]).toMatchObject({ line: 3, content: 'lunch' });
  });
});

describe('numbers that may be read in two ways', () => {
  const file = (...readings: string[]): Uint8Array =>
    utf8(['repair;point;stage;reading [V]', ...readings.map((reading) => `T-1;bulk;live;${reading}`)].join('\n'));

  test('in a file that mixes both marks they are set aside', async () => {
    const contents = await read(file('5,5', '5.555', '5'));
    expect(readingsOf(contents).map(({ value }) => value)).toEqual([5.5, 5]);
    expect(contents.setAside[0]).toMatchObject({ line: 3, reason: expect.stringContaining('thousands') as string });
    expect(contents.rows).toBe(3);
  });

  test('in a file that groups digits beyond doubt they have thousands', async () => {
    expect(readingsOf(await read(file('5,5', '5.555', '1.234,5'))).map(({ value }) => value)).toEqual([
      5.5, 5555, 1234.5,
    ]);
  });

  test('where the technician has answered, the answer holds for the whole file', async () => {
    const bytes = file('123,000', '124,500');
    const plan = planOf(bytes);
    expect(plan.questions.map(({ about }) => about)).toContain('decimal mark');
    const values = async (decimalMark: '.' | ','): Promise<number[]> =>
      readingsOf(await read(bytes, { ...plan, decimalMark })).map(({ value }) => value);
    expect(await values(',')).toEqual([123, 124.5]);
    expect(await values('.')).toEqual([123_000, 124_500]);
  });
});

describe('times', () => {
  const stream = utf8('time,value,unit\n23:59:58,4.98,V\n23:59:59,4.97,V\n00:00:01,4.96,V\n');
  const given = { repair: 'T-1', family: 'PLOVER-32', point: 'standby', stage: 'run-in', mode: 'DC volts' } as const;

  test('a bare stream is read with what is given for it, and passes midnight', async () => {
    const plan: FilePlan = { ...planOf(stream), given: { ...given, start: Date.UTC(2026, 2, 1, 12) } };
    const readings = readingsOf(await read(stream, plan));
    expect(readings.map(({ time }) => new Date(time).toISOString())).toEqual([
      '2026-03-01T23:59:58.000Z',
      '2026-03-01T23:59:59.000Z',
      '2026-03-02T00:00:01.000Z',
    ]);
    expect(readings[0]).toMatchObject({ ...given, value: 4.98 });
  });

  test('without a day the rows are set aside and the day is asked for', async () => {
    expect(planOf(stream).questions.find(({ about }) => about === 'given')?.text).toContain('which day');
    expect(await read(stream, { ...planOf(stream), given })).toMatchObject({ taken: 0, setAsideRows: 3 });
  });

  test('elapsed seconds count from the stated start', async () => {
    const bytes = utf8('elapsed [s];value [V]\n0;4,98\n0,5;4,97\n');
    const plan: FilePlan = { ...planOf(bytes), given: { ...given, start: Date.UTC(2026, 2, 1) } };
    expect(readingsOf(await read(bytes, plan)).map(({ time }) => time - Date.UTC(2026, 2, 1))).toEqual([0, 500]);
  });

  test('the repeated hour of a clock change keeps the order of the file', async () => {
    const bytes = utf8(
      'time,repair,point,stage,reading,unit\n2026-10-25T02:30:00,T-1,bulk,run-in,1,V\n2026-10-25T02:00:00,T-1,bulk,run-in,2,V\n2026-10-25T02:30:00,T-1,bulk,run-in,3,V\n',
    );
    expect(readingsOf(await read(bytes)).map(({ value }) => value)).toEqual([1, 2, 3]);
  });
});

describe('tables with a column for each point or mode', () => {
  test('one repair a row: each filled cell is a reading of its point', async () => {
    const bytes = utf8(
      'repair;family;F1 as received [Ω];Q1 D-S part out [kΩ];standby live (V)\nT-0131;HERON-48;0,2;640,0;4,98\nT-0132;HERON-48;OL;;\n',
    );
    const readings = readingsOf(await read(bytes));
    expect(readings.map(({ repair, point, stage, mode, state }) => [repair, point, stage, mode, state])).toEqual([
      ['T-0131', 'F1', 'as received', 'resistance', 'value'],
      ['T-0131', 'Q1 D-S', 'part out', 'resistance', 'value'],
      ['T-0131', 'standby', 'live', 'DC volts', 'value'],
      ['T-0132', 'F1', 'as received', 'resistance', 'over-range'],
    ]);
  });

  test('a row with one faulty cell is set aside whole', async () => {
    const contents = await read(utf8('repair;F1 as received [Ω];Q1 as received [kΩ]\nT-1;0,2;oops\nT-2;0,2;640\n'));
    expect(contents).toMatchObject({ rows: 2, taken: 1, setAsideRows: 1 });
    expect(readingsOf(contents).map(({ repair }) => repair)).toEqual(['T-2', 'T-2']);
  });
});

describe('hostile content', () => {
  test('headers named like parts of objects are ordinary columns', async () => {
    const before = Object.getOwnPropertyNames(Object.prototype).join();
    const names = ['__proto__', 'constructor', 'toString', 'hasOwnProperty', 'length'];
    const contents = await read(
      utf8(`repair,stage,${names.map((name) => `${name} [V]`).join(',')}\n__proto__,live,1,2,3,4,5\n`),
    );
    expect(readingsOf(contents).map(({ point, value }) => [point, value])).toEqual(
      names.map((name, at) => [name, at + 1]),
    );
    expect(readingsOf(contents)[0]?.repair).toBe('__proto__');
    expect(Object.getOwnPropertyNames(Object.prototype).join()).toBe(before);
  });

  test.each([
    [MAX_CELL, 0],
    [MAX_CELL + 1, 1],
  ])('a cell of %i characters sets %i rows aside', async (length, setAside) => {
    const bytes = utf8(
      `repair,point,stage,reading,unit,notes\nT-1,bulk,live,1,V,${'x'.repeat(length)}\nT-1,bulk,live,2,V,\n`,
    );
    const contents = await read(bytes);
    expect(contents.setAsideRows).toBe(setAside);
    expect(readingsOf(contents).at(-1)?.value).toBe(2);
  });

  test('set-aside rows beyond the cap are counted though not kept', async () => {
    const contents = await read(utf8(`${header}\n${'bad,,,,,,,,,\n'.repeat(MAX_SET_ASIDE_KEPT + 1)}${row}\n`));
    expect(contents.setAsideRows).toBe(MAX_SET_ASIDE_KEPT + 1);
    expect(contents.setAside.length).toBe(MAX_SET_ASIDE_KEPT);
    expect(contents.rows).toBe(MAX_SET_ASIDE_KEPT + 2);
  });

  test('a file that is too large is refused before it is read', async () => {
    const plan = planOf(utf8(`${header}\n${row}\n`));
    await expect(readFile({ name: 'x', size: MAX_FILE_BYTES + 1, bytes: inPieces(utf8('')) }, plan)).rejects.toThrow(
      'larger than 1 GiB',
    );
  });

  test('a file that is not as long as stated has changed, and nothing of it is taken', async () => {
    const bytes = utf8(`${header}\n${row}\n`);
    const source = { name: 'x', size: bytes.length + 1, bytes: inPieces(bytes) };
    await expect(readFile(source, planOf(bytes))).rejects.toThrow('changed while it was read');
  });

  test('undecodable bytes deep in the file are told, and names with them set aside', async () => {
    const bytes = utf8(
      `${header}\n${row}\n2026-03-01T08:15:30,T-0131,HERON-48,bul?,live,DC volts,board,389.4,V,M1\n`,
    ).map((byte) => (byte === 0x3f ? 0xb5 : byte));
    const contents = await read(bytes, { ...planOf(utf8(`${header}\n${row}\n`)) });
    expect(contents.notices[0]).toContain('could not be decoded');
    expect(contents.setAside[0]).toMatchObject({ line: 3, column: 'point' });
  });

  test('readings whose mode was taken from their unit and stage are told by their count', async () => {
    const volts = (reading: string) => `T-0131;HERON-48;bulk;live;${reading};V\n`;
    const bytes = utf8(`repair;family;point;stage;reading;unit\n${volts('389,4').repeat(1234)}`);
    const { notices } = await read(bytes);
    expect(notices).toEqual(['1.234 readings in volts under power name no mode: read as DC volts.']);
  });
});

describe('long work', () => {
  const many = utf8(`${header}\n${`${row}\n`.repeat(100_000)}`);

  test('progress ascends to the whole file', async () => {
    const seen: number[] = [];
    await readFile({ name: 'x', size: many.length, bytes: inPieces(many, 100_000) }, planOf(many), ({ bytes }) =>
      seen.push(bytes),
    );
    expect(seen.length).toBeGreaterThan(3);
    expect(seen).toEqual([...seen].sort((a, b) => a - b));
    expect(seen.at(-1)).toBe(many.length);
  });

  test('a message to stop gets through, and the reading ends with the reason', async () => {
    const stop = new AbortController();
    setTimeout(() => {
      stop.abort();
    }, 0);
    const reading = readFile(
      { name: 'x', size: many.length, bytes: inPieces(many) },
      planOf(many),
      undefined,
      stop.signal,
    );
    await expect(reading).rejects.toMatchObject({ name: 'AbortError' });
  });
});
