import { previewFile } from '../../intake/preview.ts';
import { EMPTY_BENCH, judgeBench, type BenchData, type Judged } from './bench-data.ts';
import { checksOf, pastPoints, proposeFor, tryBand } from './band-work.ts';
import { bandsText } from './bands-text.ts';
import { bringIn, settled } from './bring-in.ts';
import { withoutImport } from './contents.ts';
import { bandPlace, withBands, withFamily, withMeter, withoutBand, withOverrule, withRepair } from './edits.ts';
import type { BenchHandlers, BenchSummary, Rejudged, ShiftOverview } from '../contract.ts';
import { familyPage, metersOverview } from './family-page.ts';
import { bandsOverview, familyLines, familyPatterns } from './overviews.ts';
import { ReadingsView } from './readings-view.ts';
import { unknownNames } from './names.ts';
import { HEAD_BYTES, planWith } from './plans.ts';
import { NO_MEMORY, type BenchMemory } from './memory.ts';
import type { Originals } from './keeping.ts';
import { letGo, mendRow, setAsideText } from './set-aside-work.ts';
import { withTables } from './tables.ts';
import { compareVerdicts } from './rejudged.ts';
import { repairDecision, repairLines, repairStory, runIns, runInTrace } from './repair-stories.ts';

/** What is edited by hand: all that an undo brings back. */
type Rules = Pick<BenchData, 'bands' | 'earlierBands' | 'families' | 'meters' | 'repairs' | 'overrules'>;

/** A bench in memory: holds the data of one worker and answers every call of the contract from it. */
export function createBench(memory: BenchMemory = NO_MEMORY): BenchHandlers {
  let judged: Judged = judgeBench(EMPTY_BENCH);
  let view = new ReadingsView(judged);

  let earlier: readonly Rules[] = [];

  const replace = (data: BenchData): void => {
    judged = judgeBench(data);
    view = new ReadingsView(judged);
  };
  /** Changes the bench once the change is kept; where it cannot be, the bench is as it is kept. @throws StoreError */
  const commit = async (data: BenchData, originals?: Originals, signal?: AbortSignal): Promise<void> => {
    try {
      await memory.keep(data, originals, signal);
    } catch (error) {
      const kept = await memory.reload();
      if (kept !== undefined) replace(settled(kept));
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
      const { data, outcome, originals } = await bringIn(judged.data, files, plans, context);
      await commit(data, originals, context.signal);
      earlier = [];
      return outcome;
    },
    takeBack: async (_, hash) => {
      const data = await withTables(judged.data, memory.originalBytes);
      await commit(settled(withoutImport(data, hash)));
      earlier = [];
      return summary();
    },
    mendRow: async (_, file, line, content) => {
      const mended = await mendRow(judged.data, file, line, content);
      if ('reason' in mended) return mended.reason;
      await commit(mended.data);
      return undefined;
    },
    letGo: async (_, rows) => {
      await commit(letGo(judged.data, rows));
      return shift();
    },
    setAsideText: () => setAsideText(judged.data),
    unknownNames: () => unknownNames(judged.data),
    answerName: async (_, answer) => {
      await commit(settled({ ...judged.data, aliases: [...judged.data.aliases, answer] }));
      return summary();
    },
    count: (_, query) => view.count(query),
    window: (_, query, first, count) => view.window(query, first, count),
    lines: (_, query, first, count, derived) => view.lines(query, first, count, derived),
    placeOf: (_, query, row) => view.placeOf(query, row),
    facet: (_, query, field) => view.facet(query, field),
    summarise: (_, query, first, last) => view.summarise(query, first, last),
    repairs: () => repairLines(judged),
    repair: (_, id, mark = '.') => repairStory(judged, id, mark),
    decision: (_, id, mark = '.') => repairDecision(judged, id, mark),
    runIns: (_, repair) => runIns(judged, repair),
    runInTrace: (_, repair, point, mode, columns, window) => runInTrace(judged, repair, point, mode, columns, window),
    overruleLine: async (_, repair, rule, reason) => {
      await edit(withOverrule(judged.data, { repair, rule, reason }));
      return summary();
    },
    setRepair: async (_, repair) => {
      await edit(withRepair(judged.data, repair));
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
    setBands: (_, bands) => edit(withBands(judged.data, bands)),
    removeBand: (_, band) => edit(withoutBand(judged.data, band)),
    bandHistory: (_, band) => judged.data.earlierBands.filter((one) => bandPlace(one) === bandPlace(band)).reverse(),
    bandsText: () => bandsText(judged.data),
    setFamily: async (_, family) => {
      await edit(withFamily(judged.data, family));
      return summary();
    },
    meters: () => judged.data.meters,
    setMeter: (_, meter) => edit(withMeter(judged.data, meter)),
    undo: async () => {
      const rules = earlier.at(-1);
      if (rules === undefined) return undefined;
      const before = judged;
      await commit({ ...judged.data, ...rules });
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
