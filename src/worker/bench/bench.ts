import type { DecimalMark } from '../../domain/quantity.ts';
import { previewFile } from '../../intake/preview.ts';
import { EMPTY_BENCH, judgeBench, type BenchData, type Judged } from './bench-data.ts';
import { checksOf, pastPoints, proposeFor, tryBand } from './band-work.ts';
import { bandsText } from './bands-text.ts';
import { bringIn, settled } from './bring-in.ts';
import { withoutImport } from './contents.ts';
import { bandPlace, withBands, withFamily, withMeter, withoutBand, withOverrule, withRepair } from './edits.ts';
import type { ReadingsQuery } from '../../columns/query.ts';
import type { ReadingPatch } from '../../domain/reading-edit.ts';
import type { Rejudged } from '../contract/bands.ts';
import type { BenchHandlers } from '../contract/calls.ts';
import type { ShiftOverview } from '../contract/intake.ts';
import type { BenchSummary } from '../contract/memory.ts';
import type { CellText, EditsSoFar } from '../contract/reading-edits.ts';
import { familyPage, metersOverview } from './family-page.ts';
import { bandsOverview, familyLines, familyPatterns } from './overviews.ts';
import { changedReadings, editLog, withPatches, type EditJournal } from './reading-edits.ts';
import {
  deletions,
  few,
  judgePatched,
  originalChanges,
  readCells,
  returns,
  stepAgain,
  stepBack,
  withStep,
  type ReadCells,
} from './reading-edits-desk.ts';
import { ReadingsView } from './readings-view.ts';
import { unknownNames } from './names.ts';
import { HEAD_BYTES, planWith } from './plans.ts';
import { NO_MEMORY, type BenchMemory } from './memory.ts';
import type { Originals } from './keeping.ts';
import { letGo, mendRow, setAsideText } from './set-aside-work.ts';
import { withTables } from './tables.ts';
import { compareVerdicts } from './rejudged.ts';
import { repairDecision, repairLines, repairStory, runIns, runInTrace } from './repair-stories.ts';
import { whatNext } from './what-next.ts';

/** What is edited by hand: all that an undo brings back. */
type Rules = Pick<BenchData, 'bands' | 'earlierBands' | 'families' | 'meters' | 'repairs' | 'overrules'>;

