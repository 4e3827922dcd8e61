import fc from '../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { formatShown, joinQuantity, type DecimalMark } from '../../src/domain/quantity.ts';
import { SEPARATORS, type ColumnUse, type Field } from '../../src/domain/file-plan.ts';
import { HEAD_BYTES, MAX_COLUMNS } from '../../src/intake/caps.ts';
import { headerSignature, planFile } from '../../src/intake/plan-file.ts';
import { previewFile } from '../../src/intake/preview.ts';
import { QuantityScanner } from '../../src/intake/quantity-scanner.ts';
import { planOf, read, utf16, utf8 } from './support.ts';

const fieldsOf = (text: string): (Field | undefined)[] => planOf(utf8(text)).columns.map(({ field }) => field);

const long = `time,repair,family,point,stage,mode,specimen,reading,unit,meter
2026-03-01T08:15:30,T-0131,HERON-48,F1,as received,continuity,board,beep,,M1
2026-03-01T08:16:00,T-0131,HERON-48,Q1 D→S,as received,resistance,board,OL,MΩ,M1
2026-03-01T08:17:10,T-0131,HERON-48,bulk,live,DC volts,board,389.4,V,M1
`;

describe('encodings', () => {
  test.each([
    ['UTF-8', utf8(long), 'utf-8'],
    ['UTF-8 with a mark', utf8(`\ufeff${long}`), 'utf-8'],
    ['UTF-16 LE with a mark', utf16(`\ufeff${long}`), 'utf-16le'],
    ['UTF-16 BE with a mark', utf16(`\ufeff${long}`, true), 'utf-16be'],
    ['UTF-16 LE without a mark', utf16(long), 'utf-16le'],
    ['UTF-16 BE without a mark', utf16(long, true), 'utf-16be'],
  ] as const)('%s is recognised and read', async (_, bytes, encoding) => {
    const plan = planOf(bytes);
    expect(plan.encoding).toBe(encoding);
    expect(await read(bytes, plan, 7)).toMatchObject({ taken: 3, setAsideRows: 0 });
  });

  test('bytes that are no UTF-8 are windows-1252, and its µ is a micro sign', async () => {
    const bytes = utf8('repair;point;stage;reading\nT-1;C3;part out;4,7 ?F\n').map((byte) =>
      byte === 0x3f ? 0xb5 : byte,
    );
    const plan = planOf(bytes);
    expect(plan.encoding).toBe('windows-1252');
    expect(await read(bytes, plan)).toMatchObject({ taken: 1 });
  });

  test('half a character at the end of the head is no error', () => {
    const bytes = utf8('repair,point\nT-1,Ω');
    expect(planFile('x', bytes.subarray(0, -1), false)).toMatchObject({ encoding: 'utf-8' });
  });

  test('the technician may choose another', () => {
    expect(planFile('x', utf8(long), true, undefined, { encoding: 'windows-1252' })).toMatchObject({
      encoding: 'windows-1252',
    });
  });
});

describe('refusals', () => {
  test.each([
    ['nothing at all', new Uint8Array(), 'empty'],
    ['blanks', utf8(' \r\n\n'), 'empty'],
    ['a ZIP archive', Uint8Array.of(0x50, 0x4b, 3, 4, 20, 0), 'ZIP'],
    ['gzip', Uint8Array.of(0x1f, 0x8b, 8, 0), 'gzip'],
    ['PDF', utf8('%PDF-1.7\n%'), 'PDF'],
    ['RTF', utf8('{\\rtf1'), 'RTF'],
    ['a program', Uint8Array.of(0x4d, 0x5a, 0x90, 0, 3, 0, 0, 0, 4, 0), 'program'],
    ['SQLite', utf8('SQLite format 3\0'), 'SQLite'],
    ['JSON', utf8('[{"a": 1}]'), 'JSON'],
    ['JSON lines', utf8('{"a": 1}\n{"a": 2}\n'), 'JSON'],
    ['a web page', utf8('<!DOCTYPE html><p>'), 'web page'],
    ['binary data', Uint8Array.from({ length: 500 }, (_, at) => (at * 7) % 32), 'binary'],
  ])('%s is refused by name', (_, bytes, word) => {
    expect(planFile('log.csv', bytes, true)).toEqual({
      refused: expect.stringMatching(new RegExp(`^“log.csv”.*${word}`)) as string,
    });
  });

  test('a header that starts with the letters of a program is a header', () => {
    expect(planFile('x', utf8('MZ,repair\n1,2\n'), true)).not.toHaveProperty('refused');
  });

  test.each([
    [MAX_COLUMNS, false],
    [MAX_COLUMNS + 1, true],
    [100_000, true],
  ])('%i columns: refused %s', (columns, refused) => {
    const bytes = utf8(`${Array.from({ length: columns }, (_, at) => `c${at}`).join(',')}\n`);
    const plan = planFile('wide.csv', bytes, true);
    expect('refused' in plan).toBe(refused);
  });

  test('a first line longer than the head is refused', () => {
    const plan = planFile('x', utf8('x'.repeat(HEAD_BYTES)), false);
    expect(plan).toEqual({ refused: expect.stringContaining('line ends') as string });
  });
});

