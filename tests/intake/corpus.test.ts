import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Encoding, FilePlan, Separator } from '../../src/domain/file-plan.ts';
import { HEAD_BYTES } from '../../src/intake/caps.ts';
import { planFile } from '../../src/intake/plan-file.ts';
import { previewFile } from '../../src/intake/preview.ts';
import { writeRow } from '../../src/intake/write-row.ts';
import { cellsOf, cellsOfPieces, expectAccounted, pieces, read, TWO_SENTENCES } from './support.ts';

/** Public test files of other CSV readers, kept outside the project; the index says what the right outcome is. */
const corpus = new URL('../../../shared/csv-corpus/', import.meta.url);
const here = existsSync(corpus);

interface Entry {
  readonly file: string;
  readonly encoding: string;
  readonly delimiter: string;
  readonly quoting: string;
  readonly headerRecord: string;
  readonly columns: string;
  readonly cells: string;
  readonly comments: number;
}

function entries(): Entry[] {
  if (!here) return [];
  const [names, ...rows] = readFileSync(new URL('index.tsv', corpus), 'utf8')
    .trimEnd()
    .split('\n')
    .map((line) => line.split('\t'));
  return rows.map((row) => {
    const get = (name: string): string => row[names!.indexOf(name)] ?? '';
    return {
      file: get('file'),
      encoding: get('encoding'),
      delimiter: get('delimiter'),
      quoting: get('quoting'),
      headerRecord: get('header_record'),
      columns: get('columns'),
      cells: get('cells_sha256'),
      comments: Number(get('comment_lines') || 0),
    };
  });
}

const bytesOf = (file: string): Uint8Array => new Uint8Array(readFileSync(new URL(file, corpus)));

const separators: Record<string, Separator> = { comma: ',', semicolon: ';', tab: '\t', pipe: '|' };
const encodings: Record<string, Encoding> = {
  'UTF-16 LE with BOM': 'utf-16le',
  'UTF-16 BE with BOM': 'utf-16be',
};

function planned(file: string): FilePlan {
  const bytes = bytesOf(file);
  const plan = planFile(file, bytes.subarray(0, HEAD_BYTES), bytes.length <= HEAD_BYTES);
  if ('refused' in plan) throw new Error(plan.refused);
  return plan;
}

describe.skipIf(!here)('the public CSV corpus', () => {
  const agreed = entries().filter(
    (entry) => entry.cells !== '' && entry.encoding !== 'iso8859-7' && entry.quoting !== 'off',
  );

  test.each(agreed)('$file gives the cells that independent parsers agree on, in pieces of any length', (entry) => {
    const bytes = bytesOf(entry.file);
    const separator = separators[entry.delimiter] ?? ',';
    const encoding = encodings[entry.encoding] ?? 'utf-8';
    const sizes = bytes.length > 100_000 ? [65_536] : [1, 2, 3, 7, 64, 65_536];
    for (const size of sizes) {
      const { rows } = cellsOfPieces(pieces(bytes, size), encoding, separator);
      const skipBlanks = entry.quoting.includes('skipped');
      const records = rows
        .filter((cells) => !(cells.length === 1 && cells[0] === ''))
        .filter((cells) => entry.comments === 0 || !cells[0]!.startsWith('#'))
        .map((cells) => (skipBlanks ? cells.map((cell) => cell.replace(/^ +/, '')) : cells));
      const hash = createHash('sha256').update(JSON.stringify(records), 'utf8').digest('hex');
      expect(hash, `${size} bytes at a time`).toBe(entry.cells);
    }
  });

  const guessed = entries().filter(
    (entry) => separators[entry.delimiter] !== undefined && entry.columns !== '' && Number(entry.columns) > 1,
  );

  test.each(guessed)('$file is planned with its separator and encoding', (entry) => {
    if (entry.encoding === 'binary' || entry.file === 'sec_json_not_csv.csv') return;
    const plan = planned(entry.file);
    expect(plan.separator).toBe(separators[entry.delimiter]);
    if (encodings[entry.encoding]) expect(plan.encoding).toBe(encodings[entry.encoding]);
  });

  test.each(entries())('$file is read without a throw, every record counted', async (entry) => {
    const bytes = bytesOf(entry.file);
    const plan = planFile(entry.file, bytes.subarray(0, HEAD_BYTES), bytes.length <= HEAD_BYTES);
    if ('refused' in plan) {
      expect(plan.refused).toMatch(TWO_SENTENCES);
      return;
    }
    previewFile(entry.file, bytes.subarray(0, HEAD_BYTES), plan);
    const contents = await read(bytes, plan);
    const { rows } = cellsOfPieces([bytes], plan.encoding, plan.separator);
    expectAccounted(contents, rows.length);
  });
});

