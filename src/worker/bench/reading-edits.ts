import { appendLog, takeRows } from '../../columns/append.ts';
import { LogBuilder } from '../../columns/log-builder.ts';
import { readingAt, type ReadingLog } from '../../columns/reading-log.ts';
import { SPECIMENS, STATES, type Reading } from '../../domain/reading.ts';
import type { ReadingEdit, ReadingPatch, RowChange, RowIdentity } from '../../domain/reading-edit.ts';

export type { ReadingEdit, RowChange, RowIdentity } from '../../domain/reading-edit.ts';

/** Edits in order of time, and those that were taken back, marked so: the last of them is done again first. */
export interface EditJournal {
  readonly steps: readonly ReadingEdit[];
  readonly undone: readonly ReadingEdit[];
}

export const NO_EDITS: EditJournal = { steps: [], undone: [] };

/** A log with its edits made. The log as it was brought in is never changed. */
export interface EditedLog {
  readonly log: ReadingLog;
  readonly base: ReadingLog;
  /** For each row of `log`, its row in `base`; absent where they are the same. */
  readonly baseRows?: Uint32Array;
  /** By row of `base`, all that edits set. */
  readonly patches: ReadonlyMap<number, ReadingPatch>;
  /** Rows of `base` that edits deleted. */
  readonly deleted: ReadonlySet<number>;
}

/** Makes edits on a log; a change of a reading that the log does not hold is passed over. */
export function editLog(base: ReadingLog, steps: readonly ReadingEdit[]): EditedLog {
  const changes = steps.flatMap((step) => step.changes);
  if (changes.length === 0) return { log: base, base, patches: new Map(), deleted: new Set() };
  const rows = findRows(base, changes);
  const patches = new Map<number, ReadingPatch>();
  const deleted = new Set<number>();
  changes.forEach((change, index) => {
    const row = rows[index]!;
    if (row < 0) return;
    if (change.new === undefined) deleted.add(row);
    else {
      deleted.delete(row);
      patches.set(row, { ...patches.get(row), ...change.new });
    }
  });
  const patched = patchLog(base, patches);
  if (deleted.size === 0) return { log: patched, base, patches, deleted };
  const baseRows = new Uint32Array(base.count - deleted.size);
  let kept = 0;
  for (let row = 0; row < base.count; row += 1) if (!deleted.has(row)) baseRows[kept++] = row;
  return { log: takeRows(patched, baseRows), base, baseRows, patches, deleted };
}

/** The row of the unedited log behind a row of the edited one. */
export function baseRowOf({ baseRows }: EditedLog, row: number): number {
  return baseRows === undefined ? row : baseRows[row]!;
}

/** What of a reading is not as it was brought in, with the original values; undefined where all is. */
export function originalOf(edited: EditedLog, row: number): ReadingPatch | undefined {
  const patch = edited.patches.get(baseRowOf(edited, row));
  if (patch === undefined) return undefined;
  const original = readingAt(edited.base, baseRowOf(edited, row));
  const changed = (Object.keys(patch) as (keyof ReadingPatch)[]).filter((key) => !Object.is(patch[key], original[key]));
  return changed.length === 0 ? undefined : pick(original, changed);
}

/** How many readings are not as they were brought in, deleted ones apart. */
export function changedReadings(edited: EditedLog): number {
  const { deleted, patches, base } = edited;
  let changed = 0;
  for (const [row, patch] of patches) {
    if (deleted.has(row)) continue;
    const original = readingAt(base, row);
    const keys = Object.keys(patch) as (keyof ReadingPatch)[];
    if (keys.some((key) => !Object.is(patch[key], original[key]))) changed += 1;
  }
  return changed;
}

/** The edited log after some of its rows were patched once more. @param log - with these patches made */
export function withPatches(edited: EditedLog, log: ReadingLog, patches: ReadonlyMap<number, ReadingPatch>): EditedLog {
  const all = new Map(edited.patches);
  for (const [row, patch] of patches) {
    const baseRow = baseRowOf(edited, row);
    all.set(baseRow, { ...all.get(baseRow), ...patch });
  }
  return { ...edited, log, patches: all };
}

/** The row of the edited log that an identity names; `-1` where it holds none. */
export function rowOfIdentity({ base, baseRows }: EditedLog, { file, line, nth }: RowIdentity): number {
  const code = base.names.files.find(file);
  let row = base.line.indexOf(line);
  while (row >= 0 && base.file[row] !== code) row = base.line.indexOf(line, row + 1);
  const baseRow = row + nth;
  if (row < 0 || base.line[baseRow] !== line || base.file[baseRow] !== code) return -1;
  return baseRows === undefined ? baseRow : baseRows.indexOf(baseRow);
}

/**
 * What changes set, by row of the edited log, where each of them sets what a meter showed and nothing comes or goes;
 * undefined else. Changes of readings that are not there are passed over.
 */
