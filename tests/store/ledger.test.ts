import { describe, expect, test } from 'vitest';
import type { Ledger } from '../../src/store/kept.ts';
import { counted, missingSentences } from '../../src/store/ledger.ts';

const lines = [
  { hash: 'a', rows: 12_000, crc: 1 },
  { hash: 'b', rows: 300, crc: 2 },
  { hash: 'c', rows: 100, crc: 3 },
];
const copy: Ledger = { database: 'one', generation: 1, imports: lines, edits: 5 };
const none = new Set<string>();

describe('the ledger', () => {
  test('misses nothing where all is here, or more', () => {
    const more = { ...copy, imports: [...lines, { hash: 'd', rows: 1, crc: 4 }], edits: 9 };
    expect(missingSentences(copy, copy, none)).toEqual([]);
    expect(missingSentences(copy, more, none)).toEqual([]);
  });

  test('says how many readings and changes an emptied storage has lost', () => {
    const emptied = { database: 'two', generation: 1, imports: [], edits: 0 };
    expect(missingSentences(copy, emptied, none)).toEqual([
      '12,400 readings of 3 imports are missing: restore a backup.',
      '5 changes of bands, families, repairs or meters are missing: restore a backup.',
    ]);
  });

  test('misses an import whose sum is another', () => {
    const other = { ...copy, imports: lines.with(1, { hash: 'b', rows: 300, crc: 9 }) };
    expect(missingSentences(copy, other, none)).toEqual(['300 readings of 1 import are missing: restore a backup.']);
  });

  test('does not miss what was taken away on purpose', () => {
    const fewer = { ...copy, imports: lines.slice(1) };
    expect(missingSentences(copy, fewer, new Set(['a']))).toEqual([]);
    expect(missingSentences(copy, { ...copy, generation: 2, imports: [], edits: 0 }, none)).toEqual([]);
  });
});

test('a count is said with its noun', () => {
  expect([counted(1, 'reading'), counted(0, 'reading'), counted(12_400, 'reading')]).toEqual(['1 reading', '0 readings', '12,400 readings']); // prettier-ignore
});
