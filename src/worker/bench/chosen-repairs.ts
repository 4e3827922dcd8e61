import { partClass } from '../../domain/family.ts';
import type { ExaminedRepair } from '../../patterns/examined-repair.ts';
import type { FamilyChoices, RepairsChosen, RepairsQuery } from '../contract/families.ts';
import type { Judged } from './bench-data.ts';
import { examineFamilies, examineFamily, type ExaminedFamily } from './examine.ts';
import { remembered } from './remembered.ts';
import { rowsOf } from './repair-lines.ts';

/** The repairs of a family that a page's filters leave. */
export function chosenOf(
  judged: Judged,
  { repairs }: ExaminedFamily,
  { from, to, complaint, meter, bench }: RepairsChosen,
): readonly ExaminedRepair[] {
  const meters = meter === undefined ? undefined : metersByRepair(judged);
  return repairs.filter(
    ({ repair, begun, record }) =>
      (from === undefined || begun >= from) &&
      (to === undefined || begun <= to) &&
      (complaint === undefined || record?.complaint === complaint) &&
      (bench === undefined || record?.bench === bench) &&
      (meter === undefined || meters?.get(repair)?.has(meter) === true),
  );
}

const choices = new WeakMap<ExaminedFamily, FamilyChoices>();

/** What the filters of a family's page can be set to. */
export function choicesOf(judged: Judged, family: ExaminedFamily): FamilyChoices {
  const known = choices.get(family) ?? choicesAmong(judged, family.repairs);
  choices.set(family, known);
  return known;
}

function choicesAmong(judged: Judged, repairs: readonly ExaminedRepair[]): FamilyChoices {
  const named = (names: Iterable<string | undefined>): readonly string[] =>
    [...new Set(names)].filter((name) => name !== undefined && name !== '').sort() as readonly string[];
  const meters = metersByRepair(judged);
  const begun = repairs.map((repair) => repair.begun).filter((time) => !Number.isNaN(time));
  return {
    complaints: named(repairs.map(({ record }) => record?.complaint)),
    meters: named(repairs.flatMap(({ repair }) => [...(meters.get(repair) ?? [])])),
    benches: named(repairs.map(({ record }) => record?.bench)),
    first: begun.reduce((least, time) => Math.min(least, time), Infinity),
    last: begun.reduce((most, time) => Math.max(most, time), -Infinity),
  };
}

/** The ids of the repairs that a mark of a chart counts. */
export function repairsWhere(judged: Judged, query: RepairsQuery): readonly string[] {
  const own = query.family === undefined ? examineFamilies(judged) : [examineFamily(judged, query.family)];
  return own
    .flatMap((family) => (family === undefined ? [] : chosenOf(judged, family, query)))
    .filter((repair) => isCounted(repair, query))
    .map(({ repair }) => repair);
}

function isCounted(repair: ExaminedRepair, query: RepairsQuery): boolean {
  const { evidence, replaced, badInCircuit, record, cameBack } = repair;
  const { outcome, failedClass, beyondKit } = query;
  const all = (parts: readonly string[] | undefined, fits: (part: string) => boolean): boolean =>
    parts?.every(fits) ?? true;
  const isGood = (part: string): boolean => {
    const own = evidence.get(part);
    return own?.finding === 'good' && own.proof === 'out of circuit';
  };
  return (
    all(query.failed, (part) => evidence.get(part)?.finding === 'failed') &&
    all(query.suspected, (part) => evidence.get(part)?.finding === 'suspected') &&
    all(query.replaced, (part) => replaced.has(part)) &&
    all(query.replacedGood, (part) => replaced.has(part) && isGood(part)) &&
    all(query.readBad, (part) => badInCircuit.has(part)) &&
    (query.cameBack !== true || cameBack !== undefined) &&
    (outcome === undefined || record?.outcome === outcome) &&
    (failedClass === undefined || repair.failed.some((part) => partClass(part) === failedClass)) &&
    (beyondKit === undefined || repair.needed.some((part) => !beyondKit.includes(part)))
  );
}

/** Names of the meters that read each repair. */
const metersByRepair = remembered((judged): ReadonlyMap<string, ReadonlySet<string>> => {
  const { log } = judged.data;
  const { names } = log;
  return new Map(
    names.repairs.labels.map((repair) => {
      const codes = new Set<number>();
      for (const row of rowsOf(judged, repair)) codes.add(log.meter[row]!);
      return [repair, new Set([...codes].map((code) => names.meters.label(code)))];
    }),
  );
});
