import { appendLog, resolveFamilies, takeRows } from '../../columns/append.ts';
import { newRows } from '../../columns/known-rows.ts';
import type { ReadingLog } from '../../columns/reading-log.ts';
import type { Band } from '../../domain/band.ts';
import type { DeclaredFamily, Family } from '../../domain/family.ts';
import type { Meter } from '../../domain/meter.ts';
import type { Repair } from '../../domain/repair.ts';
import type { FileContents } from '../../intake/file-contents.ts';
import type { BenchData } from './bench-data.ts';
import { bandPlace, withBands, withMeters } from './edits.ts';
import { mergedFamily, mergedMeter, mergedRepair } from './merge-tables.ts';
import { withAliases } from './names.ts';

/** What a table of repairs, bands or meters brought, kept apart so that it can be taken back. */
export interface TableContents {
  readonly repairs: readonly Repair[];
  readonly families: readonly DeclaredFamily[];
  readonly bands: readonly Band[];
  readonly meters: readonly Meter[];
}

/**
 * The bench with one file's contents. Readings that it holds already are left out; what a table says of repairs,
 * families and meters is added to them or changes them, bands take the place of those of the same place; nothing else goes.
 * @param key - names the import, so that its tables can be taken back
 */
export function withContents(
  data: BenchData,
  key: string,
  contents: FileContents,
): { readonly data: BenchData; readonly known: number } {
  if (contents.shape === 'readings') {
    // Both are compared under the names that they stand for, else a reading told its family later would come in twice.
    const added = settled({ ...data, log: contents.log }).log;
    const fresh = data.log.count === 0 ? added : unknownPart(data.log, added);
    const log = data.log.count === 0 ? fresh : appendLog(data.log, fresh);
    return { data: { ...data, log }, known: contents.log.count - fresh.count };
  }
  const brought = broughtBy(contents);
  const tables = new Map([...data.tables, [key, joined(data.tables.get(key), brought)]]);
  return { data: settled({ ...withTable(data, brought), tables }), known: 0 };
}

/** The bench with families told by repairs and names told by answers. */
export function settled(data: BenchData): BenchData {
  const log = resolveFamilies(data.log, (repair) => data.repairs.get(repair)?.family);
  return withAliases({ ...data, log });
}

/** What the contents of a table are, by kind. */
export function broughtBy(contents: FileContents): TableContents {
  return {
    repairs: contents.shape === 'repairs' ? contents.repairs : [],
    families: contents.shape === 'bands' ? contents.families : [],
    bands: contents.shape === 'bands' ? contents.bands : [],
    meters: contents.shape === 'meters' ? contents.meters : [],
  };
}

/** The bench without one import: its readings go, and what its tables brought gives way to what earlier ones had, unless it was edited since. */
export function withoutImport(data: BenchData, hash: string): BenchData {
  const record = data.imports.find((one) => one.hash === hash);
  if (record === undefined) return data;
  const file = data.log.names.files.find(record.file);
  const rows = data.log.line.map((_, row) => row).filter((row) => data.log.file[row] !== file);
  const rest: BenchData = {
    ...data,
    log: rows.length === data.log.count ? data.log : takeRows(data.log, rows),
    imports: data.imports.filter((one) => one.hash !== hash),
    setAside: data.setAside.filter((one) => one.file !== record.file),
    plans: new Map([...data.plans].filter(([name]) => name !== record.file)),
    tables: new Map([...data.tables].filter(([key]) => key !== hash)),
  };
  const gone = data.tables.get(hash);
  return gone === undefined ? rest : withoutTable(rest, data.tables, gone);
}

function withoutTable(data: BenchData, tables: BenchData['tables'], gone: TableContents): BenchData {
  const before = told(data, tables);
  const earlier = told(data, data.tables);
  const edited = <Item>(present: Iterable<Item>, brought: Iterable<Item>): Item[] => {
    const texts = new Set(Array.from(brought, (item) => JSON.stringify(item)));
    return [...present].filter((item) => !texts.has(JSON.stringify(item)));
  };
  const repairs = edited(data.repairs.values(), before.repairs.values());
  const families = edited(data.families.values(), before.families.values());
  const meters = edited(data.meters, before.meters);
  const rest: BenchData = {
    ...withMeters(earlier, meters),
    repairs: new Map([...earlier.repairs, ...repairs.map((repair) => [repair.id, repair] as const)]),
    families: new Map([...earlier.families, ...families.map((family) => [family.name, family] as const)]),
  };
  return { ...withChangedBands(rest, edited(data.bands, gone.bands)), earlierBands: data.earlierBands };
}

/** The bench with what some tables brought, one over the other, and nothing else of their kinds. */
function told(data: BenchData, tables: BenchData['tables']): BenchData {
  const nothing = { repairs: new Map(), families: new Map(), bands: [], earlierBands: [], meters: [] };
  return [...tables.values()].reduce<BenchData>(withTable, { ...data, ...nothing });
}

function withTable(data: BenchData, { repairs, families, bands, meters }: TableContents): BenchData {
  const repairsNow = new Map(data.repairs);
  for (const repair of repairs) repairsNow.set(repair.id, mergedRepair(repairsNow.get(repair.id), repair));
  const familiesNow = new Map<string, Family>(data.families);
  for (const family of families) familiesNow.set(family.name, mergedFamily(familiesNow.get(family.name), family));
  const known = new Map(data.meters.map((meter) => [meter.name, meter]));
  const metersNow = meters.map((meter) => mergedMeter(known.get(meter.name), meter));
  return withChangedBands({ ...withMeters(data, metersNow), repairs: repairsNow, families: familiesNow }, bands);
}

function withChangedBands(data: BenchData, bands: readonly Band[]): BenchData {
  const present = new Map(data.bands.map((band) => [bandPlace(band), JSON.stringify(band)]));
  return withBands(data, bands.filter((band) => present.get(bandPlace(band)) !== JSON.stringify(band))); // prettier-ignore
}

function unknownPart(present: ReadingLog, added: ReadingLog): ReadingLog {
  const rows = newRows(present, added);
  return rows.length === added.count ? added : takeRows(added, rows);
}

function joined(first: TableContents | undefined, second: TableContents): TableContents {
  if (first === undefined) return second;
  return {
    repairs: [...first.repairs, ...second.repairs],
    families: [...first.families, ...second.families],
    bands: [...first.bands, ...second.bands],
    meters: [...first.meters, ...second.meters],
  };
}
