import { readingAt, type ReadingLog } from '../../columns/reading-log.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import type { Reading } from '../../domain/reading.ts';
import { judgeLog } from '../../judging/judge.ts';
import type { ReadingPatch } from '../../domain/reading-edit.ts';
import type { CellText, EditAnswer, EditFault } from '../contract/reading-edits.ts';
import type { Judged } from './bench-data.ts';
import {
  baseRowOf,
  identityOf,
  originalOf,
  patchLog,
  pick,
  reverseChange,
  type EditedLog,
  type EditJournal,
  type RowChange,
} from './reading-edits.ts';
import { readCell } from './reading-edits-cells.ts';

/** More readings than this are not edited at once. */
const EDIT_LIMIT = 100_000;
/** Changes and faults told of one edit. */
const TOLD = 200;

/** What cells come to when they are read: the changes of rows, and what is told of them. */
export interface ReadCells {
  readonly changes: readonly RowChange[];
  /** New values by row of the edited log. */
  readonly patches: ReadonlyMap<number, ReadingPatch>;
  readonly answer: EditAnswer;
}

/**
 * Reads texts as fields of readings. Where one cannot be read nothing is to be changed: the faults say why.
 * @param rowAt - the row of a line, undefined where it holds none
 */
export function readCells(
  { data: { log } }: Judged,
  edited: EditedLog,
  cells: readonly CellText[],
  rowAt: (line: number) => number | undefined,
  mark: DecimalMark,
): ReadCells {
  requireFew(cells.reduce((sum, { first, last }) => sum + last - first + 1, 0));
  const changes: RowChange[] = [];
  const patches = new Map<number, ReadingPatch>();
  const faults: EditFault[] = [];
  const examples: EditAnswer['examples'][number][] = [];
  for (const { first, last, field, text } of cells) {
    for (let line = first; line <= last; line += 1) {
      const row = rowAt(line);
      if (row === undefined) continue;
      const before: Reading = { ...readingAt(log, row), ...patches.get(row) };
      const set = readCell(field, text, before, mark);
      if (typeof set === 'string') {
        if (faults.length < TOLD) faults.push({ line, field, fault: set });
        continue;
      }
      const old = pick(before, Object.keys(set) as (keyof ReadingPatch)[]);
      if (sameValues(old, set)) continue;
      changes.push({ row: identityOf(edited.base, baseRowOf(edited, row)), field, old, new: set });
      patches.set(row, { ...patches.get(row), ...set });
      if (examples.length < TOLD) examples.push({ line, field, before, after: { ...before, ...set } });
    }
  }
  return { changes, patches, answer: { changed: faults.length > 0 ? 0 : changes.length, faults, examples } };
}

/** The same rows. @throws where they are more than can be edited at once */
export function few(rows: Uint32Array): Uint32Array {
  requireFew(rows.length);
  return rows;
}

function requireFew(count: number): void {
  if (count > EDIT_LIMIT)
    throw new Error(`No more than ${EDIT_LIMIT.toLocaleString('en')} readings can be edited at once: select fewer.`);
}

/** The changes that give rows their original values back, in one field or in all. */
export function originalChanges(
  { data: { log } }: Judged,
  edited: EditedLog,
  rows: Uint32Array,
): { readonly changes: readonly RowChange[]; readonly patches: ReadonlyMap<number, ReadingPatch> } {
  const changes: RowChange[] = [];
  const patches = new Map<number, ReadingPatch>();
  for (const row of rows) {
    const original = originalOf(edited, row);
    if (original === undefined) continue;
    const old = pick(readingAt(log, row), Object.keys(original) as (keyof ReadingPatch)[]);
    changes.push({ row: identityOf(edited.base, baseRowOf(edited, row)), old, new: original });
    patches.set(row, original);
  }
  return { changes, patches };
}

/** The changes that delete rows. */
export function deletions(edited: EditedLog, rows: Uint32Array): readonly RowChange[] {
  return Array.from(rows, (row) => ({ row: identityOf(edited.base, baseRowOf(edited, row)), old: {} }));
}

/** The changes that bring all deleted rows back. */
export function returns(journal: EditJournal): readonly RowChange[] {
  const gone = new Map<string, RowChange>();
  for (const change of journal.steps.flatMap((step) => step.changes)) {
    const key = JSON.stringify(change.row);
    if (change.new === undefined) gone.set(key, change);
    else gone.delete(key);
  }
  return [...gone.values()].map(reverseChange);
}

/**
 * The bench judged anew after some readings were given other numbers: those rows alone are judged. Undefined where more
 * follows from the change, so that all must be judged: another time, name or mode, or the mains that a band follows.
 * @param patches - new values by row of the edited log
 */
export function judgePatched(judged: Judged, patches: ReadonlyMap<number, ReadingPatch>): Judged | undefined {
  const { data, standard } = judged;
  const { log } = data;
  const isPlain = [...patches].every(
    ([row, patch]) =>
      patch.value !== undefined &&
      Object.keys(patch).every((key) => ['value', 'prefix', 'decimals', 'state'].includes(key)) &&
      log.names.checks.mode(log.check[row]!) !== 'AC volts',
  );
  if (!isPlain) return undefined;
  const patched = patchLog(log, patches);
  const rows = Uint32Array.from(patches.keys());
  const own = judgeLog(someRows(patched, rows), standard);
  const verdicts = judged.verdicts.slice();
  rows.forEach((row, index) => (verdicts[row] = own[index]!));
  return { ...judged, data: { ...data, log: patched }, verdicts };
}

/** Some rows with the codes that they have, for judging. */
function someRows(log: ReadingLog, rows: Uint32Array): ReadingLog {
  const take = <Column extends Float64Array | Int8Array | Uint8Array | Uint16Array | Uint32Array>(
    column: Column,
  ): Column => {
    const Taken = column.constructor as new (length: number) => Column;
    const taken = new Taken(rows.length);
    rows.forEach((row, index) => (taken[index] = column[row]!));
    return taken;
  };
  return {
    count: rows.length,
    names: log.names,
    time: take(log.time),
    value: take(log.value),
    prefix: take(log.prefix),
    decimals: take(log.decimals),
    state: take(log.state),
    specimen: take(log.specimen),
    repair: take(log.repair),
    check: take(log.check),
    meter: take(log.meter),
    file: take(log.file),
    line: take(log.line),
  };
}

function sameValues(one: ReadingPatch, other: ReadingPatch): boolean {
  return (Object.keys(other) as (keyof ReadingPatch)[]).every((key) => Object.is(one[key], other[key]));
}
