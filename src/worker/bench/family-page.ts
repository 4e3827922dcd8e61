import { DAY } from '../../domain/day.ts';
import type { Family } from '../../domain/family.ts';
import { complaintMatrix } from '../../patterns/complaints.ts';
import type { ActivityPeriod } from '../../patterns/activity-period.ts';
import { compareHolding, holdingOf, holdingTimes } from '../../patterns/do-repairs-hold.ts';
import { measured, type ExaminedRepair } from '../../patterns/examined-repair.ts';
import { failureSignatures } from '../../patterns/failure-signatures.ts';
import { pairsFailingTogether } from '../../patterns/failing-together.ts';
import { inCircuitVerdicts } from '../../patterns/in-circuit-verdicts.ts';
import { failureModel } from '../../patterns/failure-model/failure-model.ts';
import { partsOverTime } from '../../patterns/over-time.ts';
import { countPartFailures } from '../../patterns/part-failures.ts';
import { partRates } from '../../patterns/part-rates.ts';
import { kitCurve, smallestKit } from '../../patterns/parts-kit.ts';
import { probingOrder, type ProbingOrder } from '../../patterns/probing-order.ts';
import { renewalOf, RENEWALS } from '../../patterns/renewal.ts';
import { standingOut } from '../../patterns/standing-out.ts';
import { stockFor } from '../../patterns/stock.ts';
import { whetherItPays } from '../../patterns/whether-it-pays.ts';
import type { CallContext } from '../contract/calls.ts';
import type { FamilyPage, FamilyQuery, HoldingAnswer } from '../contract/families.ts';
import type { WorkProgress } from '../contract/progress.ts';
import type { Judged } from './bench-data.ts';
import { choicesOf, chosenOf } from './chosen-repairs.ts';
import { examineFamiliesPaced, orderInUse, probingChecks, repairsByFamily } from './examine.ts';
import { livePoints } from './live-points.ts';
import { PacedWork } from './paced-work.ts';
import { workingPeriod } from './working-period.ts';

/** A signature must have been seen in this many repairs. */
const FEWEST_FOR_SIGNATURE = 2;
/** The coverage curve of a kit is drawn from this share of repairs on; with many parts only its upper end, since the whole would take long. */
const CURVE_FROM = 0.5;
const CURVE_FROM_MANY = 0.85;
const MANY_PARTS = 22;

/** More repairs than this are not named one by one. */
const MOST_NAMED = 100;

/** How many figures a page has, each a step of the work on it. */
const FIGURES = 14;

/**
 * How a family fails and what to do about it; undefined where nothing names it.
 * @throws where the context's signal stops it
 */
export async function familyPage(
  judged: Judged,
  query: FamilyQuery,
  context: CallContext<WorkProgress>,
): Promise<FamilyPage | undefined> {
  const families = repairsByFamily(judged);
  if (!families.has(query.family)) return undefined;
  const work = new PacedWork(context, families.size + FIGURES);
  try {
    return await workOut(judged, query, work);
  } finally {
    work.close();
  }
}

async function workOut(judged: Judged, query: FamilyQuery, work: PacedWork): Promise<FamilyPage | undefined> {
  const families = await examineFamiliesPaced(judged, work);
  const own = families.find(({ family }) => family.name === query.family);
  if (own === undefined) return undefined;
  const { family } = own;
  const repairs = chosenOf(judged, own, query);
  const others = families.filter((other) => other !== own).flatMap((other) => chosenOf(judged, other, query));
  const period = workingPeriod(judged);
  const watched = query.watched ?? period?.last ?? 0;
  const misdated = repairs.filter((repair) => isOutside(repair, period));
  const dated = misdated.length === 0 ? repairs : repairs.filter((repair) => !misdated.includes(repair));
  const needs = repairs
    .filter(({ needed }) => needed.length > 0)
    .map(({ repair, needed }) => ({ repair, parts: needed }));
  const parts = new Set(needs.flatMap((need) => need.parts));
  const { prices, fee } = moneyOf(judged, query);
  const priceOf = prices.length === 0 ? undefined : new Map(prices);
  const model = failureModel(family.parts, repairs);
  const figures = await work.entries<Figures>({
    failures: () => countPartFailures(repairs),
    masked: () => ({ parts: partRates(model) }),
    inCircuit: () => inCircuitVerdicts(repairs, model, family.parts),
    pairs: () => pairsFailingTogether(model),
    signatures: () => failureSignatures(repairs, model, FEWEST_FOR_SIGNATURE),
    complaints: () => complaintMatrix(repairs, model),
    standingOut: () => standingOut(measured(repairs), measured(others)),
    overTime: () => partsOverTime(dated),
    holding: () => holdingAnswer(repairs, others, watched),
    live: () => livePoints(judged, family.name, repairs, query.meter),
    probing: () => orderThatFinds(judged, family, repairs, query),
    kit: () => smallestKit(needs, query.kitShare, priceOf),
    kitCurve: () => kitCurve(needs, parts.size > MANY_PARTS ? CURVE_FROM_MANY : CURVE_FROM),
    stock: () => stockFor(dated, query.stockWeeks, query.stockEnough),
  });
  return {
    family: family.name,
    allRepairs: own.repairs.length,
    repairs: repairs.length,
    unmeasured: repairs.length - measured(repairs).length,
    chosen: repairs.length > MOST_NAMED ? [] : repairs.map(({ repair }) => repair),
    choices: choicesOf(judged, own),
    points: pointsOf(judged, query.family),
    watched,
    misdated: misdated.map(({ repair }) => repair),
    prices,
    fee,
    contradictory: repairs.flatMap(({ repair, contradictory }) => contradictory.map((part) => ({ part, repair }))),
    ...figures,
    pays: whetherItPays(repairs, holdingTimes(repairs, watched).lifetimes, priceOf, fee),
  };
}

