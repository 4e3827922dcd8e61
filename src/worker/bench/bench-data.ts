import { emptyLog } from '../../columns/append.ts';
import type { ReadingLog } from '../../columns/reading-log.ts';
import { orderByCode, orderByNumber, identityOrder } from '../../columns/order.ts';
import type { Band } from '../../domain/band.ts';
import { NO_SETTINGS, type BenchSettings } from '../../domain/bench-settings.ts';
import { pointFromName, type Family, type TestPoint } from '../../domain/family.ts';
import type { FilePlan } from '../../domain/file-plan.ts';
import type { ImportRecord, SetAside } from '../../domain/import-record.ts';
import type { KeptView } from '../../domain/kept-view.ts';
import type { Meter } from '../../domain/meter.ts';
import type { NameAnswer } from '../../domain/name-answer.ts';
import type { Repair } from '../../domain/repair.ts';
import { compileBands } from '../../judging/band-table.ts';
import type { Overrule } from '../../judging/go-back.ts';
import { judgeLog, type Standard } from '../../judging/judge.ts';
import { mainsByRepair } from '../../judging/mains.ts';
import { compileMeters } from '../../judging/uncertainty.ts';
import type { KeptImport } from '../../store/kept.ts';
import type { TableContents } from './contents.ts';
import { NO_EDITS, type EditJournal } from './reading-edits.ts';

/** All that a bench knows. Never mutated: every change makes a new one. */
export interface BenchData {
  readonly log: ReadingLog;
  /** What was edited by hand. As a bench keeps it, the log is without these edits; as it is judged, with them. */
  readonly edits: EditJournal;
  /** Imports of rows added by hand whose adding was taken back, by their file's name: it can be done again. */
  readonly withheld: ReadonlyMap<string, KeptImport>;
  readonly families: ReadonlyMap<string, Family>;
  readonly bands: readonly Band[];
  /** Bands that others took the place of, oldest first. */
  readonly earlierBands: readonly Band[];
  readonly repairs: ReadonlyMap<string, Repair>;
  /** Lines that a technician lets pass although they do not hold, at most one for each repair and rule. */
  readonly overrules: readonly Overrule[];
  readonly meters: readonly Meter[];
  readonly imports: readonly ImportRecord[];
  readonly setAside: readonly SetAside[];
  /** How each import was read, by its file's name. */
  readonly plans: ReadonlyMap<string, FilePlan>;
  /** What tables brought, by the hash of their file. */
  readonly tables: ReadonlyMap<string, TableContents>;
  /** How files were read whose columns the technician settled, by their header's signature. */
  readonly maps: ReadonlyMap<string, FilePlan>;
  /** What the technician said of names that were not known. */
  readonly aliases: readonly NameAnswer[];
  readonly settings: BenchSettings;
  /** Views of the readings kept under names. */
  readonly views: readonly KeptView[];
}

/** What follows from a bench's data by judging; recomputed with it, never stored. */
export interface Judged {
  readonly data: BenchData;
  readonly standard: Standard;
  readonly verdicts: Uint8Array;
  /** Rows of each repair by repair code, in order of time; rows of one moment in order of their files' names, then as the file has them. */
  readonly rowsByRepair: readonly Uint32Array[];
}

export const EMPTY_BENCH: BenchData = {
  log: emptyLog(),
  edits: NO_EDITS,
  withheld: new Map(),
  families: new Map(),
  bands: [],
  earlierBands: [],
  repairs: new Map(),
  overrules: [],
  meters: [],
  imports: [],
  setAside: [],
  plans: new Map(),
  tables: new Map(),
  maps: new Map(),
  aliases: [],
  settings: NO_SETTINGS,
  views: [],
};

/** Judges all readings of a bench. */
export function judgeBench(data: BenchData): Judged {
  const { log, bands, meters, families } = data;
  const standard: Standard = {
    table: compileBands(log.names, bands, families),
    accuracies: compileMeters(log.names, meters),
    mains: mainsByRepair(log),
  };
  return { data, standard, verdicts: judgeLog(log, standard), rowsByRepair: groupByRepair(log) };
}

/** Whether two benches declare the very same families: taking a change of something else back makes the map anew, but not what it holds. */
export function sameFamilies(one: BenchData['families'], other: BenchData['families']): boolean {
  return one === other || (one.size === other.size && [...one].every(([name, family]) => other.get(name) === family));
}

/** A family by name, with points that only its readings name put beside the declared ones; undefined where nothing names it. */
export function familyNamed(data: BenchData, name: string): Family | undefined {
  const declared = data.families.get(name);
  const seen = seenPoints(data.log, name);
  if (declared === undefined && seen.length === 0) return undefined;
  const known = new Set(declared?.points.map((point) => point.name));
  const added = seen.filter((point) => !known.has(point.name));
  return {
    name,
    boost: declared?.boost ?? false,
    points: [...(declared?.points ?? []), ...added],
    parts: declared?.parts ?? [],
  };
}

/** Names of all families that a table or a reading names, in natural order; readings without a family count under none. */
export function familyNames(data: BenchData): readonly string[] {
  const { checks, families } = data.log.names;
  const names = new Set(data.families.keys());
  for (let check = 0; check < checks.size; check += 1) names.add(families.label(checks.familyCode(check)));
  for (const repair of data.repairs.values()) names.add(repair.family);
  names.delete('');
  return [...names].sort(new Intl.Collator('en', { numeric: true }).compare);
}

function seenPoints(log: ReadingLog, family: string): readonly TestPoint[] {
  const { checks, families, points } = log.names;
  const code = families.find(family);
  const seen = new Set<number>();
  for (let check = 0; check < checks.size; check += 1) {
    if (checks.familyCode(check) === code) seen.add(checks.pointCode(check));
  }
  return [...seen].map((point) => pointFromName(points.label(point)));
}

/** All rows in order of their files' names, so that the order in which files were brought in tells nothing. */
function inOrderOfFiles({ count, file, names: { files } }: ReadingLog): Uint32Array {
  const sorted = [...files.labels].sort();
  const rank = new Map(sorted.map((label, place) => [label, place]));
  const places = Uint32Array.from(files.labels, (label) => rank.get(label)!);
  const key = Uint32Array.from(file, (code) => places[code]!);
  return orderByCode(identityOrder(count), key, files.size);
}

function groupByRepair(log: ReadingLog): readonly Uint32Array[] {
  const count = log.names.repairs.size;
  const ordered = orderByCode(orderByNumber(inOrderOfFiles(log), log.time), log.repair, count);
  const groups: Uint32Array[] = [];
  let start = 0;
  for (let repair = 0; repair < count; repair += 1) {
    let end = start;
    while (end < ordered.length && log.repair[ordered[end]!] === repair) end += 1;
    groups.push(ordered.subarray(start, end));
    start = end;
  }
  return groups;
}
