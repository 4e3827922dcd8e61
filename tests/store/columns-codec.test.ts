import fc from '../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { columnsOf, newLogNames, type ReadingLog } from '../../src/columns/reading-log.ts';
import { MODES, STAGES } from '../../src/domain/reading.ts';
import { choosePacking, packColumn, unpackColumn, type Column } from '../../src/store/column-packing.ts';
import { CHUNK_ROWS, chunkCount, decodeChunk, decodeNames, emptyColumns, encodeChunk, encodeNames } from '../../src/store/columns-codec.ts'; // prettier-ignore
import { StoreError } from '../../src/store/store-error.ts';
import { seededLog, sumOf } from './fixtures.ts';

function packed<Kind extends Column>(column: Kind, copy: Kind): Kind {
  const packing = choosePacking(column);
  const buffer = new ArrayBuffer(packing.width * column.length);
  packColumn(column, packing, buffer, 0);
  unpackColumn(copy, packing, buffer, 0);
  return copy;
}

function restored(log: ReadingLog): ReadingLog {
  const result = emptyColumns(decodeNames(encodeNames(log.names)), log.count);
  for (let no = 0; no < chunkCount(log.count); no += 1) decodeChunk(encodeChunk(log, no), result, no);
  return result;
}

const bitsOf = (column: Column): Uint8Array => new Uint8Array(column.buffer, column.byteOffset, column.byteLength);

describe('a packed column', () => {
  test.each([
    ['of one number takes none', [7, 7, 7], 0],
    ['spanning 255 takes one', [-5, 250], 1],
    ['spanning 256 takes two', [-5, 251], 2],
    ['spanning 65,536 takes four', [0, 65_536], 4],
    ['of moments of one day to the second takes four', [1.77e12, 1.77e12 + 86_399_000], 4],
    ['of moments of a hundred years to the second takes four', [1.77e12, 1.77e12 + 100 * 365 * 86_400_000], 4],
    ['of moments of an hour to the second takes two', [1.77e12 + 7, 1.77e12 + 3_600_007], 2],
    ['of moments of a hundred years to the millisecond stays double', [1.77e12, 1.77e12 + 100 * 365 * 86_400_001], 8],
    ['spanning 2^32 stays double', [0, 2 ** 32], 8],
    ['with a fraction stays double', [1, 1.5], 8],
    ['with a NaN stays double', [1, NaN], 8],
    ['with a negative zero stays double', [0, -0], 8],
    ['beyond the safe integers stays double', [2 ** 53, 2 ** 53 + 2], 8],
  ])('%s bytes a number', (_name, numbers, width) => {
    const column = Float64Array.from(numbers);
    expect(choosePacking(column).width).toBe(width);
    expect(bitsOf(packed(column, new Float64Array(column.length)))).toEqual(bitsOf(column));
  });

  test('of doubles gives every bit back', () => {
    fc.assert(
      fc.property(fc.float64Array({ maxLength: 60 }), (column) => {
        expect(bitsOf(packed(column, new Float64Array(column.length)))).toEqual(bitsOf(column));
      }),
    );
  });

  test('of whole numbers in any range gives every bit back', () => {
    const anyRange = fc
      .tuple(fc.maxSafeInteger(), fc.constantFrom(1, 255, 256, 65_535, 65_536, 2 ** 32 - 1, 2 ** 32, 2 ** 40))
      .chain(([base, span]) => fc.array(fc.integer({ min: 0, max: span }).map((offset) => base - offset)));
    fc.assert(
      fc.property(anyRange, (numbers) => {
        const column = Float64Array.from(numbers);
        expect(bitsOf(packed(column, new Float64Array(column.length)))).toEqual(bitsOf(column));
      }),
    );
  });

  test('of each narrow kind gives every number back', () => {
    fc.assert(
      fc.property(fc.int8Array(), fc.uint8Array(), fc.uint16Array(), fc.uint32Array(), (...columns) => {
        for (const column of columns) {
          const copy = new (column.constructor as new (length: number) => Column)(column.length);
          expect(packed(column, copy)).toEqual(column);
        }
      }),
    );
  });
});

describe('a stored log', () => {
  test.each([0, 1, CHUNK_ROWS, CHUNK_ROWS + 1])('of %i rows comes back bit for bit', (rows) => {
    const log = seededLog(3, rows, 'shift.csv');
    const back = restored(log);
    expect(columnsOf(back).map(sumOf)).toEqual(columnsOf(log).map(sumOf));
    expect(encodeNames(back.names)).toEqual(encodeNames(log.names));
  });

  test('of any names comes back with their codes', () => {
    const label = fc.string({ unit: 'binary' });
    const labels = fc.oneof(fc.constantFrom('', '__proto__', 'constructor', '\ud800'), label);
    fc.assert(
      fc.property(fc.array(labels), fc.array(fc.tuple(labels, fc.nat(4), fc.nat(7))), (repairs, checks) => {
        const names = newLogNames();
        for (const repair of repairs) names.repairs.intern(repair);
        for (const [point, stage, mode] of checks)
          names.checks.intern(names.families.intern(''), names.points.intern(point), stage, mode);
        expect(encodeNames(decodeNames(encodeNames(names)))).toEqual(encodeNames(names));
      }),
    );
  });

  test('takes at most 30 bytes a reading', () => {
    const log = seededLog(5, 2 * CHUNK_ROWS, 'shift.csv');
    const bytes = encodeChunk(log, 0).length + encodeChunk(log, 1).length;
    expect(bytes / log.count).toBeLessThanOrEqual(30);
  });
});

describe('a damaged log is refused', () => {
  const log = seededLog(4, 100, 'shift.csv');
  const target = (): ReadingLog => emptyColumns(log.names, log.count);

  test.each([
    ['cut off', (chunk: Uint8Array<ArrayBuffer>) => chunk.slice(0, -1)],
    ['too long', (chunk: Uint8Array<ArrayBuffer>) => Uint8Array.of(...chunk, 0)],
    ['shorter than its header', (chunk: Uint8Array<ArrayBuffer>) => chunk.slice(0, 20)],
    ['of another number of rows', (chunk: Uint8Array<ArrayBuffer>) => chunk.with(0, 99)],
    ['of an unknown width', (chunk: Uint8Array<ArrayBuffer>) => chunk.with(16, 3)],
  ])('where a chunk is %s', (_name, damage) => {
    const chunk = damage(encodeChunk(log, 0));
    expect(() => { decodeChunk(chunk, target(), 0); }).toThrow(StoreError); // prettier-ignore
  });

  test('where a code names nothing', () => {
    const stray = { ...log, repair: log.repair.slice().fill(log.names.repairs.size, 50, 51) };
    expect(() => { decodeChunk(encodeChunk(stray, 0), target(), 0); }).toThrow('a reading names nothing'); // prettier-ignore
  });

  test('where names are double, or a check names nothing', () => {
    const names = encodeNames(log.names);
    expect(() => decodeNames({ ...names, repairs: ['T-0001', 'T-0001'] })).toThrow('twice');
    expect(() => decodeNames({ ...names, checks: [[0, 0, 0, 0], [0, 0, 0, 0]] })).toThrow('twice'); // prettier-ignore
    expect(() => decodeNames({ ...names, checks: [[9, 0, 0, 0]] })).toThrow('names nothing');
    expect(() => decodeNames({ ...names, checks: [[0, 0, STAGES.length, 0]] })).toThrow('names nothing');
    expect(() => decodeNames({ ...names, checks: [[0, 0, 0, MODES.length]] })).toThrow('names nothing');
  });
});
