import { CheckTable } from './check-table.ts';
import { Dictionary } from './dictionary.ts';
import type { ReadingLog } from './reading-log.ts';

/** New names for old ones; a name that is not there stays. Points are renamed within a family, named by its new name. */
export interface Renaming {
  readonly family: (name: string) => string;
  readonly point: (family: string, name: string) => string;
  readonly meter: (name: string) => string;
}

/** The log with other names; readings whose checks become one share it. */
export function renameLog(log: ReadingLog, renaming: Renaming): ReadingLog {
  const { names } = log;
  const families = new Dictionary();
  const points = new Dictionary();
  const meters = new Dictionary();
  const checks = new CheckTable();
  const meterCodes = Uint16Array.from(names.meters.labels, (name) => meters.intern(renaming.meter(name)));
  const checkCodes = Uint32Array.from({ length: names.checks.size }, (_, code) => {
    const family = renaming.family(names.families.label(names.checks.familyCode(code)));
    const point = renaming.point(family, names.points.label(names.checks.pointCode(code)));
    return checks.intern(
      families.intern(family),
      points.intern(point),
      names.checks.stageCode(code),
      names.checks.modeCode(code),
    );
  });
  return {
    ...log,
    names: { ...names, families, points, meters, checks },
    meter: log.meter.map((code) => meterCodes[code]!),
    check: log.check.map((code) => checkCodes[code]!),
  };
}
