import { appendLog, emptyLog, takeRows } from '../../columns/append.ts';
import type { ReadingLog } from '../../columns/reading-log.ts';
import { NO_SETTINGS } from '../../domain/bench-settings.ts';
import type { ImportRecord } from '../../domain/import-record.ts';
import { GO_BACK_RULES, type GoBackRule, type Overrule } from '../../judging/go-back.ts';
import type { Keeper } from '../../store/keeper.ts';
import type { BenchState, EditNote, KeptBench, KeptImport } from '../../store/kept.ts';
import { EMPTY_BENCH, type BenchData } from './bench-data.ts';

/** The bytes of files that were just brought in, by hash. */
export type Originals = ReadonlyMap<string, Uint8Array>;

/** Keeps one bench: tells what changed since it last kept it, and has just that stored. */
export class Keeping {
  readonly #keeper: Keeper;
  #kept: BenchData;
  #last: Promise<unknown> = Promise.resolve();

  /** @param kept - the bench as the keeper holds it */
  constructor(keeper: Keeper, kept: BenchData) {
    this.#keeper = keeper;
    this.#kept = kept;
  }

  /**
   * Stores whatever differs from what was stored last; one change after the other.
   * @returns hashes of new imports that another tab had stored already
   * @throws StoreError; what the keeper then holds is told by its `load`
   */
  keep(
    data: BenchData,
    originals: Originals = new Map(),
    signal?: AbortSignal,
    note: EditNote = {},
  ): Promise<ReadonlySet<string>> {
    const done = this.#last.then(() => this.#store(data, originals, signal, note));
    this.#last = done.catch(() => undefined);
    return done;
  }

  /** The number of the journal's entry that was made last. */
  get lastEntry(): number | undefined {
    return this.#keeper.lastEntry;
  }

  async #store(
    data: BenchData,
    originals: Originals,
    signal: AbortSignal | undefined,
    note: EditNote,
  ): Promise<ReadonlySet<string>> {
    const known = new Set<string>();
    const before = this.#kept;
    const present = new Set(heldImports(data).map(({ hash }) => hash));
    for (const { hash } of heldImports(before)) if (!present.has(hash)) await this.#keeper.removeImport(hash);
    const changed = data.imports.filter((record) => isChanged(record, before, data));
    let state: Partial<BenchState> | undefined = stateOf(data);
    for (const record of changed) {
      const bytes = originals.get(record.hash) ?? (await this.#keeper.originalBytes(record.hash));
      const given = { ...importOf(data, record), bytes };
      const replaces = heldImports(before).some(({ hash }) => hash === record.hash);
      const saved = await this.#keeper.addImport(given, state, { replaces, ...note, ...(signal && { signal }) });
      if (saved === 'known') known.add(record.hash);
      else state = undefined;
    }
    if (state !== undefined) await this.#keeper.saveState(state, note);
    this.#kept = data;
    return known;
  }
}

/** A bench as it was kept; families and names are settled by the caller. */
export function benchFromKept(kept: KeptBench): BenchData {
  const undone = kept.edits.filter((edit) => edit.undone === true);
  const isWithheld = ({ record }: KeptImport): boolean => undone.some(({ added }) => added === record.file);
  const imports = kept.imports.filter((one) => !isWithheld(one));
  const logs = imports.flatMap(({ log }) => log ?? []);
  return {
    ...withRules(EMPTY_BENCH, kept),
    log: joinLogs(logs),
    imports: imports.map(({ record }) => record),
    setAside: imports.flatMap(({ setAside }) => setAside),
    plans: new Map(imports.flatMap(({ record, plan }) => (plan ? [[record.file, plan] as const] : []))),
    maps: new Map(kept.maps.map(({ header, plan }) => [header, plan])),
    aliases: kept.names,
    edits: { steps: kept.edits.filter((edit) => edit.undone !== true), undone },
    withheld: new Map(kept.imports.filter(isWithheld).map((one) => [one.record.file, one])),
  };
}

/** The bench with all that is changed by hand one item at a time as a state has it. */
export function withRules(data: BenchData, state: BenchState): BenchData {
  return {
    ...data,
    families: new Map(state.families.map((family) => [family.name, family])),
    bands: state.bands,
    earlierBands: state.earlierBands,
    repairs: new Map(state.repairs.map((repair) => [repair.id, repair])),
    overrules: state.overrules.filter((line): line is Overrule => isRule(line.rule)),
    meters: state.meters,
    settings: state.settings[0] ?? NO_SETTINGS,
    views: state.views,
  };
}

/** All of a bench that can be edited, as it is kept. */
export function stateOf(data: BenchData): BenchState {
  return {
    families: [...data.families.values()],
    bands: data.bands,
    earlierBands: data.earlierBands,
    repairs: [...data.repairs.values()],
    meters: data.meters,
    maps: [...data.maps].map(([header, plan]) => ({ header, plan })),
    names: data.aliases,
    overrules: data.overrules,
    edits: data.edits.undone.length === 0 ? data.edits.steps : [...data.edits.steps, ...data.edits.undone],
    settings: data.settings === NO_SETTINGS ? [] : [data.settings],
    views: data.views,
  };
}

/** The imports of a bench with those that can come back by doing an edit again. */
function heldImports(data: BenchData): readonly ImportRecord[] {
  return [...data.imports, ...[...data.withheld.values()].map(({ record }) => record)];
}

/** Whether an import is new, or its rows were mended or let go since it was kept. */
function isChanged(record: ImportRecord, before: BenchData, data: BenchData): boolean {
  const earlier = heldImports(before).find(({ hash }) => hash === record.hash);
  if (earlier?.taken !== record.taken) return true;
  const setAside = (bench: BenchData): number =>
    bench.withheld.get(record.file)?.setAside.length ??
    bench.setAside.filter(({ file }) => file === record.file).length;
  return setAside(before) !== setAside(data);
}

/** One import as it is kept. */
export function importOf(data: BenchData, record: ImportRecord): KeptImport {
  const file = data.log.names.files.find(record.file);
  const rows = data.log.file.reduce<number[]>((own, code, row) => {
    if (code === file) own.push(row);
    return own;
  }, []);
  const plan = data.plans.get(record.file);
  return {
    record,
    ...(file >= 0 && { log: takeRows(data.log, Uint32Array.from(rows)) }),
    setAside: data.setAside.filter((one) => one.file === record.file),
    ...(plan && { plan }),
  };
}

/** Joins logs pairwise, so that each reading is copied a few times however many logs there are. */
function joinLogs(logs: readonly ReadingLog[]): ReadingLog {
  const [first, second] = logs;
  if (first === undefined) return emptyLog();
  if (second === undefined) return first;
  const middle = Math.ceil(logs.length / 2);
  return appendLog(joinLogs(logs.slice(0, middle)), joinLogs(logs.slice(middle)));
}

function isRule(rule: string): rule is GoBackRule {
  return Object.hasOwn(GO_BACK_RULES, rule);
}
