import { appendLog, takeRows } from '../../columns/append.ts';
import { newRows } from '../../columns/known-rows.ts';
import type { ReadingLog } from '../../columns/reading-log.ts';
import type { Band } from '../../domain/band.ts';
import type { Family } from '../../domain/family.ts';
import type { Meter } from '../../domain/meter.ts';
import type { Repair } from '../../domain/repair.ts';
import type { FileContents } from '../../intake/file-contents.ts';
import type { BenchData } from './bench-data.ts';
import { bandPlace, withBands, withMeters } from './edits.ts';

/** What a table of repairs, bands or meters brought, kept apart so that it can be taken back. */
export interface TableContents {
  readonly repairs: readonly Repair[];
  readonly families: readonly Family[];
  readonly bands: readonly Band[];
  readonly meters: readonly Meter[];
}

/**
 * The bench with one file's contents. Readings that it holds already are left out; repairs, families and meters take the place of those of the
 * same name, bands of those of the same place.
 * @param key - names the import, so that its tables can be taken back
 */
export function withContents(
  data: BenchData,
  key: string,
  contents: FileContents,
): { readonly data: BenchData; readonly known: number } {
  if (contents.shape === 'readings') {
    const fresh = data.log.count === 0 ? contents.log : unknownPart(data.log, contents.log);
    const log = data.log.count === 0 ? fresh : appendLog(data.log, fresh);
    return { data: { ...data, log }, known: contents.log.count - fresh.count };
  }
  const brought = broughtBy(contents);
  const tables = new Map([...data.tables, [key, joined(data.tables.get(key), brought)]]);
  return { data: { ...withTable(data, brought), tables }, known: 0 };
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
  return gone === undefined ? rest : withoutTable(rest, gone);
}

function withoutTable(data: BenchData, gone: TableContents): BenchData {
  const earlier = [...data.tables.values()].reduce<BenchData>(withTable, {
    ...data,
    repairs: new Map(),
    families: new Map(),
    bands: [],
    earlierBands: [],
    meters: [],
  });
  const others = <Item>(present: readonly Item[], removed: readonly Item[]): Item[] => {
    const texts = new Set(removed.map((item) => JSON.stringify(item)));
    return present.filter((item) => !texts.has(JSON.stringify(item)));
  };
  const repairs = others([...data.repairs.values()], gone.repairs);
  const families = others([...data.families.values()], gone.families);
  const bands = others(data.bands, gone.bands);
  const meters = others(data.meters, gone.meters);
  return { ...withTable(earlier, { repairs, families, bands, meters }), earlierBands: data.earlierBands };
}

function withTable(data: BenchData, { repairs, families, bands, meters }: TableContents): BenchData {
  const present = new Map(data.bands.map((band) => [bandPlace(band), JSON.stringify(band)]));
  const changed = bands.filter((band) => present.get(bandPlace(band)) !== JSON.stringify(band));
  return withBands(
    {
      ...withMeters(data, meters),
      repairs: new Map([...data.repairs, ...repairs.map((repair) => [repair.id, repair] as const)]),
      families: new Map([...data.families, ...families.map((family) => [family.name, family] as const)]),
    },
    changed,
  );
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