/** A bench in memory: holds the data of one worker and answers every call of the contract from it. */
export function createBench(memory: BenchMemory = NO_MEMORY): BenchHandlers {
  /** The bench as it is kept, its log without the edits made by hand; `judged` is with them. */
  let kept = EMPTY_BENCH;
  let edited = editLog(kept.log, []);
  let judged: Judged = judgeBench(EMPTY_BENCH);
  let view = new ReadingsView(judged, edited);

  let earlier: readonly Rules[] = [];

  const replace = (data: BenchData): void => {
    kept = data;
    edited = editLog(data.log, data.edits.steps);
    judged = judgeBench({ ...data, log: edited.log });
    view = new ReadingsView(judged, edited);
  };
  /** Takes another journal of edits; where all that it changes are some numbers, only these are judged anew. */
  const takeEdits = async (edits: EditJournal, patches?: ReadonlyMap<number, ReadingPatch>): Promise<EditsSoFar> => {
    await memory.keep({ ...kept, edits });
    const patched = patches && judgePatched(judged, patches);
    if (patched === undefined) replace({ ...kept, edits });
    else {
      kept = { ...kept, edits };
      judged = { ...patched, data: { ...patched.data, edits } };
      edited = withPatches(edited, judged.data.log, patches ?? new Map());
      view = new ReadingsView(judged, edited);
    }
    return editsSoFar();
  };
  const editsSoFar = (): EditsSoFar => ({
    changed: changedReadings(edited),
    deleted: edited.deleted,
    steps: kept.edits.steps.length,
    undone: kept.edits.undone.length,
  });
  const readTexts = (query: ReadingsQuery, cells: readonly CellText[], mark: DecimalMark): ReadCells =>
    readCells(judged, edited, cells, (line) => view.rowAt(query, line), mark);
  /** Changes the bench once the change is kept; where it cannot be, the bench is as it is kept. @throws StoreError */
  const commit = async (data: BenchData, originals?: Originals, signal?: AbortSignal): Promise<void> => {
    try {
      await memory.keep(data, originals, signal);
    } catch (error) {
      const stored = await memory.reload();
      if (stored !== undefined) replace(settled(stored));
      throw error;
    }
    replace(data);
  };
  /** Changes what is edited by hand; what stood before is kept for undo. */
  const edit = async (data: BenchData): Promise<Rejudged> => {
    const before = judged;
    const { bands, earlierBands, families, meters, repairs, overrules } = before.data;
    await commit(data);
    earlier = [...earlier, { bands, earlierBands, families, meters, repairs, overrules }];
    return compareVerdicts(before, judged);
  };
  const summary = (): BenchSummary => ({
    readings: judged.data.log.count,
    repairs: repairLines(judged).length,
    families: familyLines(judged).length,
    bands: judged.data.bands.length,
  });

  const shift = (): ShiftOverview => ({ imports: judged.data.imports, setAside: judged.data.setAside });

  return {
    summary,
    planFile: async (_, file, choices) =>
      planWith(judged.data, file.name, await headOf(file), file.size <= HEAD_BYTES, choices),
    previewFile: async (_, file, plan) => previewFile(file.name, await headOf(file), plan),
    bringIn: async (context, files, plans = []) => {
      const { data, outcome, originals } = await bringIn(kept, files, plans, context);
      await commit(data, originals, context.signal);
      earlier = [];
      return outcome;
    },
    original: (_, hash) => memory.originalBytes(hash),
    takeBack: async (_, hash) => {
      const data = await withTables(kept, memory.originalBytes);
      await commit(settled(withoutImport(data, hash)));
      earlier = [];
      return summary();
    },
    mendRow: async (_, file, line, content) => {
      const mended = await mendRow(kept, file, line, content);
      if ('reason' in mended) return mended.reason;
      await commit(mended.data);
      return undefined;
    },
    letGo: async (_, rows) => {
      await commit(letGo(kept, rows));
      return shift();
    },
    setAsideText: () => setAsideText(judged.data),
    unknownNames: () => unknownNames(judged.data),
    answerName: async (_, answer) => {
      await commit(settled({ ...kept, aliases: [...kept.aliases, answer] }));
      return summary();
    },
    count: (_, query) => view.count(query),
    window: (_, query, first, count) => view.window(query, first, count),
    lines: (_, query, first, count, derived) => view.lines(query, first, count, derived),
    placeOf: (_, query, row) => view.placeOf(query, row),
    facet: (_, query, field) => view.facet(query, field),
    summarise: (_, query, first, last) => view.summarise(query, first, last),
    tryEdit: (_, query, cells, mark) => readTexts(query, cells, mark).answer,
    editReadings: async (_, query, cells, mark) => {
      const { changes, patches, answer } = readTexts(query, cells, mark);
      if (answer.faults.length > 0 || changes.length === 0) return answer;
      await takeEdits(withStep(kept.edits, changes, Date.now()), patches);
      return answer;
    },
    restoreReadings: (_, query, first, last) => {
      const { changes, patches } = originalChanges(judged, edited, few(view.rowsBetween(query, first, last)));
      return changes.length === 0 ? editsSoFar() : takeEdits(withStep(kept.edits, changes, Date.now()), patches);
    },
    deleteReadings: (_, query, first, last) =>
      takeEdits(withStep(kept.edits, deletions(edited, few(view.rowsBetween(query, first, last))), Date.now())),
    returnReadings: () => takeEdits(withStep(kept.edits, returns(kept.edits), Date.now())),
    undoEdit: () => takeEdits(stepBack(kept.edits) ?? kept.edits),
    redoEdit: () => takeEdits(stepAgain(kept.edits) ?? kept.edits),
    editsSoFar,
    repairs: () => repairLines(judged),
    repair: (_, id, mark = '.') => repairStory(judged, id, mark),
    decision: (_, id, mark = '.') => repairDecision(judged, id, mark),
    whatNext: (_, repair, mark = '.') => whatNext(judged, repair, mark),
    runIns: (_, repair) => runIns(judged, repair),
    runInTrace: (_, repair, point, mode, columns, window) => runInTrace(judged, repair, point, mode, columns, window),
    overruleLine: async (_, repair, rule, reason) => {
      await edit(withOverrule(kept, { repair, rule, reason }));
      return summary();
    },
    setRepair: async (_, repair) => {
      await edit(withRepair(kept, repair));
      return summary();
    },
    bands: () => bandsOverview(judged),
    pastPoints: (_, check) => pastPoints(judged, check),
    tryBand: (_, check, expects) => tryBand(judged, check, expects),
    propose: (_, check, settings) => proposeFor(judged, check, settings),
    proposeFamily: (_, family, settings) =>
      checksOf(judged, family)
        .map((check) => proposeFor(judged, check, settings))
        .filter((line) => line.readings > 0),
    setBands: (_, bands) => edit(withBands(kept, bands)),
    removeBand: (_, band) => edit(withoutBand(kept, band)),
    bandHistory: (_, band) => judged.data.earlierBands.filter((one) => bandPlace(one) === bandPlace(band)).reverse(),
    bandsText: () => bandsText(judged.data),
    setFamily: async (_, family) => {
      await edit(withFamily(kept, family));
      return summary();
    },
    meters: () => judged.data.meters,
    setMeter: (_, meter) => edit(withMeter(kept, meter)),
    undo: async () => {
      const rules = earlier.at(-1);
      if (rules === undefined) return undefined;
      const before = judged;
      await commit({ ...kept, ...rules });
      earlier = earlier.slice(0, -1);
      return compareVerdicts(before, judged);
    },
    families: () => familyLines(judged),
    family: (_, name) => familyPatterns(judged, name),
    familyPage: (_, query) => familyPage(judged, query),
    metersOverview: () => metersOverview(judged),
    shift,
    openKept: async (_, copy) => {
      const opened = await memory.open(copy);
      if (opened.data) {
        replace(settled(opened.data));
        earlier = [];
      }
      return opened.answer;
    },
    startOwn: async () => {
      await memory.startOwn();
      replace(EMPTY_BENCH);
      earlier = [];
      return summary();
    },
    ledger: () => memory.ledger(),
    backUp: (context) => memory.backUp(context),
    confirmBackup: (_, file, seal) => memory.confirmBackup(file, seal),
    lookIntoBackup: (_, file) => memory.lookInto(file),
    restore: async (context, file) => {
      const opened = await memory.restore(file, context);
      if (opened.data) replace(settled(opened.data));
      earlier = [];
      return opened.answer;
    },
    undoSwitch: async () => {
      const opened = await memory.undoSwitch();
      if (opened.data) replace(settled(opened.data));
      earlier = [];
      return opened.answer;
    },
    clear: () => {
      memory.pause();
      replace(EMPTY_BENCH);
      earlier = [];
      return summary();
    },
  };
}

async function headOf(file: File): Promise<Uint8Array> {
  return new Uint8Array(await file.slice(0, HEAD_BYTES).arrayBuffer());
}
