import { appendLog, emptyLog, takeRows } from '../../columns/append.ts';
import type { ReadingLog } from '../../columns/reading-log.ts';
import type { ImportRecord } from '../../domain/import-record.ts';
import { GO_BACK_RULES, type GoBackRule, type Overrule } from '../../judging/go-back.ts';
import type { Keeper } from '../../store/keeper.ts';
import type { BenchState, KeptBench, KeptImport } from '../../store/kept.ts';
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
   * @throws StoreError; what the keeper then holds is told by its `load`
   */
  keep(data: BenchData, originals: Originals = new Map(), signal?: AbortSignal): Promise<void> {
    const done = this.#last.then(() => this.#store(data, originals, signal));
    this.#last = done.catch(() => undefined);
    return done;
  }

  async #store(data: BenchData, originals: Originals, signal: AbortSignal | undefined): Promise<void> {
    const before = this.#kept;
    const present = new Map(data.imports.map((record) => [record.hash, record]));
    for (const { hash } of before.imports) if (!present.has(hash)) await this.#keeper.removeImport(hash);
    const changed = data.imports.filter((record) => isChanged(record, before, data));
    let state: Partial<BenchState> | undefined = stateOf(data);
    for (const record of changed) {
      const bytes = originals.get(record.hash) ?? (await this.#keeper.originalBytes(record.hash));
      if (before.imports.some(({ hash }) => hash === record.hash)) await this.#keeper.removeImport(record.hash);
      await this.#keeper.addImport({ ...importOf(data, record), bytes }, state, signal ? { signal } : {});
      state = undefined;
    }
    if (state !== undefined) await this.#keeper.saveState(state);
    this.#kept = data;
  }
}

/** A bench as it was kept; families and names are settled by the caller. */
export function benchFromKept(kept: KeptBench): BenchData {
  const logs = kept.imports.flatMap(({ log }) => log ?? []);
  return {
    ...EMPTY_BENCH,
    log: joinLogs(logs),
    families: new Map(kept.families.map((family) => [family.name, family])),
    bands: kept.bands,
    earlierBands: kept.earlierBands,
    repairs: new Map(kept.repairs.map((repair) => [repair.id, repair])),
    overrules: kept.overrules.filter((line): line is Overrule => isRule(line.rule)),
    meters: kept.meters,
    imports: kept.imports.map(({ record }) => record),
    setAside: kept.imports.flatMap(({ setAside }) => setAside),
    plans: new Map(kept.imports.flatMap(({ record, plan }) => (plan ? [[record.file, plan] as const] : []))),
    maps: new Map(kept.maps.map(({ header, plan }) => [header, plan])),
    aliases: kept.names,
    edits: { steps: kept.edits, undone: [] },
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
    edits: data.edits.steps,
  };
}

/** Whether an import is new, or its rows were mended or let go since it was kept. */
function isChanged(record: ImportRecord, before: BenchData, data: BenchData): boolean {
  const earlier = before.imports.find(({ hash }) => hash === record.hash);
  if (earlier?.taken !== record.taken) return true;
  const setAside = (bench: BenchData): number => bench.setAside.filter(({ file }) => file === record.file).length;
  return setAside(before) !== setAside(data);
}

function importOf(data: BenchData, record: ImportRecord): KeptImport {
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