describe('shapes and columns', () => {
  test('a log in long form raises no question', () => {
    const plan = planOf(utf8(long));
    expect(plan).toMatchObject({ shape: 'readings', headerLine: 1, separator: ',', decimalMark: '.', questions: [] });
    expect(plan.columns.map(({ field }) => field)).toEqual([
      'time',
      'repair',
      'family',
      'point',
      'stage',
      'mode',
      'specimen',
      'reading',
      'unit',
      'meter',
    ]);
    for (const { reason } of plan.columns) expect(reason).not.toBe('');
  });

  test('columns of modes with decimal commas, and boards that count up', () => {
    const plan = planOf(
      utf8(`date;clock;board;probe;stage;DC volts [V];AC volts [V];resistance [kΩ];diode [V];continuity [Ω];meter
01.02.2026;10:15;T-0131;F1;received;;;;;0,3;M2
01.02.2026;10:16;T-0132;Q1 D→S;received;;;640,0;;;M2
01.02.2026;10:17;T-0133;bulk;live;389,4;;;;;M2
`),
    );
    expect(plan).toMatchObject({ separator: ';', decimalMark: ',', dateOrder: 'day-month-year', questions: [] });
    expect(plan.columns.map(({ field }) => field)).toEqual([
      'date',
      'clock',
      'repair',
      'point',
      'stage',
      'reading',
      'reading',
      'reading',
      'reading',
      'reading',
      'meter',
    ]);
    expect(plan.columns[7]).toMatchObject({ mode: 'resistance', prefix: 3 });
    expect(plan.columns[2]?.reason).toContain('T-0131');
  });

  test('a board beside a repair is a family', () => {
    expect(fieldsOf('When\tRepair\tBoard\tTest point\tStep\tFunction\tReading\tMeter\n2026-02-01 10:15\tT-1\tHERON-48\tQ1\tout\tohms\t0.640 MΩ\tB1\n')).toEqual([
      'time', 'repair', 'family', 'point', 'stage', 'mode', 'reading', 'meter',
    ]); // prettier-ignore
  });

  test('few different boards are families', () => {
    expect(
      fieldsOf('board,point,reading,unit\nHERON-48,bulk,1.5,V\nPLOVER-32,bulk,1.5,V\nHERON-48,bulk,1.6,V\n')[0],
    ).toBe('family');
  });

  test('repairs and bands are recognised by their columns', () => {
    expect(
      planOf(
        utf8(
          'repair,family,complaint,received,returned,outcome,parts replaced,comeback of\nT-1,HERON-48,flicker,2026-02-01,,,,\n',
        ),
      ).shape,
    ).toBe('repairs');
    expect(planOf(utf8('family,point,mode,kind,low,high,unit\nHERON-48,bulk,DC volts,between,380,400,V\n')).shape).toBe(
      'bands',
    );
  });

  test('names may be missing or twice, and every column is kept', () => {
    const plan = planOf(utf8('id,name,id,,id\n001101,a,1,2,3\n'));
    expect(plan.columns.map(({ header }) => header)).toEqual(['id', 'name', 'id', '', 'id']);
    expect(plan.columns[0]?.field).toBe('repair');
    expect(plan.columns[2]).toMatchObject({ field: 'ignored', doubtful: true });
  });

  test('without a header columns are read by their values', () => {
    const plan = planOf(utf8('2026-03-01 08:15:30,4.98,V\n2026-03-01 08:15:31,4.97,V\n'));
    expect(plan.headerLine).toBe(0);
    expect(plan.columns.map(({ field }) => field)).toEqual(['time', 'reading', 'unit']);
  });

  test('a header remembered is used without a question', () => {
    const columns: ColumnUse[] = ['repair', 'point', 'stage', 'reading'].map((field) => ({
      header: 'x',
      field: field as Field,
      reason: 'chosen',
      doubtful: false,
      ...(field === 'reading' ? { mode: 'DC volts' as const } : {}),
    }));
    const file = utf8('a,b,c,d\nT-1,bulk,live,389.4\n');
    const asked: string[] = [];
    const plan = planFile('x', file, true, (signature) => {
      asked.push(signature);
      return columns;
    });
    expect(asked).toEqual([headerSignature([{ header: ' A' }, { header: 'b' }, { header: 'C' }, { header: 'd' }])]);
    expect(plan).toMatchObject({ shape: 'readings', columns, questions: [] });
  });
});

describe('questions', () => {
  const about = (text: string): string[] => planOf(utf8(text)).questions.map((question) => question.about);

  test.each([
    ['03/04/2026', true],
    ['13/04/2026', false],
    ['04/13/2026', false],
    ['03.04.2026', false],
    ['2026-04-03', false],
  ])('a file that knows only %s asks for the order of day and month: %s', (day, asked) => {
    expect(about(`date,repair,point,stage,reading [V]\n${day},T-1,bulk,live,1.5\n`).includes('date order')).toBe(asked);
  });

  test.each([
    ['123,000', true],
    ['0,640', false],
    ['4,98', false],
    ['1.234,5', false],
  ])('a file that knows only %s asks for its decimal mark: %s', (number, asked) => {
    expect(about(`repair;point;stage;reading [V]\nT-1;bulk;live;${number}\n`).includes('decimal mark')).toBe(asked);
  });
});

