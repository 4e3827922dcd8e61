import { maskedBy, type Family } from '../../domain/family.ts';
import { evidenceOf } from '../../judging/evidence.ts';
import { shareAlike } from '../../patterns/alike.ts';
import { secondsPerCheck } from '../../patterns/check-seconds.ts';
import { examinedRepair, type Examination, type ExaminedRepair } from '../../patterns/examined-repair.ts';
import { minutesAtBench } from '../../patterns/minutes-at-bench.ts';
import { partsBadInCircuit } from '../../patterns/parts-bad-in-circuit.ts';
import type { ProbingCheck } from '../../patterns/probing-order.ts';
import { usualOrder } from '../../patterns/usual-order.ts';
import { comebacksOf } from './comebacks.ts';
import { familyNamed, familyNames, type Judged } from './bench-data.ts';
import type { PacedWork } from './paced-work.ts';
import { remembered } from './remembered.ts';
import { repairLines, rowsOf } from './repair-lines.ts';

/** The repairs of one family with what their readings prove. */
export interface ExaminedFamily {
  readonly family: Family;
  readonly repairs: readonly ExaminedRepair[];
}

/** What has been examined, by family. */
const examinedOf = remembered(() => new Map<string, ExaminedFamily>());

/** The ids of a family's repairs, by its name, in natural order; families without a repair are among them. */
export const repairsByFamily = remembered((judged): ReadonlyMap<string, readonly string[]> => {
  const families = new Map(familyNames(judged.data).map((name): [string, string[]] => [name, []]));
  for (const { repair } of repairLines(judged)) families.get(repair.family)?.push(repair.id);
  return families;
});

/** A family with its repairs examined; undefined where nothing names it. */
export function examineFamily(judged: Judged, name: string): ExaminedFamily | undefined {
  const known = examinedOf(judged).get(name);
  if (known !== undefined) return known;
  const ids = repairsByFamily(judged).get(name);
  if (ids === undefined) return undefined;
  const family = declaredOrSeen(judged, name);
  const share = shareAlike();
  return keep(judged, { family, repairs: ids.map((id) => examine(judged, id, family, share)) });
}

/** All families of a bench, each repair examined once for each judging. */
export function examineFamilies(judged: Judged): readonly ExaminedFamily[] {
  return [...repairsByFamily(judged).keys()].map((name) => examineFamily(judged, name)!);
}

/** The same in steps, one for each family. */
export async function examineFamiliesPaced(judged: Judged, work: PacedWork): Promise<readonly ExaminedFamily[]> {
  const families: ExaminedFamily[] = [];
  for (const [name, ids] of repairsByFamily(judged)) {
    let known = examinedOf(judged).get(name);
    if (known === undefined) {
      const family = declaredOrSeen(judged, name);
      const repairs: ExaminedRepair[] = [];
      const share = shareAlike();
      for (const id of ids) {
        repairs.push(examine(judged, id, family, share));
        if (repairs.length % REPAIRS_A_STEP === 0) await work.step(0);
      }
      known = keep(judged, { family, repairs });
    }
    families.push(known);
    await work.step();
  }
  return families;
}

const REPAIRS_A_STEP = 200;

function keep(judged: Judged, family: ExaminedFamily): ExaminedFamily {
  examinedOf(judged).set(family.family.name, family);
  return family;
}

/** A family may be known from the table of repairs alone. */
function declaredOrSeen(judged: Judged, name: string): Family {
  return familyNamed(judged.data, name) ?? { name, boost: false, points: [], parts: [] };
}

/** The checks as received of a family's parts, with the seconds that the bench takes for each. */
export function probingChecks(judged: Judged, family: Family): readonly ProbingCheck[] {
  const { log } = judged.data;
  const { checks, families, points } = log.names;
  return [...secondsOf(judged)].flatMap(([check, { seconds }]) => {
    const isOwn = families.label(checks.familyCode(check)) === family.name && checks.stage(check) === 'as received';
    const point = family.points.find(({ name }) => name === points.label(checks.pointCode(check)));
    if (!isOwn || point?.part === undefined) return [];
    return [{ point: point.name, shows: [point.part, ...maskedBy(family.parts, point.part)], seconds }];
  });
}

/** The seconds that the bench takes to lift each part of a family and measure it, by the part; of several checks of it, the quickest. */
export function liftingSeconds(judged: Judged, family: Family): ReadonlyMap<string, number> {
  const { checks, families, points } = judged.data.log.names;
  const lifting = new Map<string, number>();
  for (const [check, { seconds }] of secondsOf(judged)) {
    if (families.label(checks.familyCode(check)) !== family.name || checks.stage(check) !== 'part out') continue;
    const part = family.points.find(({ name }) => name === points.label(checks.pointCode(check)))?.part;
    if (part !== undefined) lifting.set(part, Math.min(seconds, lifting.get(part) ?? Infinity));
  }
  return lifting;
}

const secondsOf = remembered((judged) => secondsPerCheck(judged.data.log, judged.rowsByRepair));

/** The points of repairs that were probed as received, in order of time, by the repair. */
interface Probed {
  readonly points: Map<string, readonly string[]>;
  readonly share: ReturnType<typeof shareAlike>;
}

const probedOf = remembered((): Probed => ({ points: new Map(), share: shareAlike() }));

/** The order in which the bench probes these repairs as received. */
export function orderInUse(judged: Judged, repairs: readonly ExaminedRepair[]): readonly string[] {
  const known = probedOf(judged);
  return usualOrder(
    repairs.map(({ repair }) => {
      const points = known.points.get(repair) ?? known.share(pointsProbed(judged, repair));
      known.points.set(repair, points);
      return points;
    }),
  );
}

/** The points of a repair that were probed as received, in order of time. */
function pointsProbed(judged: Judged, repair: string): readonly string[] {
  const { log } = judged.data;
  const { checks, points } = log.names;
  return Array.from(rowsOf(judged, repair), (row) => log.check[row]!)
    .filter((check) => checks.stage(check) === 'as received')
    .map((check) => points.label(checks.pointCode(check)));
}

function examine(judged: Judged, id: string, family: Family, share: ReturnType<typeof shareAlike>): ExaminedRepair {
  const { log, repairs } = judged.data;
  const rows = rowsOf(judged, id);
  const record = repairs.get(id);
  const times = Array.from(rows, (row) => log.time[row]!).filter((time) => !Number.isNaN(time));
  const minutes = minutesAtBench(times);
  const [started] = times;
  const cameBack = comebacksOf(judged).get(id);
  const known: Examination = {
    repair: id,
    evidence: evidenceOf(log, judged.verdicts, rows, family),
    replaced: new Set(record?.replaced),
    badInCircuit: partsBadInCircuit(log, judged.verdicts, rows, family),
    ...(record && { record }),
    ...(started !== undefined && { started }),
    ...(minutes !== undefined && { minutes }),
    ...(cameBack !== undefined && { cameBack }),
  };
  return examinedRepair(known, share);
}
