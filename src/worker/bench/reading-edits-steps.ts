import { appendLog } from '../../columns/append.ts';
import type { ReadingEdit, RowChange, RowIdentity } from '../../domain/reading-edit.ts';
import type { EditsSoFar, ReadingHistoryEntry, StepNote } from '../contract/reading-edits.ts';
import type { AddedRows } from './added-rows.ts';
import type { BenchData } from './bench-data.ts';
import { settled, withoutImport } from './contents.ts';
import { importOf } from './keeping.ts';
import { changedReadings, type EditedLog, type EditJournal } from './reading-edits.ts';

/** The bench with one edit more; what was taken back before cannot be done again after it. */
export function withStep(data: BenchData, step: ReadingEdit): BenchData {
  if (step.changes.length === 0 && step.added === undefined) return data;
  return { ...data, edits: { steps: [...data.edits.steps, step], undone: [] }, withheld: new Map() };
}

/** The bench with rows that were added by hand, as one edit. @param hash - SHA-256 of their text */
export function withAddedRows(
  data: BenchData,
  { record, plan, log, setAside }: AddedRows,
  hash: string,
  step: Omit<ReadingEdit, 'changes' | 'added'>,
): BenchData {
  const added = { record: { ...record, hash }, plan, log, setAside };
  return withStep(withImport(data, added), { ...step, changes: [], added: record.file });
}

/** The bench with its last edit taken back; undefined where there is none. */
export function stepBack(data: BenchData): BenchData | undefined {
  const { steps, undone } = data.edits;
  const last = steps.at(-1);
  if (last === undefined) return undefined;
  const edits = { steps: steps.slice(0, -1), undone: [...undone, { ...last, undone: true }] };
  const record = data.imports.find(({ file }) => file === last.added);
  if (record === undefined) return { ...data, edits };
  const withheld = new Map([...data.withheld, [record.file, importOf(data, record)]]);
  return { ...withoutImport(data, record.hash), edits, withheld };
}

/** The bench with the edit taken back last done again; undefined where there is none. */
export function stepAgain(data: BenchData): BenchData | undefined {
  const { steps, undone } = data.edits;
  const last = undone.at(-1);
  if (last === undefined) return undefined;
  const edits = { steps: [...steps, { ...last, undone: false }], undone: undone.slice(0, -1) };
  const kept = last.added === undefined ? undefined : data.withheld.get(last.added);
  if (kept === undefined) return { ...data, edits };
  const withheld = new Map([...data.withheld].filter(([file]) => file !== last.added));
  return { ...withImport(data, kept), edits, withheld };
}

/** The bench after an import was taken away: where its rows were added by hand, there is no such edit any more. */
export function withoutAdding(data: BenchData, file: string): BenchData {
  const { steps, undone } = data.edits;
  if (!steps.some(({ added }) => added === file)) return data;
  return { ...data, edits: { steps: steps.filter(({ added }) => added !== file), undone } };
}

/** The bench with the reason of its last edit. */
export function withReason(data: BenchData, why: string): BenchData {
  const { steps, undone } = data.edits;
  const last = steps.at(-1);
  if (last === undefined || (last.why ?? '') === why) return data;
  return { ...data, edits: { steps: [...steps.slice(0, -1), { ...last, why }], undone } };
}

/** What was edited by hand so far, with the edits that undo and redo would take. */
export function soFar(data: BenchData, edited: EditedLog): EditsSoFar {
  const { steps, undone } = data.edits;
  const last = steps.at(-1);
  const next = undone.at(-1);
  return {
    changed: changedReadings(edited),
    deleted: edited.deleted.size,
    steps: steps.length,
    undone: undone.length,
    ...(last && { last: noteOf(data, last) }),
    ...(next && { next: noteOf(data, next) }),
  };
}

/** The edits of one reading, oldest first. */
export function historyOf({ steps }: EditJournal, { file, line, nth }: RowIdentity): readonly ReadingHistoryEntry[] {
  return steps.flatMap(({ when, who, why, changes, added }): readonly ReadingHistoryEntry[] => {
    const by = { when, ...(who !== undefined && { who }), ...(why !== undefined && why !== '' && { why }) };
    if (added === file) return [{ ...by, does: 'added' }];
    return changes
      .filter((change) => change.row.line === line && change.row.nth === nth && change.row.file === file)
      .map((change) => ({
        ...by,
        does: kindOf(change),
        ...(change.old && { old: change.old }),
        ...(change.new && { new: change.new }),
      }));
  });
}

function withImport(data: BenchData, { record, log, setAside, plan }: ReturnType<typeof importOf>): BenchData {
  return settled({
    ...data,
    log: log === undefined ? data.log : appendLog(data.log, log),
    imports: [...data.imports, record],
    setAside: [...data.setAside, ...setAside],
    plans: plan === undefined ? data.plans : new Map([...data.plans, [record.file, plan]]),
  });
}

/** An edit in numbers of readings. */
export function noteOf(data: BenchData, { when, who, why, changes, added }: ReadingEdit): StepNote {
  const readings = (does: ReadingHistoryEntry['does']): number =>
    new Set(changes.filter((change) => kindOf(change) === does).map(({ row }) => JSON.stringify(row))).size;
  const record = data.imports.find(({ file }) => file === added) ?? data.withheld.get(added ?? '')?.record;
  return {
    when,
    ...(who !== undefined && { who }),
    ...(why !== undefined && why !== '' && { why }),
    edited: readings('edited'),
    deleted: readings('deleted'),
    returned: readings('returned'),
    added: record?.taken ?? 0,
  };
}

function kindOf(change: RowChange): ReadingHistoryEntry['does'] {
  if (change.new === undefined) return 'deleted';
  return change.old === undefined ? 'returned' : 'edited';
}
