import { isPowered } from '../../domain/reading.ts';
import { maskedBy, type Family } from '../../domain/family.ts';
import { evidenceOf } from '../../judging/evidence.ts';
import { secondsPerCheck } from '../../patterns/check-seconds.ts';
import type { ExaminedRepair } from '../../patterns/examined-repair.ts';
import { minutesAtBench } from '../../patterns/minutes-at-bench.ts';
import { partsBadInCircuit } from '../../patterns/parts-bad-in-circuit.ts';
import type { ProbingCheck } from '../../patterns/probing-order.ts';
import { usualOrder } from '../../patterns/usual-order.ts';
import { familyNamed, familyNames, type Judged } from './bench-data.ts';
import { repairLines, rowsOf } from './repair-stories.ts';

/** The repairs of one family with what their readings prove. */
export interface ExaminedFamily {
  readonly family: Family;
  readonly repairs: readonly ExaminedRepair[];
}

const examined = new WeakMap<Judged, ReadonlyMap<string, ExaminedFamily>>();

/** All families of a bench, each repair examined once for each judging. */
export function examineFamilies(judged: Judged): ReadonlyMap<string, ExaminedFamily> {
  const known = examined.get(judged);
  if (known !== undefined) return known;
  const byFamily = new Map<string, string[]>();
  for (const { repair } of repairLines(judged)) {
    const ids = byFamily.get(repair.family);
    if (ids) ids.push(repair.id);
    else byFamily.set(repair.family, [repair.id]);
  }
  const families = new Map<string, ExaminedFamily>();
  for (const name of familyNames(judged.data)) {
    // A family may be known from the table of repairs alone.
    const family = familyNamed(judged.data, name) ?? { name, boost: false, points: [], parts: [] };
    families.set(name, { family, repairs: (byFamily.get(name) ?? []).map((id) => examine(judged, id, family)) });
  }
  examined.set(judged, families);
  return families;
}

/** The checks as received of a family's parts, with the seconds that the bench takes for each. */
export function probingChecks(judged: Judged, family: Family): readonly ProbingCheck[] {
  const { log } = judged.data;
  const { checks, families, points } = log.names;
  return [...secondsPerCheck(log, judged.rowsByRepair)].flatMap(([check, { seconds }]) => {
    const isOwn = families.label(checks.familyCode(check)) === family.name && checks.stage(check) === 'as received';
    const point = family.points.find(({ name }) => name === points.label(checks.pointCode(check)));
    if (!isOwn || point?.part === undefined) return [];
    return [{ point: point.name, shows: [point.part, ...maskedBy(family.parts, point.part)], seconds }];
  });
}

/** The order in which the bench probes these repairs as received. */
export function orderInUse(judged: Judged, repairs: readonly ExaminedRepair[]): readonly string[] {
  const { log } = judged.data;
  const { checks, points } = log.names;
  const sequences = repairs.map(({ repair }) =>
    Array.from(rowsOf(judged, repair))
      .filter((row) => checks.stage(log.check[row]!) === 'as received')
      .map((row) => points.label(checks.pointCode(log.check[row]!))),
  );
  return usualOrder(sequences);
}

/** The powered checks of a family that its readings name. */
export function poweredChecks(judged: Judged, family: string): readonly number[] {
  const { checks, families } = judged.data.log.names;
  return Array.from({ length: checks.size }, (_, check) => check).filter(
    (check) => families.label(checks.familyCode(check)) === family && isPowered(checks.stage(check)),
  );
}

function examine(judged: Judged, id: string, family: Family): ExaminedRepair {
  const { log, repairs } = judged.data;
  const rows = rowsOf(judged, id);
  const record = repairs.get(id);
  const times = Array.from(rows, (row) => log.time[row]!).filter((time) => !Number.isNaN(time));
  const minutes = minutesAtBench(times);
  const [started] = times;
  return {
    repair: id,
    evidence: evidenceOf(log, judged.verdicts, rows, family),
    replaced: new Set(record?.replaced),
    badInCircuit: partsBadInCircuit(log, judged.verdicts, rows, family),
    ...(record && { record }),
    ...(started !== undefined && { started }),
    ...(minutes !== undefined && { minutes }),
  };
}