/** What is worked out one after the other. */
type Figures = Pick<
  FamilyPage,
  | 'failures'
  | 'masked'
  | 'inCircuit'
  | 'pairs'
  | 'signatures'
  | 'complaints'
  | 'standingOut'
  | 'overTime'
  | 'holding'
  | 'live'
  | 'probing'
  | 'kit'
  | 'kitCurve'
  | 'stock'
>;

/** What to probe first, where any check shows a fault that there was. */
function orderThatFinds(
  judged: Judged,
  family: Family,
  repairs: readonly ExaminedRepair[],
  { soFar }: FamilyQuery,
): ProbingOrder | undefined {
  const order = probingOrder(repairs, probingChecks(judged, family), soFar ?? {}, orderInUse(judged, repairs));
  return (order?.steps.at(-1)?.found ?? 0) > 0 ? order : undefined;
}

/** The test points of a family with readings. */
function pointsOf({ data: { log } }: Judged, name: string): readonly string[] {
  const { checks, families, points } = log.names;
  const family = families.find(name);
  const own = Array.from({ length: checks.size }, (_, check) => check).filter(
    (check) => checks.familyCode(check) === family,
  );
  return [...new Set(own.map((check) => points.label(checks.pointCode(check))))];
}

/** Prices and fee as the question says, else as the bench's settings do. */
function moneyOf({ data }: Judged, query: FamilyQuery): Pick<FamilyPage, 'prices' | 'fee'> {
  const own = data.settings.prices.filter(({ family }) => family === query.family);
  const prices = new Map([...own.map(({ part, price }) => [part, price] as const), ...(query.prices ?? [])]);
  return { prices: [...prices], fee: query.fee ?? data.settings.fee };
}

function isOutside({ begun }: ExaminedRepair, period: ActivityPeriod | undefined): boolean {
  return period !== undefined && (begun < period.first || begun >= period.last + DAY);
}

function holdingAnswer(
  repairs: readonly ExaminedRepair[],
  others: readonly ExaminedRepair[],
  watched: number,
): HoldingAnswer {
  const timesOf = (some: readonly ExaminedRepair[]) => holdingTimes(some, watched);
  const all = timesOf(repairs);
  const elsewhere = timesOf(others).lifetimes;
  const renewed = new Map(RENEWALS.map((renewal) => [renewal, [] as ExaminedRepair[]]));
  for (const repair of repairs) renewed.get(renewalOf(repair))!.push(repair);
  const groups = [...renewed].map(([renewal, some]) => ({ renewal, lifetimes: timesOf(some).lifetimes }));
  const [measured, whole] = groups;
  return {
    all: holdingOf(all.lifetimes),
    leftOut: all.leftOut,
    groups: groups.map(({ renewal, lifetimes }) => ({ renewal, holding: holdingOf(lifetimes) })),
    renewalTest: measured && whole && compareHolding(measured.lifetimes, whole.lifetimes),
    others: holdingOf(elsewhere),
    othersTest: compareHolding(all.lifetimes, elsewhere),
  };
}