export function patchesOf(
  { base, baseRows }: EditedLog,
  changes: readonly RowChange[],
): ReadonlyMap<number, ReadingPatch> | undefined {
  if (changes.length === 0 || changes.some((change) => change.new?.value === undefined || !change.old))
    return undefined;
  const patches = new Map<number, ReadingPatch>();
  findRows(base, changes).forEach((baseRow, index) => {
    const row = baseRows === undefined ? baseRow : baseRows.indexOf(baseRow);
    if (row >= 0) patches.set(row, { ...patches.get(row), ...changes[index]?.new });
  });
  return patches;
}

/** Names a row of the unedited log. */
export function identityOf(base: ReadingLog, row: number): RowIdentity {
  let first = row;
  while (first > 0 && base.line[first - 1] === base.line[row] && base.file[first - 1] === base.file[row]) first -= 1;
  return { file: base.names.files.label(base.file[row]!), line: base.line[row]!, nth: row - first };
}

/** The change that takes another back. */
export function reverseChange({ row, field, old, new: set }: RowChange): RowChange {
  return { row, ...(field && { field }), ...(set && { old: set }), ...(old && { new: old }) };
}

export function pick(reading: Reading, keys: readonly (keyof ReadingPatch)[]): ReadingPatch {
  return Object.fromEntries(keys.map((key) => [key, reading[key]]));
}

/** Keys whose columns hold no names, so that they can be set without new ones. */
const PLAIN_KEYS: ReadonlySet<string> = new Set(['time', 'value', 'prefix', 'decimals', 'state', 'specimen']);

/** The log with some rows changed, as a new log; columns in which nothing changes are shared. */
export function patchLog(log: ReadingLog, patches: ReadonlyMap<number, ReadingPatch>): ReadingLog {
  const keys = new Set([...patches.values()].flatMap((patch) => Object.keys(patch)));
  if (keys.size === 0) return log;
  if (![...keys].every((key) => PLAIN_KEYS.has(key))) return patchNames(log, patches);
  const copy = <Column extends Float64Array | Int8Array | Uint8Array>(key: string, column: Column): Column =>
    keys.has(key) ? (column.slice() as Column) : column;
  const patched = {
    time: copy('time', log.time),
    value: copy('value', log.value),
    prefix: copy('prefix', log.prefix),
    decimals: copy('decimals', log.decimals),
    state: copy('state', log.state),
    specimen: copy('specimen', log.specimen),
  };
  for (const [row, patch] of patches) {
    if (patch.time !== undefined) patched.time[row] = patch.time;
    if (patch.value !== undefined) patched.value[row] = patch.value;
    if (patch.prefix !== undefined) patched.prefix[row] = patch.prefix;
    if (patch.decimals !== undefined) patched.decimals[row] = patch.decimals;
    if (patch.state !== undefined) patched.state[row] = STATES.indexOf(patch.state);
    if (patch.specimen !== undefined) patched.specimen[row] = SPECIMENS.indexOf(patch.specimen);
  }
  return { ...log, ...patched };
}

/** Appends the changed rows, which brings in their names, and puts them in their places. */
function patchNames(log: ReadingLog, patches: ReadonlyMap<number, ReadingPatch>): ReadingLog {
  const builder = new LogBuilder(undefined, patches.size);
  for (const [row, patch] of patches) builder.add({ ...readingAt(log, row), ...patch });
  const joined = appendLog(log, builder.finish());
  const place = <Column extends Float64Array | Int8Array | Uint8Array | Uint16Array | Uint32Array>(
    column: Column,
  ): Column => {
    [...patches.keys()].forEach((row, index) => (column[row] = column[log.count + index]!));
    return column.subarray(0, log.count) as Column;
  };
  const { names, time, value, prefix, decimals, state, specimen, repair, check, meter, file, line } = joined;
  return {
    count: log.count,
    names,
    time: place(time),
    value: place(value),
    prefix: place(prefix),
    decimals: place(decimals),
    state: place(state),
    specimen: place(specimen),
    repair: place(repair),
    check: place(check),
    meter: place(meter),
    file: place(file),
    line: place(line),
  };
}

/** For each change, the row of its reading, `-1` where the log does not hold it. */
function findRows(base: ReadingLog, changes: readonly RowChange[]): Int32Array {
  const files = changes.map(({ row }) => base.names.files.find(row.file));
  const wanted = new Set(changes.map(({ row }, index) => placeKey(files[index]!, row.line)));
  const lines = new Set(changes.map(({ row }) => row.line));
  const firsts = new Map<number, number>();
  for (let row = base.count - 1; row >= 0; row -= 1) {
    if (!lines.has(base.line[row]!)) continue;
    const key = placeKey(base.file[row]!, base.line[row]!);
    if (wanted.has(key)) firsts.set(key, row);
  }
  return Int32Array.from(changes, ({ row: { line, nth } }, index) => {
    const row = (firsts.get(placeKey(files[index]!, line)) ?? -1) + nth;
    return row >= nth && base.file[row] === files[index] && base.line[row] === line ? row : -1;
  });
}

/** Files are fewer than 2^16, lines fewer than 2^32. */
function placeKey(file: number, line: number): number {
  return file * 2 ** 32 + line;
}
