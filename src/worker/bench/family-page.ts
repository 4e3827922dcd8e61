import { complaintMatrix } from '../../patterns/complaints.ts';
import { compareHolding, holdingOf, holdingTimes } from '../../patterns/do-repairs-hold.ts';
import { beginningOf, type ExaminedRepair } from '../../patterns/examined-repair.ts';
import { failureSignatures } from '../../patterns/failure-signatures.ts';
import { pairsFailingTogether } from '../../patterns/failing-together.ts';
import { inCircuitVerdicts } from '../../patterns/in-circuit-verdicts.ts';
import { estimateMaskedFailures } from '../../patterns/masked-failures.ts';
import { mayHaveTurned, meterOffsets } from '../../patterns/meter-offsets.ts';
import { partsOverTime } from '../../patterns/over-time.ts';
import { countPartFailures } from '../../patterns/part-failures.ts';
import { kitCurve, neededParts, smallestKit } from '../../patterns/parts-kit.ts';
import { probingOrder } from '../../patterns/probing-order.ts';
import { renewalOf, RENEWALS } from '../../patterns/renewal.ts';
import { standingOut } from '../../patterns/standing-out.ts';
import { stockFor } from '../../patterns/stock.ts';
import { whetherItPays } from '../../patterns/whether-it-pays.ts';
import { VALUE } from '../../columns/reading-log.ts';
import { limitsAt } from '../../judging/judge.ts';
import type { FamilyPage, FamilyQuery, HoldingAnswer, MetersOverview } from '../contract/families.ts';
import { pastPoints } from './band-work.ts';
import type { Judged } from './bench-data.ts';
import { examineFamilies, orderInUse, poweredChecks, probingChecks } from './examine.ts';
import { rowsOf } from './repair-stories.ts';

const CONFIDENCE = 0.95;
/** A signature must have been seen in this many repairs. */
const FEWEST_FOR_SIGNATURE = 2;
/** The coverage curve of a kit is drawn from this share of repairs on; with many parts only its upper end, since the whole would take long. */
const CURVE_FROM = 0.5;
const CURVE_FROM_MANY = 0.85;
const MANY_PARTS = 22;

/** How a family fails and what to do about it; undefined where nothing names it. */
export function familyPage(judged: Judged, query: FamilyQuery): FamilyPage | undefined {
  const families = examineFamilies(judged);
  const own = families.get(query.family);
  if (own === undefined) return undefined;
  const { family } = own;
  const repairs = own.repairs.filter((repair) => isChosen(judged, repair, query));
  const others = [...families.values()].filter((other) => other !== own).flatMap((other) => [...other.repairs]);
  const needs = repairs.map(neededParts).filter(({ parts }) => parts.length > 0);
  const parts = new Set(needs.flatMap((need) => need.parts));
  const prices = query.prices && new Map(query.prices);
  const { log } = judged.data;
  return {
    family: family.name,
    allRepairs: own.repairs.length,
    repairs: repairs.length,
    choices: choicesOf(judged, own.repairs),
    failures: countPartFailures(repairs),
    masked: estimateMaskedFailures(family.parts, repairs, CONFIDENCE),
    inCircuit: inCircuitVerdicts(repairs),
    pairs: pairsFailingTogether(repairs),
    signatures: failureSignatures(repairs, FEWEST_FOR_SIGNATURE),
    complaints: complaintMatrix(repairs),
    standingOut: standingOut(repairs, others),
    overTime: partsOverTime(repairs),
    holding: holdingAnswer(judged, repairs, others, query.today),
    live: poweredChecks(judged, family.name).map((check) => {
      const named = log.names.checks.check(check, log.names.families, log.names.points);
      return { check: named, points: pastPoints(judged, named) };
    }),
    probing: probingOrder(repairs, probingChecks(judged, family), query.soFar ?? {}, orderInUse(judged, repairs)),
    kit: smallestKit(needs, query.kitShare, prices),
    kitCurve: kitCurve(needs, parts.size > MANY_PARTS ? CURVE_FROM_MANY : CURVE_FROM),
    stock: stockFor(repairs, query.stockWeeks, query.stockEnough),
    pays: whetherItPays(repairs, prices, query.fee),
  };
}

/** What the meters' readings say of the meters, and how many verdicts an offset may have turned. */
export function metersOverview(judged: Judged): MetersOverview {
  const { log } = judged.data;
  const offsets = meterOffsets(log);
  const periods = offsets.periods.map((period) => {
    const meter = log.names.meters.find(period.meter);
    let turned = 0;
    for (let row = 0; row < log.count; row += 1) {
      const time = log.time[row]!;
      if (log.meter[row] !== meter || log.state[row] !== VALUE || time < period.since || time > period.until) continue;
      const limits = limitsAt(log, row, judged.standard);
      if (limits && mayHaveTurned(log.value[row]!, limits, period.percent)) turned += 1;
    }
    return { ...period, turned };
  });
  return { ...offsets, periods };
}

function holdingAnswer(
  judged: Judged,
  repairs: readonly ExaminedRepair[],
  others: readonly ExaminedRepair[],
  today: number,
): HoldingAnswer {
  const records = [...judged.data.repairs.values()];
  const timesOf = (some: readonly ExaminedRepair[]) => holdingTimes(some, records, today);
  const all = timesOf(repairs);
  const elsewhere = timesOf(others).lifetimes;
  const groups = RENEWALS.map((renewal) => ({
    renewal,
    lifetimes: timesOf(repairs.filter((repair) => renewalOf(repair) === renewal)).lifetimes,
  }));
  const [measured, renewed] = groups;
  return {
    all: holdingOf(all.lifetimes),
    leftOut: all.leftOut,
    groups: groups.map(({ renewal, lifetimes }) => ({ renewal, holding: holdingOf(lifetimes) })),
    renewalTest: measured && renewed && compareHolding(measured.lifetimes, renewed.lifetimes),
    others: holdingOf(elsewhere),
    othersTest: compareHolding(all.lifetimes, elsewhere),
  };
}

function isChosen(judged: Judged, repair: ExaminedRepair, { from, to, complaint, meter }: FamilyQuery): boolean {
  const begun = beginningOf(repair);
  if (from !== undefined && !(begun !== undefined && begun >= from)) return false;
  if (to !== undefined && !(begun !== undefined && begun <= to)) return false;
  if (complaint !== undefined && repair.record?.complaint !== complaint) return false;
  return meter === undefined || metersOf(judged, repair).has(meter);
}

function choicesOf(judged: Judged, repairs: readonly ExaminedRepair[]): FamilyPage['choices'] {
  const begun = repairs.map(beginningOf).filter((time) => time !== undefined);
  const complaints = new Set(repairs.flatMap(({ record }) => (record?.complaint ? [record.complaint] : [])));
  const meters = new Set(repairs.flatMap((repair) => [...metersOf(judged, repair)]));
  return {
    complaints: [...complaints].sort(),
    meters: [...meters].filter((meter) => meter !== '').sort(),
    first: begun.reduce((least, time) => Math.min(least, time), Infinity),
    last: begun.reduce((most, time) => Math.max(most, time), -Infinity),
  };
}

function metersOf(judged: Judged, { repair }: ExaminedRepair): ReadonlySet<string> {
  const { log } = judged.data;
  const codes = new Set(Array.from(rowsOf(judged, repair), (row) => log.meter[row]!));
  return new Set([...codes].map((code) => log.names.meters.label(code)));
}