describe.skipIf(!here)('what the corpus asks for by name', () => {
  test('an empty file is refused as empty', () => {
    expect(planFile('empty.csv', new Uint8Array(), true)).toEqual({
      refused: expect.stringContaining('empty') as string,
    });
  });

  test.each([
    ['sec_csv_named_gzip.csv', 'gzip'],
    ['sec_json_not_csv.csv', 'JSON'],
  ])('%s is refused and named %s', (file, word) => {
    expect(planFile(file, bytesOf(file), true)).toEqual({ refused: expect.stringContaining(word) as string });
  });

  test.each([
    ['head_preamble_3_then_header.csv', 4],
    ['eol_cr_only_preamble_sentinels.csv', 4],
    ['num_scientific_subnormal_range.csv', 2],
    ['enc_utf16le_bom_sep_row.csv', 2],
    ['head_none_numbers.csv', 0],
    ['eol_lf_inside_quotes_crlf_outside.csv', 0],
    ['head_duplicate_names.csv', 1],
    ['size_wide_9074_columns.csv', 1],
    ['head_german_trailing_semicolon_mixed_dates.csv', 1],
    ['date_blank_and_words.csv', 1],
    ['ragged_all_lengths_no_header.csv', 0],
    ['head_header_inside_comment.csv', 43],
    ['head_comment_metadata_key_value.csv', 5],
    ['sec_html_bang_cell.csv', 1],
  ])('%s has its header on line %i', (file, line) => {
    expect(planned(file).headerLine).toBe(line);
  });

  test('numbers that may have decimals or thousands are asked about, once', () => {
    const { questions } = planned('delim_pipe_comma_3_digits_ambiguous.csv');
    expect(questions.filter(({ about }) => about === 'decimal mark')).toHaveLength(1);
  });

  test('a NUL stays inside its cell', () => {
    const { rows } = cellsOfPieces([bytesOf('sec_nul_in_cell.csv')], 'utf-8', '|');
    expect(rows[1]).toEqual(['val1', 'val\0' + '2', 'val3']);
  });

  test('a stray quotation mark swallows no following line, and uneven rows are told by number', async () => {
    const file = 'delim_tab_ragged.tsv';
    const contents = await read(bytesOf(file), planned(file));
    expect(contents.rows).toBe(9);
    const reasons = new Map(contents.setAside.map((row) => [row.line, row.reason]));
    expect(reasons.get(3)).toContain('9 cells');
    expect(reasons.get(6)).toContain('7 of 8');
    expect(reasons.get(9)).toContain('quotation mark');
    expect(reasons.has(10)).toBe(true);
  });

  test('every line of the naughty strings survives as text', () => {
    const text = readFileSync(new URL('sec_naughty_strings.txt', corpus), 'utf8');
    const lines = text.split('\n').slice(0, -1);
    const { rows } = cellsOfPieces([bytesOf('sec_naughty_strings.txt')], 'utf-8', '|');
    expect(rows.length).toBe(lines.length);
    rows.forEach((cells, at) => {
      expect(cells.join('|').replaceAll('"', '')).toBe(lines[at]!.replaceAll('"', ''));
    });
  });

  test('the naughty strings go through the whole of the reading as text, and what is set aside is written back exact', async () => {
    const bytes = bytesOf('sec_naughty_strings.txt');
    const plan = planned('sec_naughty_strings.txt');
    previewFile('naughty.txt', bytes.subarray(0, HEAD_BYTES), plan);
    const contents = await read(bytes, plan);
    const { rows, lines } = cellsOfPieces([bytes], plan.encoding, plan.separator);
    expectAccounted(contents, rows.length);
    const cells = new Map(lines.map((line, at) => [line, rows[at]!]));
    expect(contents.setAside.length).toBeGreaterThan(300);
    for (const { line, content } of contents.setAside) {
      expect(cellsOf(content, plan.separator)).toEqual([cells.get(line)]);
      expect(content).toBe(writeRow(cells.get(line)!, plan.separator));
    }
  });

  test('a file in Greek ISO-8859-7 is read without loss of a byte, and its encoding is asked for', async () => {
    const bytes = bytesOf('enc_iso8859_7_greek.csv');
    const plan = planned('enc_iso8859_7_greek.csv');
    expect(plan.encoding).toBe('windows-1252');
    expect(plan.questions.filter(({ text }) => text.includes('choose another encoding'))).toHaveLength(1);
    expectAccounted(await read(bytes, plan), cellsOfPieces([bytes], plan.encoding, plan.separator).rows.length);
    const { rows } = cellsOfPieces([bytes], plan.encoding, plan.separator);
    const greek = new TextDecoder('iso-8859-7').decode(bytes);
    const again = Uint8Array.from(rows.map((row) => writeRow(row, plan.separator)).join(''), (character) => character.charCodeAt(0)); // prettier-ignore
    const letters = (text: string): string => text.replace(/[^\u0370-\u03ff]/g, '');
    expect(letters(greek).length).toBeGreaterThan(20);
    expect(letters(new TextDecoder('iso-8859-7').decode(again))).toBe(letters(greek));
  });

  test('another header amid the rows is pointed out, and nothing below it is mapped', async () => {
    const file = 'ragged_repeated_headers_blank_separated.csv';
    const contents = await read(bytesOf(file), planned(file));
    expect(contents.setAside.find((row) => row.line === 4)?.reason).toContain('header of another table');
    expect(contents.setAside.find((row) => row.line === 5)?.reason).toContain('under another header');
    expect(contents.noDataKinds['repeated header']).toBe(2);
  });

  test('a file that ends mid-line is said to be cut off perhaps', async () => {
    const file = 'trunc_last_line_short.csv';
    expect((await read(bytesOf(file), planned(file))).notices.join()).toContain('cut off');
  });
});

describe.skipIf(!here)('the fuzz seeds', () => {
  const seeds = here ? readdirSync(new URL('fuzz-seeds/', corpus)).filter((file) => file !== 'INDEX.tsv') : [];

  test(`all ${seeds.length} are read without a throw, every record counted`, async () => {
    expect(seeds.length).toBeGreaterThanOrEqual(206);
    for (const seed of seeds) {
      const bytes = bytesOf(`fuzz-seeds/${seed}`);
      const plan = planFile(seed, bytes.subarray(0, HEAD_BYTES), true);
      if ('refused' in plan) continue;
      previewFile(seed, bytes, plan);
      const contents = await read(bytes, plan, 7);
      const { rows } = cellsOfPieces([bytes], plan.encoding, plan.separator);
      expectAccounted(contents, rows.length);
    }
  });
});
