import { CheckTable } from './check-table.ts';
import { LogBuilder } from './log-builder.ts';
import { newLogNames, type LogNames, type ReadingLog } from './reading-log.ts';
import { Dictionary } from './dictionary.ts';

/** A log without readings. */
export function emptyLog(): ReadingLog {
  return new LogBuilder(newLogNames(), 0).finish();
}

/** The readings of `first`, then those of `second`, with names of their own; neither is changed. */
export function appendLog(first: ReadingLog, second: ReadingLog): ReadingLog {
  const names = copyNames(first.names);
  const repair = second.names.repairs.mapInto(names.repairs);
  const meter = second.names.meters.mapInto(names.meters);
  const file = second.names.files.mapInto(names.files);
  const check = mapChecks(second.names, names);
  return {
    count: first.count + second.count,
    names,
    time: join(Float64Array, first.time, second.time),
    value: join(Float64Array, first.value, second.value),
    prefix: join(Int8Array, first.prefix, second.prefix),
    decimals: join(Uint8Array, first.decimals, second.decimals),
    state: join(Uint8Array, first.state, second.state),
    specimen: join(Uint8Array, first.specimen, second.specimen),
    repair: join(Uint32Array, first.repair, recode(second.repair, repair)),
    check: join(Uint32Array, first.check, recode(second.check, check)),
    meter: join(Uint16Array, first.meter, recode(second.meter, meter)),
    file: join(Uint16Array, first.file, recode(second.file, file)),
    line: join(Uint32Array, first.line, second.line),
  };
}

/** The rows at `rows`, in that order, as a log with the names that they use and no others. */
export function takeRows(log: ReadingLog, rows: Uint32Array): ReadingLog {
  const pick = <Kind extends Column>(column: Kind): Kind => {
    const Picked = column.constructor as new (length: number) => Kind;
    const result = new Picked(rows.length);
    for (let at = 0; at < rows.length; at += 1) result[at] = column[rows[at]!]!;
    return result;
  };
  const part: ReadingLog = {
    count: rows.length,
    names: log.names,
    time: pick(log.time),
    value: pick(log.value),
    prefix: pick(log.prefix),
    decimals: pick(log.decimals),
    state: pick(log.state),
    specimen: pick(log.specimen),
    repair: pick(log.repair),
    check: pick(log.check),
    meter: pick(log.meter),
    file: pick(log.file),
    line: pick(log.line),
  };
  return withUsedNames(part);
}

/** The log with only the names that its rows use, coded in order of their first use. */
function withUsedNames(log: ReadingLog): ReadingLog {
  const names = newLogNames();
  const used = <Codes extends Uint16Array | Uint32Array>(
    column: Codes,
    { size }: { readonly size: number },
    codeOf: (old: number) => number,
  ): Codes => {
    const codes = new Int32Array(size).fill(-1);
    return column.map((old) => {
      const known = codes[old]!;
      return known >= 0 ? known : (codes[old] = codeOf(old));
    }) as Codes;
  };
  const checkOf = (old: number): number => {
    const { checks, families, points } = log.names;
    const family = names.families.intern(families.label(checks.familyCode(old)));
    const point = names.points.intern(points.label(checks.pointCode(old)));
    return names.checks.intern(family, point, checks.stageCode(old), checks.modeCode(old));
  };
  return {
    ...log,
    names,
    repair: used(log.repair, log.names.repairs, (old) => names.repairs.intern(log.names.repairs.label(old))),
    check: used(log.check, log.names.checks, checkOf),
    meter: used(log.meter, log.names.meters, (old) => names.meters.intern(log.names.meters.label(old))),
    file: used(log.file, log.names.files, (old) => names.files.intern(log.names.files.label(old))),
  };
}

/**
 * The log with the family of each reading taken from its repair where the log itself names none.
 * @param familyOf - the family of a repair id, undefined where unknown
 */
export function resolveFamilies(log: ReadingLog, familyOf: (repair: string) => string | undefined): ReadingLog {
  const unnamed = log.names.families.find('');
  if (unnamed < 0) return log;
  const names = copyNames(log.names);
  const familyCode = Int32Array.from(log.names.repairs.labels, (repair) => {
    const family = familyOf(repair);
    return family === undefined ? unnamed : names.families.intern(family);
  });
  const check = log.check.slice();
  for (let row = 0; row < log.count; row += 1) {
    const old = check[row]!;
    if (names.checks.familyCode(old) !== unnamed) continue;
    const family = familyCode[log.repair[row]!]!;
    check[row] = names.checks.intern(
      family,
      names.checks.pointCode(old),
      names.checks.stageCode(old),
      names.checks.modeCode(old),
    );
  }
  return { ...log, names, check };
}

function copyNames(names: LogNames): LogNames {
  const checks = new CheckTable();
  for (let check = 0; check < names.checks.size; check += 1) {
    const table = names.checks;
    checks.intern(table.familyCode(check), table.pointCode(check), table.stageCode(check), table.modeCode(check));
  }
  return {
    repairs: new Dictionary(names.repairs.labels),
    families: new Dictionary(names.families.labels),
    points: new Dictionary(names.points.labels),
    meters: new Dictionary(names.meters.labels),
    files: new Dictionary(names.files.labels),
    checks,
  };
}

function mapChecks(source: LogNames, target: LogNames): Uint32Array {
  const family = source.families.mapInto(target.families);
  const point = source.points.mapInto(target.points);
  const codes = new Uint32Array(source.checks.size);
  for (let check = 0; check < codes.length; check += 1) {
    const table = source.checks;
    codes[check] = target.checks.intern(
      family[table.familyCode(check)]!,
      point[table.pointCode(check)]!,
      table.stageCode(check),
      table.modeCode(check),
    );
  }
  return codes;
}

function recode(column: Uint16Array | Uint32Array, codes: Uint32Array): Uint32Array {
  const result = new Uint32Array(column.length);
  for (let row = 0; row < column.length; row += 1) result[row] = codes[column[row]!]!;
  return result;
}

type Column = Float64Array | Int8Array | Uint8Array | Uint16Array | Uint32Array;

function join<Kind extends Column>(Joined: new (length: number) => Kind, first: Kind, second: ArrayLike<number>): Kind {
  const result = new Joined(first.length + second.length);
  result.set(first);
  result.set(second, first.length);
  return result;
}