describe('the preview', () => {
  test('shows each cell as it will be read', () => {
    const { rows, problems } = previewFile('log.csv', utf8(long), planOf(utf8(long)));
    expect(rows.map(({ line }) => line)).toEqual([2, 3, 4]);
    expect(rows[2]?.cells.map((cell) => cell.read)).toEqual([
      '2026-03-01 08:17:10',
      'T-0131',
      'HERON-48',
      'bulk',
      'live',
      'DC volts',
      'board',
      '389.4\u00a0V',
      'V',
      'M1',
    ]);
    expect(rows[0]?.cells[7]).toEqual({ text: 'beep', read: 'beep', doubtful: false });
    expect(problems).toEqual([]);
  });

  test('marks what cannot be read, and says why', () => {
    const bad = utf8(`${long}2026-02-30T08:15:30,T-0131,HERON-48,F1,boiling,continuity,board,x,,M1\n`);
    const { rows, problems } = previewFile('log.csv', bad, planOf(bad));
    expect(
      rows
        .at(-1)
        ?.cells.filter((cell) => cell.doubtful)
        .map((cell) => cell.text),
    ).toEqual(['2026-02-30T08:15:30', 'boiling', 'x']);
    expect(problems).toHaveLength(1);
  });
});

describe('properties', () => {
  test('a quantity written for a place reads back as the same number, unit and digits', () => {
    const scanner = new QuantityScanner();
    const groups = fc.constantFrom('', ' ', '\u00a0', '\u202f', '\u2009', "'");
    fc.assert(
      fc.property(
        fc.integer({ min: -999_999_999, max: 999_999_999 }),
        fc.nat(6),
        fc.constantFrom(-12, -9, -6, -3, 0, 3, 6, 9),
        fc.constantFrom('V', 'Ω', 'F', 'A'),
        fc.constantFrom<DecimalMark>('.', ','),
        groups,
        (digits, decimals, prefix, unit, mark, group) => {
          const value = Number(`${digits}e${prefix - decimals}`);
          const written = joinQuantity(formatShown(value, unit, { prefix, decimals }, mark));
          const [whole, rest] = written.split(/(?=[.,\u00a0])/, 2);
          const grouped = whole!.replace(/\B(?=(\d{3})+$)/g, group) + written.slice(whole!.length);
          expect(rest === undefined).toBe(false);
          expect(scanner.scan(grouped, mark, 0)).toBeUndefined();
          expect(scanner.value).toBe(Object.is(value, -0) ? 0 : value);
          expect([scanner.unit, scanner.prefix, scanner.decimals]).toEqual([unit, prefix, decimals]);
        },
      ),
      { numRuns: 10_000 },
    );
  });

  test('exponents read as the numbers that they are', () => {
    const scanner = new QuantityScanner();
    fc.assert(
      fc.property(
        fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e30, max: 1e30 }),
        fc.constantFrom<DecimalMark>('.', ','),
        fc.constantFrom('-', '\u2212'),
        (value, mark, minus) => {
          const written = value.toExponential().replace('.', mark).replaceAll('-', minus);
          expect(scanner.scan(written, mark, 0)).toBeUndefined();
          expect(scanner.value).toBe(value === 0 ? 0 : value);
        },
      ),
      { numRuns: 10_000 },
    );
  });

  test('more rows of the same kind, in any order, never change the separator, the header or the columns', () => {
    const row = fc.record({
      minute: fc.integer({ min: 10, max: 59 }),
      repair: fc.nat(999),
      value: fc.nat(99_999),
      point: fc.constantFrom('bulk', 'F1', 'Q1 D-S'),
    });
    const comma = fc.boolean();
    fc.assert(
      fc.property(
        fc.array(row, { minLength: 3, maxLength: 20 }),
        fc.constantFrom(...SEPARATORS),
        comma,
        (rows, separator, decimalComma) => {
          const mark = decimalComma && separator !== ',' ? ',' : '.';
          const lines = rows.map(({ minute, repair, value, point }) =>
            [
              `2026-03-01 08:${minute}`,
              `T-${String(repair).padStart(4, '0')}`,
              point,
              'live',
              `0${mark}${String(value).padStart(5, '0')}`,
              'V',
            ].join(separator),
          );
          const head = ['time', 'repair', 'point', 'stage', 'reading', 'unit'].join(separator);
          const plan = planOf(utf8([head, ...lines].join('\n')));
          expect(plan).toMatchObject({ separator, headerLine: 1, decimalMark: mark });
          expect(planOf(utf8([head, ...lines.toReversed(), ...lines].join('\n')))).toEqual(plan);
        },
      ),
      { numRuns: 2000 },
    );
  });
});
