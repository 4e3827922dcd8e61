import { describe, expect, test } from 'vitest';
import { copyText } from '../../../src/ui/grid/copy-text.ts';
import { GRID_COLUMNS } from '../../../src/ui/grid/grid-columns.ts';
import { readBlock } from '../../../src/ui/grid/read-block.ts';
import { fakeRow } from './fake-session.ts';

const columns = GRID_COLUMNS.filter(({ id }) => ['family', 'point', 'reading', 'tape', 'verdict'].includes(id));

test('rows are copied as tab-separated lines under their headers, what is only drawn left out', () => {
  expect(copyText([fakeRow(2), fakeRow(6)], columns, ',')).toBe(
    [
      'family\tpoint\treading\tverdict',
      'HERON-48\tQ1 D→S, new part\t0,640\u00a0MΩ\tgood',
      'HERON-48\t24V main\t25,27\u00a0V\tconditional fail, high',
    ].join('\r\n'),
  );
});

/** Source of the first characters: OWASP, CSV Injection. */
test.each(['=1+1', '+1+1', '-2+3', '@sum', ' =1', '＝1'])('the point %s cannot be taken for a formula', (point) => {
  const [, line] = copyText([{ ...fakeRow(4), point }], columns, '.').split('\r\n');
  expect(line).toContain(`\t'${point}\t`);
});

test('a negative reading stays a number, and tabs in a text stay in their cell', () => {
  const row = { ...fakeRow(4), point: 'a\tb', value: -5, prefix: 0, decimals: 1 };
  const [, line] = copyText([row], columns, '.').split('\r\n');
  expect(line?.split('\t')).toEqual(['HERON-48', 'a b', '−5.0\u00a0V', 'pass']);
});

describe('copied exactly', () => {
  test('cells have no apostrophes, headers only where they are wanted, and quotes where they would break a line or a column', () => {
    const rows = [
      { ...fakeRow(4), point: '=1+1' },
      { ...fakeRow(4), point: 'a\t"b"' },
    ];
    expect(copyText(rows, columns, '.', 'exact', false).split('\r\n')).toEqual([
      'HERON-48\t=1+1\t387.2\u00a0V\tpass',
      'HERON-48\t"a\t""b"""\t387.2\u00a0V\tpass',
    ]);
  });
});

/** Source of the first characters: OWASP, CSV Injection; NUL: OWASP ASVS 1.2.10. */
describe('copied for a spreadsheet and pasted again', () => {
  const triggers = ['=', '+', '-', '@', '\t', '\r', '\n', '\0', '＝', '＋', '－', '＠'];
  const places = ['', ' ', '\u00a0', '\ufeff', "'", "''", "' "];
  const texts = places.flatMap((place) => triggers.map((trigger) => `${place}${trigger}1x`));

  test.each(texts)('%j stands in one cell that no program takes for a formula', (point) => {
    const [, line = ''] = copyText([{ ...fakeRow(4), point }], columns, '.').split('\r\n');
    const cell = line.split('\t')[1] ?? '';
    expect(line.split('\t')).toHaveLength(4);
    expect(cell).not.toMatch(/^\s*[=+\-@\t\r\n\0＝＋－＠]/);
    expect(readBlock(line)[0]?.[1]).toBe(point.replaceAll(/[\t\r\n]+/g, ' '));
  });

  test.each(["'x", "''x", 'x=1', '-1-1', '+1-1', '-2+3+cmd', '−5 V', '5" pipe', '', "'"])(
    '%j comes back as it was',
    (point) => {
      for (const manner of ['spreadsheet', 'exact'] as const)
        expect(readBlock(copyText([{ ...fakeRow(4), point }], columns, '.', manner))[1]?.[1]).toBe(point);
    },
  );

  test.each(texts)('%j copied exactly comes back to the character', (point) => {
    expect(readBlock(copyText([{ ...fakeRow(4), point }], columns, '.', 'exact', false))[0]?.[1]).toBe(point);
  });
});

test('the line of a group is copied as one cell', () => {
  const group = {
    group: 'T-1',
    by: 'repair',
    folded: true,
    readings: 2,
    outOfBand: 0,
    judged: 0,
    overRange: 0,
  } as const;
  expect(copyText([group], columns, '.').split('\r\n')[1]).toBe('T-1: 2 readings, none judged');
});
