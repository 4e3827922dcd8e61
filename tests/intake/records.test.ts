import fc from '../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { SEPARATORS } from '../../src/domain/file-plan.ts';
import { MAX_CELL, MAX_ROW } from '../../src/intake/caps.ts';
import { RecordReader } from '../../src/intake/record-reader.ts';
import { FileDecoder } from '../../src/intake/text-decoder.ts';
import { WINDOWS_1252_HIGH } from '../../src/intake/windows-1252.ts';
import { writeRow } from '../../src/intake/write-row.ts';
import { cellsOf, cellsOfPieces, lineCount, pieces, utf16, utf8 } from './support.ts';

describe('RFC 4180', () => {
  // RFC 4180, section 2, the examples of rules 1 to 7.
  test.each([
    [
      'aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n',
      [
        ['aaa', 'bbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    [
      'aaa,bbb,ccc\r\nzzz,yyy,xxx',
      [
        ['aaa', 'bbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    [
      'field_name,field_name,field_name\r\naaa,bbb,ccc\r\n',
      [
        ['field_name', 'field_name', 'field_name'],
        ['aaa', 'bbb', 'ccc'],
      ],
    ],
    [
      '"aaa","bbb","ccc"\r\nzzz,yyy,xxx',
      [
        ['aaa', 'bbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    [
      '"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx',
      [
        ['aaa', 'b\r\nbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    ['"aaa","b""bb","ccc"', [['aaa', 'b"bb', 'ccc']]],
  ])('%j', (text, cells) => {
    expect(cellsOf(text)).toEqual(cells);
  });
});

describe('line ends', () => {
  test('CR, LF, CRLF and CRCRLF end lines in one file, and those inside quotation marks stay as they are', () => {
    expect(cellsOf('a,b\rc,d\ne,f\r\ng,"h\r\ni\rj\nk"\r\nl,m\r\r\nn,o')).toEqual([
      ['a', 'b'],
      ['c', 'd'],
      ['e', 'f'],
      ['g', 'h\r\ni\rj\nk'],
      ['l', 'm'],
      [''],
      ['n', 'o'],
    ]);
  });

  test('no other character ends a line', () => {
    expect(cellsOf('a\u2028b,c\u0085d\ne\vf,g\fh')).toEqual([
      ['a\u2028b', 'c\u0085d'],
      ['e\vf', 'g\fh'],
    ]);
  });

  test('each record keeps the physical line it starts on', () => {
    const batch = new RecordReader(',').push('a\n"b\nc"\r\n\nd\r"e\r\nf",g\nh', true);
    expect([...batch.lines]).toEqual([1, 2, 4, 5, 6, 8]);
  });
});

describe('faulty quotation marks', () => {
  test('a mark that nothing closes is text, and the following lines are rows', () => {
    const batch = new RecordReader(',').push('a,"b,c\nd,e,f\n', true);
    expect(batch.rows).toEqual([
      ['a', '"b', 'c'],
      ['d', 'e', 'f'],
    ]);
    expect([...batch.faults]).toEqual([[0, 'unclosed']]);
  });

  test('undoubled marks inside a cell that closes on its line are text', () => {
    const batch = new RecordReader(',').push('"5" disc",x\n"foo (\\"foo\\")",y\n', true);
    expect(batch.rows).toEqual([
      ['5" disc', 'x'],
      ['foo (\\"foo\\")', 'y'],
    ]);
    expect([...batch.faults]).toEqual([
      [0, 'loose'],
      [1, 'loose'],
    ]);
  });

  test('a mark amid a cell is text', () => {
    expect(cellsOf('a,5" disc,b')).toEqual([['a', '5" disc', 'b']]);
  });

  test('blanks around a quoted cell are dropped', () => {
    expect(cellsOf('a, "b, c" ,d')).toEqual([['a', 'b, c', 'd']]);
  });
});

describe('caps', () => {
  test.each([MAX_CELL - 1, MAX_CELL, MAX_CELL + 1])('a quoted cell of %i characters', (length) => {
    const batch = new RecordReader(',').push(`a,"${'x'.repeat(length)}"\nb,c\n`, true);
    expect(batch.rows.length).toBe(2);
    expect(batch.longCells).toBe(true);
    expect(batch.rows[1]).toEqual(['b', 'c']);
    expect(batch.faults.has(0)).toBe(length > MAX_CELL);
  });

  test.each([
    [MAX_ROW, 0],
    [MAX_ROW + 1, 1],
  ])('a line of %i characters gives %i lines too long, and the next line is read', (length, tooLong) => {
    const reader = new RecordReader(',');
    const first = reader.push('x'.repeat(length), false);
    expect(first.tooLong.length).toBe(tooLong);
    const rest = [reader.push('y\r', false), reader.push('\nb,c\n', true)];
    expect(rest.flatMap(({ rows }) => rows).at(-1)).toEqual(['b', 'c']);
    expect(rest.flatMap(({ lines }) => [...lines]).at(-1)).toBe(2);
  });
});

describe('encodings', () => {
  // WHATWG Encoding Standard, index windows-1252: byte 0x80 is the euro sign, 0x8E Ž, 0x95 the bullet, 0x99 the trade mark sign, 0x9F Ÿ.
  test('windows-1252 is decoded by its published index', () => {
    const all = new FileDecoder('windows-1252').decode(Uint8Array.from({ length: 256 }, (_, byte) => byte));
    expect(all.length).toBe(256);
    for (const [byte, character] of [
      [0x80, '€'],
      [0x8e, 'Ž'],
      [0x95, '•'],
      [0x99, '™'],
      [0x9f, 'Ÿ'],
      [0xb5, 'µ'],
      [0x41, 'A'],
      [0xff, 'ÿ'],
    ] as const) {
      expect(all[byte]).toBe(character);
    }
    expect(WINDOWS_1252_HIGH.length).toBe(32);
    // The five bytes that the index leaves to their own number.
    expect(WINDOWS_1252_HIGH.filter((code, at) => code === 0x80 + at).length).toBe(5);
  });

  test.each([1, 2, 3, 7, 64, 65_536])('pieces of %i bytes give the same cells in every encoding', (size) => {
    const text = 'a,Ω µ→,"x\r\ny"\r\n😀,1 234,5\n'.repeat(20);
    for (const [encoding, bytes] of [
      ['utf-8', utf8(text)],
      ['utf-16le', utf16(text)],
      ['utf-16be', utf16(text, true)],
    ] as const) {
      const read = cellsOfPieces(pieces(bytes, size), encoding, ',');
      expect(read.rows).toEqual(cellsOf(text));
      expect(read.lines).toEqual(cellsOfPieces([bytes], encoding, ',').lines);
    }
  });
});

const cell = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 12 }),
  fc.constantFrom(
    '',
    '"',
    '""',
    '\r',
    '\n',
    '\r\n',
    '\ufeff',
    '\0',
    '\u2028',
    "'",
    '=1+1',
    '+1',
    '-1',
    '@x',
    ' a ',
    '#c',
    'Ω',
    ',',
    ';',
    '\t',
    '|',
  ),
);
const table = fc.array(fc.array(cell, { minLength: 1, maxLength: 5 }), { minLength: 1, maxLength: 6 });
const separator = fc.constantFrom(...SEPARATORS);
const lineEnd = fc.constantFrom('\n', '\r\n', '\r');

describe('properties', () => {
  test('what is written reads back as the same cells', () => {
    fc.assert(
      fc.property(table, separator, lineEnd, (rows, mark, end) => {
        const text = rows.map((cells) => writeRow(cells, mark) + end).join('');
        expect(cellsOf(text, mark)).toEqual(rows);
      }),
      { numRuns: 10_000 },
    );
  });

  test('writing what was read changes nothing from the second time on', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: fc.constantFrom('a', '1', ' ', '"', ',', '\n', '\r', ';', '\t'), maxLength: 40 }),
        (text) => {
          const write = (rows: readonly (readonly string[])[]): string =>
            rows.map((cells) => writeRow(cells, ',') + '\n').join('');
          const once = write(cellsOf(text));
          expect(write(cellsOf(once))).toBe(once);
        },
      ),
      { numRuns: 2000 },
    );
  });

  test('bytes in pieces cut anywhere give the same cells and lines as all at once', () => {
    fc.assert(
      fc.property(table, lineEnd, fc.array(fc.nat(400), { maxLength: 8 }), (rows, end, cuts) => {
        const bytes = utf8(rows.map((cells) => writeRow(cells, ',') + end).join(''));
        const places = [0, ...cuts.map((cut) => cut % (bytes.length + 1)).sort((a, b) => a - b), bytes.length];
        const parts = places.slice(1).map((to, at) => bytes.subarray(places[at], to));
        expect(cellsOfPieces(parts, 'utf-8', ',')).toEqual(cellsOfPieces([bytes], 'utf-8', ','));
      }),
      { numRuns: 5000 },
    );
  });

  test('any text in pieces cut anywhere gives the same cells and lines as all at once', () => {
    const messy = fc.string({ unit: fc.constantFrom('a', '"', ',', '\n', '\r', ' '), maxLength: 60 });
    fc.assert(
      fc.property(messy, fc.nat(60), (text, cut) => {
        const bytes = utf8(text);
        expect(cellsOfPieces([bytes.subarray(0, cut), bytes.subarray(cut)], 'utf-8', ',')).toEqual(
          cellsOfPieces([bytes], 'utf-8', ','),
        );
      }),
      { numRuns: 5000 },
    );
  });

  test('no physical line is lost: the last record starts within the text, and lines ascend', () => {
    const messy = fc.string({ unit: fc.constantFrom('a', '"', ',', '\n', '\r', ' '), maxLength: 60 });
    fc.assert(
      fc.property(messy, (text) => {
        const { rows, lines } = cellsOfPieces([utf8(text)], 'utf-8', ',');
        lines.forEach((line, at) => {
          expect(line).toBeGreaterThan(lines[at - 1] ?? 0);
        });
        const breaks =
          rows
            .flat()
            .join('x')
            .match(/\r\n|\r|\n/g)?.length ?? 0;
        expect(rows.length + breaks).toBe(lineCount(text));
      }),
      { numRuns: 10_000 },
    );
  });
});
