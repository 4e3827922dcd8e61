import { CheckTable } from '../columns/check-table.ts';
import { Dictionary } from '../columns/dictionary.ts';
import type { LogNames, ReadingLog } from '../columns/reading-log.ts';
import { MODES, SPECIMENS, STAGES, STATES } from '../domain/reading.ts';
import { choosePacking, isStep, isWidth, packColumn, unpackColumn, type Packing } from './column-packing.ts';
import { StoreError } from './store-error.ts';

/** Rows of one chunk; the last chunk of a log may hold fewer. */
export const CHUNK_ROWS = 65_536;

/** A log's names as small arrays: labels in the order of their codes, and the four code columns of its checks. */
export interface StoredNames {
  readonly repairs: readonly string[];
  readonly families: readonly string[];
  readonly points: readonly string[];
  readonly meters: readonly string[];
  readonly files: readonly string[];
  /** Per check: codes of its family, point, stage and mode. */
  readonly checks: readonly (readonly [number, number, number, number])[];
}

/** The columns in the order in which a chunk holds them; part of the stored format, never reordered. */
const COLUMNS = ['time', 'value', 'prefix', 'decimals', 'state', 'specimen', 'repair', 'check', 'meter', 'file', 'line'] as const; // prettier-ignore

/** Of the chunk: its rows, in eight bytes. Of each column: its base in eight bytes, its width and its step in four each. */
const HEADER_BYTES = 8 + 16 * COLUMNS.length;

const NOTHING: Packing = { base: 0, width: 0, step: 1 };

/** How many chunks a log of `rows` rows makes. */
export function chunkCount(rows: number): number {
  return Math.ceil(rows / CHUNK_ROWS);
}

/** How many rows chunk `no` of a log of `rows` rows holds. */
function chunkRows(rows: number, no: number): number {
  return Math.min(CHUNK_ROWS, rows - no * CHUNK_ROWS);
}

/** Chunk `no` of a log as bytes, each column as narrow as its numbers allow. Numbers stand lowest byte first. */
export function encodeChunk(log: ReadingLog, no: number): Uint8Array<ArrayBuffer> {
  const first = no * CHUNK_ROWS;
  const rows = chunkRows(log.count, no);
  const columns = COLUMNS.map((name) => log[name].subarray(first, first + rows));
  const packings = columns.map(choosePacking);
  const bytes = new Uint8Array(HEADER_BYTES + packings.reduce((sum, { width }) => sum + spaceOf(width, rows), 0));
  const view = new DataView(bytes.buffer);
  view.setUint32(0, rows, true);
  let place = HEADER_BYTES;
  columns.forEach((column, index) => {
    const packing = packings[index] ?? NOTHING;
    view.setFloat64(8 + 16 * index, packing.base, true);
    view.setUint32(16 + 16 * index, packing.width, true);
    view.setUint32(20 + 16 * index, packing.step, true);
    packColumn(column, packing, bytes.buffer, place);
    place += spaceOf(packing.width, rows);
  });
  return bytes;
}

/**
 * Fills chunk `no` of a log that {@link emptyColumns} made.
 * @throws StoreError where the bytes are no such chunk, or hold codes that name nothing
 */
export function decodeChunk(bytes: Uint8Array<ArrayBuffer>, log: ReadingLog, no: number): void {
  const rows = chunkRows(log.count, no);
  const { buffer } = bytes.byteOffset === 0 ? bytes : bytes.slice();
  const packings = readPackings(bytes, rows);
  const first = no * CHUNK_ROWS;
  let place = HEADER_BYTES;
  COLUMNS.forEach((name, index) => {
    const packing = packings[index] ?? NOTHING;
    unpackColumn(log[name].subarray(first, first + rows), packing, buffer, place);
    place += spaceOf(packing.width, rows);
  });
  refuseStrayCodes(log, first, first + rows);
}

/** A log of `count` rows that are still to be filled. */
export function emptyColumns(names: LogNames, count: number): ReadingLog {
  return {
    count,
    names,
    time: new Float64Array(count),
    value: new Float64Array(count),
    prefix: new Int8Array(count),
    decimals: new Uint8Array(count),
    state: new Uint8Array(count),
    specimen: new Uint8Array(count),
    repair: new Uint32Array(count),
    check: new Uint32Array(count),
    meter: new Uint16Array(count),
    file: new Uint16Array(count),
    line: new Uint32Array(count),
  };
}

export function encodeNames(names: LogNames): StoredNames {
  const { checks } = names;
  return {
    repairs: names.repairs.labels,
    families: names.families.labels,
    points: names.points.labels,
    meters: names.meters.labels,
    files: names.files.labels,
    checks: Array.from({ length: checks.size }, (_none, check) => [
      checks.familyCode(check),
      checks.pointCode(check),
      checks.stageCode(check),
      checks.modeCode(check),
    ]),
  };
}

/** The names that {@link encodeNames} wrote. @throws StoreError where a label or check stands there twice, or a check names nothing */
export function decodeNames(stored: StoredNames): LogNames {
  const names = {
    repairs: dictionaryOf(stored.repairs),
    families: dictionaryOf(stored.families),
    points: dictionaryOf(stored.points),
    meters: dictionaryOf(stored.meters),
    files: dictionaryOf(stored.files),
    checks: new CheckTable(),
  };
  for (const [family, point, stage, mode] of stored.checks) {
    const known = family < names.families.size && point < names.points.size;
    if (!known || stage >= STAGES.length || mode >= MODES.length) throw damaged('a check names nothing');
    names.checks.intern(family, point, stage, mode);
  }
  if (names.checks.size !== stored.checks.length) throw damaged('a check stands there twice');
  return names;
}

function dictionaryOf(labels: readonly string[]): Dictionary {
  if (new Set(labels).size !== labels.length) throw damaged('a name stands there twice');
  return new Dictionary(labels);
}

function readPackings(bytes: Uint8Array<ArrayBuffer>, rows: number): readonly Packing[] {
  if (bytes.length < HEADER_BYTES) throw damaged('a chunk of readings is cut off');
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  if (view.getUint32(0, true) !== rows) throw damaged('a chunk of readings has another number of rows');
  const packings = COLUMNS.map((_name, index) => {
    const width = view.getUint32(16 + 16 * index, true);
    const step = view.getUint32(20 + 16 * index, true);
    if (!isWidth(width) || !isStep(step)) throw damaged('a column is packed in an unknown way');
    return { base: view.getFloat64(8 + 16 * index, true), width, step };
  });
  const length = HEADER_BYTES + packings.reduce((sum, { width }) => sum + spaceOf(width, rows), 0);
  if (bytes.length !== length) throw damaged('a chunk of readings has another length than its columns');
  return packings;
}

/** Bytes of a column with what keeps the next one on a multiple of eight. */
function spaceOf(width: number, rows: number): number {
  return 8 * Math.ceil((width * rows) / 8);
}

function refuseStrayCodes(log: ReadingLog, first: number, end: number): void {
  const { names } = log;
  const coded = [
    [log.state, STATES.length],
    [log.specimen, SPECIMENS.length],
    [log.repair, names.repairs.size],
    [log.check, names.checks.size],
    [log.meter, names.meters.size],
    [log.file, names.files.size],
  ] as const;
  for (const [column, size] of coded) {
    for (const code of column.subarray(first, end)) if (code >= size) throw damaged('a reading names nothing');
  }
}

function damaged(what: string): StoreError {
  return new StoreError('damaged', `The stored readings are damaged: ${what}.`);
}
