import { previewFile } from '../../intake/preview.ts';
import { applyChanges, reverseChanges } from '../../store/journal.ts';
import type { Change, EditNote } from '../../store/kept.ts';
import { EMPTY_BENCH, familyNames, judgeBench, sameFamilies, type BenchData, type Judged } from './bench-data.ts';
import { bandsText } from './bands-text.ts';
import { bringIn, headOf, withKnown } from './bring-in.ts';
import { settled, withoutImport } from './contents.ts';
import { bandPlace, withBands, withFamily, withKeptView, withMeters, withoutBand, withOverrule, withRepair, withSettings } from './edits.ts'; // prettier-ignore
import type { ReadingPatch } from '../../domain/reading-edit.ts';
import { repairFault } from '../../domain/repair-fault.ts';
import type { Rejudged } from '../contract/bands.ts';
import type { BenchHandlers } from '../contract/calls.ts';
import type { ShiftOverview } from '../contract/intake.ts';
import type { BenchSummary, KeptAnswer } from '../contract/memory.ts';
import { History, historyChanges } from './history.ts';
import { historyLines, lineOf, linesOf } from './history-lines.ts';
import { later } from './later.ts';
import { bandsOverview, familyLines } from './overviews.ts';
import { editLog, rowOfIdentity, withPatches } from './reading-edits.ts';
import { judgePatched } from './reading-edits-desk.ts';
import { editHandlers } from './reading-edits-handlers.ts';
import { withoutAdding } from './reading-edits-steps.ts';
import { ReadingsView } from './readings-view.ts';
import { readMeters } from './meters-text.ts';
import { unknownNames } from './names.ts';
import { HEAD_BYTES, planWith } from './plans.ts';
import { NO_MEMORY, type BenchMemory, type Opened } from './memory.ts';
import { mendRow, mendRows } from './mend-rows.ts';
import { stateOf, withRules, type Originals } from './keeping.ts';
import { letGo, setAsideText } from './set-aside-work.ts';
import { withTables } from './tables.ts';
import { compareVerdicts } from './rejudged.ts';
import { repairLines } from './repair-lines.ts';

