import { parse } from 'csv-parse/sync';
import { csvParseRows, tsvParseRows } from 'd3';
import fc from '../support/fast-check.ts';
import { expect, test } from 'vitest';
import { SEPARATORS } from '../../src/domain/file-plan.ts';
import { cellsOf } from './support.ts';

/** Text as RFC 4180 has it: cells that need quotation marks have them, any other may. */
const cell = fc.oneof(
  fc.string({ unit: fc.constantFrom('a', '1', ' ', 'Ω', '-', "'", '=', '\u2028', '😀'), maxLength: 6 }),
  fc
    .string({ unit: fc.constantFrom('a', '"', ',', ';', '\t', '|', '\n', '\r', ' '), maxLength: 8 })
    .map((text) => `"${text.replaceAll('"', '""')}"`),
);
const lineEnd = fc.constantFrom('\n', '\r\n');

/** Rows of two cells or more: a row of one empty cell is an empty line, which readers take differently. */
const table = fc.array(fc.array(cell, { minLength: 2, maxLength: 5 }), { minLength: 1, maxLength: 6 });

test('csv-parse gives the same cells of the same RFC 4180 text', () => {
  fc.assert(
    fc.property(table, fc.constantFrom(...SEPARATORS), lineEnd, fc.boolean(), (rows, separator, end, isClosed) => {
      const text = rows.map((cells) => cells.join(separator)).join(end) + (isClosed ? end : '');
      const options = { delimiter: separator, record_delimiter: end, relax_column_count: true };
      expect(cellsOf(text, separator)).toEqual(parse(text, options));
    }),
    { numRuns: 5000 },
  );
});

test('d3-dsv gives the same cells of the same RFC 4180 text', () => {
  fc.assert(
    fc.property(table, fc.constantFrom(',', '\t'), lineEnd, fc.boolean(), (rows, separator, end, isClosed) => {
      const text = rows.map((cells) => cells.join(separator)).join(end) + (isClosed ? end : '');
      expect(cellsOf(text, separator)).toEqual(separator === ',' ? csvParseRows(text) : tsvParseRows(text));
    }),
    { numRuns: 5000 },
  );
});
