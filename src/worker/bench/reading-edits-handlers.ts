import type { ReadingsQuery } from '../../columns/query.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import type { ReadingEdit, ReadingPatch, RowChange } from '../../domain/reading-edit.ts';
import type { BenchHandlers } from '../contract/calls.ts';
import type { CellText, EditsSoFar, ReadingEditCalls } from '../contract/reading-edits.ts';
import { addedName, copiedRows, readNewRows, type AddedRows } from './added-rows.ts';
import type { BenchData, Judged } from './bench-data.ts';
import { sha256 } from './bring-in.ts';
import type { Originals } from './keeping.ts';
import { patchesOf, reverseChange, type EditedLog } from './reading-edits.ts';
import { deletions, few, originalChanges, readCells, returns, type ReadCells } from './reading-edits-desk.ts';
import { historyOf, soFar, stepAgain, stepBack, withAddedRows, withReason, withStep } from './reading-edits-steps.ts';
import type { ReadingsView } from './readings-view.ts';

/** Changes that are taken back or done again without judging all readings anew. */
const QUICK = 100;

/** The bench as edits find it. */
interface EditedBench {
  /** As it is kept, without the edits. */
  readonly kept: BenchData;
  readonly edited: EditedLog;
  readonly judged: Judged;
  readonly view: ReadingsView;
}

/**
 * Answers to the calls that edit readings.
 * @param bench - the bench as it is now
 * @param commit - changes the bench once that is kept; where all that changes are some numbers, by row of the edited log, these alone are judged anew
 */
export function editHandlers(
  bench: () => EditedBench,
  commit: (data: BenchData, originals?: Originals, patches?: ReadonlyMap<number, ReadingPatch>) => Promise<void>,
): Pick<BenchHandlers, keyof ReadingEditCalls> {
  const editsSoFar = (): EditsSoFar => soFar(bench().kept, bench().edited);
  const stepNow = (): Omit<ReadingEdit, 'changes'> => {
    const { technician: who } = bench().kept.settings;
    return { when: Date.now(), ...(who !== undefined && { who }) };
  };
  const change = async (
    changes: readonly RowChange[],
    patches?: ReadonlyMap<number, ReadingPatch>,
  ): Promise<EditsSoFar> => {
    if (changes.length > 0) await commit(withStep(bench().kept, { ...stepNow(), changes }), undefined, patches);
    return editsSoFar();
  };
  const move = async (data: BenchData | undefined, changes: readonly RowChange[] = []): Promise<EditsSoFar> => {
    // Looking many readings up takes longer than judging all anew.
    const patches = changes.length > QUICK ? undefined : patchesOf(bench().edited, changes);
    if (data !== undefined) await commit(data, undefined, patches);
    return editsSoFar();
  };
  const add = async (rows: AddedRows): Promise<void> => {
    const hash = await sha256(rows.bytes);
    await commit(withAddedRows(bench().kept, rows, hash, stepNow()), new Map([[hash, rows.bytes]]));
  };
  const readTexts = (query: ReadingsQuery, cells: readonly CellText[], mark: DecimalMark): ReadCells => {
    const { judged, edited, view } = bench();
    return readCells(judged, edited, cells, (line) => view.rowAt(query, line), mark);
  };
  const rowsOf = (query: ReadingsQuery, first: number, last: number): Uint32Array =>
    few(bench().view.rowsBetween(query, first, last));
  const newName = (): string => addedName(bench().kept, localNow());

  return {
    tryEdit: (_, query, cells, mark) => readTexts(query, cells, mark).answer,
    editReadings: async (_, query, cells, mark) => {
      const { changes, patches, answer } = readTexts(query, cells, mark);
      if (answer.faults.length === 0) await change(changes, patches);
      return answer;
    },
    restoreReadings: (_, query, first, last) => {
      const { judged, edited } = bench();
      const { changes, patches } = originalChanges(judged, edited, rowsOf(query, first, last));
      return change(changes, patches);
    },
    deleteReadings: (_, query, first, last) => change(deletions(bench().edited, rowsOf(query, first, last))),
    returnReadings: () => change(returns(bench().kept.edits)),
    undoEdit: () => {
      const { kept } = bench();
      return move(stepBack(kept), kept.edits.steps.at(-1)?.changes.toReversed().map(reverseChange));
    },
    redoEdit: () => {
      const { kept } = bench();
      return move(stepAgain(kept), kept.edits.undone.at(-1)?.changes);
    },
    editsSoFar,
    tryAdd: async (_, rows, mark) => (await readNewRows(bench().kept, newName(), rows, mark)).answer,
    addReadings: async (_, block, mark, isWhole = false) => {
      const { rows, answer } = await readNewRows(bench().kept, newName(), block, mark);
      if (answer.added > 0 && !(isWhole && answer.setAside > 0)) await add(rows);
      return answer;
    },
    copyReadings: async (_, query, first, last) => {
      const rows = rowsOf(query, first, last);
      if (rows.length > 0) await add(copiedRows(newName(), bench().judged.data.log, rows));
      return editsSoFar();
    },
    explainEdit: (_, why) => move(withReason(bench().kept, why.trim())),
    readingHistory: (_, reading) => historyOf(bench().kept.edits, reading),
  };
}

/** Local wall time in milliseconds, counted as if it were UTC. */
function localNow(): number {
  const now = new Date();
  return now.getTime() - now.getTimezoneOffset() * 60_000;
}