/** A bench in memory: holds the data of one worker and answers every call of the contract from it. */
export function createBench(memory: BenchMemory = NO_MEMORY): BenchHandlers {
  /** The bench as it is kept, its log without the edits made by hand; `judged` is with them. */
  let kept = EMPTY_BENCH;
  let edited = editLog(kept.log, []);
  let judged: Judged = judgeBench(EMPTY_BENCH);
  let view = new ReadingsView(judged, edited);

  let history = new History();

  const replace = (data: BenchData): void => {
    const isJudged =
      data.log === kept.log &&
      data.edits === kept.edits &&
      data.bands === kept.bands &&
      data.meters === kept.meters &&
      sameFamilies(data.families, kept.families);
    kept = data;
    if (isJudged) judged = { ...judged, data: { ...data, log: judged.data.log } };
    else {
      edited = editLog(data.log, data.edits.steps);
      judged = judgeBench({ ...data, log: edited.log });
    }
    view = new ReadingsView(judged, edited);
  };
  /**
   * Changes the bench once the change is kept; where it cannot be, the bench is as it is kept.
   * @param patches - new values by row of the edited log, where nothing else changes: these rows alone may be judged anew
   * @param note - what is remembered of the change beside who made it
   * @returns hashes of new imports that another tab had kept already
   * @throws StoreError
   */
  const commit = async (
    data: BenchData,
    originals?: Originals,
    signal?: AbortSignal,
    patches?: ReadonlyMap<number, ReadingPatch>,
    note: EditNote = {},
  ): Promise<ReadonlySet<string>> => {
    let known: ReadonlySet<string>;
    const { technician: who } = kept.settings;
    const signed = { ...(who !== undefined && { who }), ...note };
    const changes = historyChanges(kept, data);
    try {
      known = await memory.keep(data, originals, signal, signed);
    } catch (error) {
      const stored = await memory.reload();
      if (stored !== undefined) replace(settled(stored));
      throw error;
    }
    if (changes.length > 0) {
      const step = memory.lastEntry() ?? history.entries.length + 1;
      history.take({ step, at: Date.now(), ...signed, changes });
    }
    const patched = patches && judgePatched(judged, patches);
    if (patched === undefined) replace(data);
    else {
      kept = data;
      judged = { ...patched, data: { ...patched.data, edits: data.edits, withheld: data.withheld } };
      edited = withPatches(edited, judged.data.log, patches ?? new Map());
      view = new ReadingsView(judged, edited);
    }
    return known;
  };
  /** Changes what is edited by hand. */
  const edit = async (data: BenchData, note?: EditNote): Promise<Rejudged> => {
    const before = judged;
    await commit(data, undefined, undefined, undefined, note);
    return compareVerdicts(before, judged);
  };
  /** Makes changes of the history again, or those that take them back. */
  const make = (changes: readonly Change[], note: EditNote): Promise<Rejudged> =>
    edit(withRules(kept, applyChanges(stateOf(kept), changes)), note);
  /** Takes over a bench as it was opened, where there is one. */
  const adopt = async ({ data, answer }: Opened): Promise<KeptAnswer> => {
    if (data) {
      replace(settled(data));
      history = new History(await memory.journal());
    }
    return answer;
  };
  const summary = (): BenchSummary => ({
    readings: judged.data.log.count,
    repairs: new Set([...judged.data.repairs.keys(), ...judged.data.log.names.repairs.labels]).size,
    families: familyNames(judged.data).length,
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
      const file = outcome.records.map((record) => record.file).join(', ');
      const known = await commit(data, originals, context.signal, undefined, { file });
      return withKnown(outcome, known);
    },
    original: (_, hash) => memory.originalBytes(hash),
    takeBack: async (_, hash) => {
      const data = await withTables(kept, memory.originalBytes);
      const file = data.imports.find((record) => record.hash === hash)?.file ?? '';
      const without = settled(withoutAdding(withoutImport(data, hash), file));
      await commit(without, undefined, undefined, undefined, { file });
      return summary();
    },
    mendRow: async (_, file, line, content) => {
      const mended = await mendRow(kept, file, line, content);
      if ('reason' in mended) return mended.reason;
      await commit(mended.data, undefined, undefined, undefined, { file });
      return undefined;
    },
    tryMend: async (_, rows, mend) => (await mendRows(kept, rows, mend)).outcome,
    mendRows: async (_, rows, mend) => {
      const { data, outcome } = await mendRows(kept, rows, mend);
      if (outcome.admitted > 0) await commit(data, undefined, undefined, undefined, { file: rows[0]?.file ?? '' });
      return outcome;
    },
    letGo: async (_, rows) => {
      await commit(letGo(kept, rows));
      return shift();
    },
    setAsideText: (_, isForSpreadsheet = false) => setAsideText(judged.data, isForSpreadsheet),
    unknownNames: () => unknownNames(judged.data),
    answerNames: async (_, answers) => {
      await commit(settled({ ...kept, aliases: [...kept.aliases, ...answers] }));
      return summary();
    },
    count: (_, query) => view.count(query),
    window: (_, query, first, count) => view.window(query, first, count),
    lines: (_, query, first, count, derived) => view.lines(query, first, count, derived),
    placeOf: (_, query, reading) => view.placeOf(query, rowOfIdentity(edited, reading)),
    facet: (_, query, field) => view.facet(query, field),
    summarise: (_, query, first, last) => view.summarise(query, first, last),
    readingsText: async (context, query, isForSpreadsheet = false) =>
      (await later.readingsText()).readingsText(judged.data.log, view.rows(query), isForSpreadsheet, context),
    ...editHandlers(
      () => ({ kept, edited, judged, view }),
      async (data, originals, patches) => {
        await commit(data, originals, undefined, patches);
      },
    ),
    repairs: () => repairLines(judged),
    repair: async (_, id, mark = '.') => (await later.repairStories()).repairStory(judged, id, mark),
    decision: async (_, id, mark = '.') => (await later.repairDecisions()).repairDecision(judged, id, mark),
    goBackAnswers: async (_, ids, mark = '.') => (await later.repairDecisions()).goBackAnswers(judged, ids, mark),
    whatNext: async (_, repair, mark = '.') => (await later.whatNext()).whatNext(judged, repair, mark),
    runIns: async (_, repair) => (await later.runIns()).runIns(judged, repair),
    runInTrace: async (_, repair, point, mode, columns, window) =>
      (await later.runIns()).runInTrace(judged, repair, point, mode, columns, window),
    overruleLine: async (_, repair, rule, reason) => {
      const why = reason.trim();
      await edit(withOverrule(kept, { repair, rule, reason }), why === '' ? {} : { why });
      return summary();
    },
    repairFault: (_, repair, isNew) => repairFault(repair, kept.repairs, isNew),
    setRepair: async (_, repair, isNew) => {
      await edit(withRepair(kept, repair, isNew));
      return summary();
    },
    bands: () => bandsOverview(judged),
    pastPoints: async (_, check, rule) => (await later.bandWork()).pastPoints(judged, check, rule),
    tryBand: async (_, check, expects, rule) => (await later.bandWork()).tryBand(judged, check, expects, rule),
    propose: async (_, check, settings) => (await later.bandWork()).proposeFor(judged, check, settings),
    proposeFamily: async (context, family, settings) =>
      (await later.bandWork()).proposeFamily(judged, family, settings, context),
    setBands: (_, bands, why = '') => edit(withBands(kept, bands), why.trim() === '' ? {} : { why: why.trim() }),
    removeBand: (_, band) => edit(withoutBand(kept, band)),
    bandHistory: (_, band) => judged.data.earlierBands.filter((one) => bandPlace(one) === bandPlace(band)).reverse(),
    bandsText: () => bandsText(judged.data),
    setFamily: async (_, family) => {
      await edit(withFamily(kept, family));
      return summary();
    },
    meters: () => judged.data.meters,
    readMeters: (_, text) => readMeters(text),
    setMeters: (_, meters) => edit(withMeters(kept, meters)),
    undo: async () => {
      const { undo } = history;
      return undo && make(reverseChanges(undo.changes), { undoes: undo.step });
    },
    redo: async () => {
      const { redo } = history;
      return redo && make(redo.changes, { redoes: redo.step });
    },
    undoable: () => {
      const { undo, redo } = history;
      return { ...(undo && { undo: lineOf(undo) }), ...(redo && { redo: lineOf(redo) }) };
    },
    history: (_, kind, first, count) => historyLines(history, judged.data, kind, first, count),
    historyOf: (_, subject) => linesOf(history, subject),
    explain: async (_, step, why) => {
      await memory.explain(step, why.trim());
      history.explain(step, why.trim());
    },
    settings: () => kept.settings,
    changeSettings: async (_, changes) => {
      await edit(withSettings(kept, changes));
      return kept.settings;
    },
    views: () => kept.views,
    setView: async (_, named) => {
      await edit(withKeptView(kept, named));
      return kept.views;
    },
    removeView: async (_, name) => {
      await edit({ ...kept, views: kept.views.filter((one) => one.name !== name) });
      return kept.views;
    },
    families: () => familyLines(judged),
    familyPage: async (context, query) => (await later.familyPage()).familyPage(judged, query, context),
    familiesBeside: async (context, query, other) =>
      (await later.familiesBeside()).familiesBeside(judged, query, other, context),
    repairsWhere: async (_, query) => (await later.chosenRepairs()).repairsWhere(judged, query),
    metersOverview: async (context) => (await later.metersOverview()).metersOverview(judged, context),
    shift,
    openKept: async (_, copy) => adopt(await memory.open(copy)),
    startOwn: async () => {
      await memory.startOwn();
      replace(EMPTY_BENCH);
      history = new History();
      return summary();
    },
    ledger: () => memory.ledger(),
    backUp: (context) => memory.backUp(context),
    confirmBackup: (context, file, seal) => memory.confirmBackup(file, seal, context),
    backupFile: () => memory.backupFile(),
    chooseBackupFile: (_, handle) => memory.chooseBackupFile(handle),
    backupHandle: () => memory.backupHandle(),
    writeBackupFile: (context) => memory.writeBackupFile(context),
    lookIntoBackup: (context, file) => memory.lookInto(file, context),
    restore: async (context, file) => adopt(await memory.restore(file, context)),
    undoSwitch: async () => adopt(await memory.undoSwitch()),
    takeOver: () => memory.takeOver(),
    beginImport: (_, files) => memory.beginImport(files),
    endImport: () => memory.endImport(),
    importsElsewhere: () => memory.importsElsewhere(),
    clear: () => {
      memory.pause();
      replace(EMPTY_BENCH);
      history = new History();
      return summary();
    },
  };
}
