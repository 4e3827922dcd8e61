import { maskingGroups, type Part } from '../domain/family.ts';
import type { Finding } from '../judging/evidence.ts';
import { normalQuantile } from '../statistics/distributions/normal.ts';
import { compareParts, type ExaminedRepair } from './examined-repair.ts';
import { fitMaskedCauses, MOST_PARTS, posteriorOf, type CauseObservation } from './masked-cause-em.ts';
import { shareVariances } from './masked-cause-variance.ts';

/** How often one part failed, masked repairs counted by their likelihood. */
export interface PartRate {
  readonly part: string;
  /** Repairs in which it is proved failed. */
  readonly measured: number;
  /** What the repairs in which it is only suspected are worth, in repairs. */
  readonly inferred: number;
  /** Repairs in which it is suspected and nothing settled it. */
  readonly masked: number;
  /** Repairs that count; those whose readings of its group contradict each other do not. */
  readonly repairs: number;
  /** (measured + inferred) / repairs; undefined without repairs. */
  readonly rate: { readonly share: number; readonly low: number; readonly high: number } | undefined;
}

/** Who may be to blame in one masked repair. */
export interface MaskedRepair {
  readonly repair: string;
  /** The proved failed parts across the same nodes. */
  readonly failed: readonly string[];
  /** The chance of each suspected part to have failed; several may have. */
  readonly suspects: readonly { readonly part: string; readonly chance: number }[];
}

export interface MaskedFailures {
  /** Highest rate first, then by name. */
  readonly parts: readonly PartRate[];
  readonly masked: readonly MaskedRepair[];
  /** Groups with too many parts across the same nodes to enumerate. */
  readonly tooLarge: readonly (readonly string[])[];
}

/** One imagined repair holds the estimates off 0 and 1 where a group has been seen bad only a few times. */
const PRIOR_REPAIRS = 1;

interface GroupRepair {
  readonly repair: string;
  readonly failed: number;
  readonly suspected: number;
}

/**
 * Failure rates of a family's parts where evidence often stops at "one of these": parts across the same nodes read bad together.
 *
 * **Model.** In each repair a set of a group's parts has failed, drawn with chances of its own for every set, the same in all repairs of the
 * family; groups are independent of each other. A repair tells that some parts failed, some were good, and the rest are suspected, of which at
 * least one failed where none is proved to have. A part of a bad group that nobody measured is suspected too. A part that was not replaced on
 * a board that went back working was not shorted. A group of which nothing read bad has no failed part: the bench hunts down what is bad.
 * The estimates are by expectation-maximisation over masked-cause data: Miyakawa 1984, IEEE Transactions on Reliability R-33:293-296;
 * Usher and Hodgson 1988, ibid. 37:550-555 (citations from memory), who assume that one part of the set fails; here any set may.
 *
 * **Interval.** Wilson's score interval for the rate, with as many repairs as would give the same variance without masking (an effective sample
 * size, as for shares from complex samples; Korn and Graubard 1998, citation from memory). Without masking it is Wilson's own.
 *
 * @param parts - the family's parts with their nodes; parts that only evidence names stand alone
 * @param repairs - all repairs of the family
 * @param confidence - between 0 and 1, for example 0.95
 */
export function estimateMaskedFailures(
  parts: readonly Part[],
  repairs: readonly ExaminedRepair[],
  confidence: number,
): MaskedFailures {
  const groups = groupsOf(parts, repairs);
  const rates: PartRate[] = [];
  const masked: MaskedRepair[] = [];
  const seenOf = observations(groups, repairs);
  for (const group of groups.filter(({ length }) => length <= MOST_PARTS)) {
    const seen = seenOf.get(group) ?? [];
    const bad = seen.filter((one) => one !== 'contradictory');
    const counted = repairs.length - (seen.length - bad.length);
    const told = tally(bad);
    const fit = fitMaskedCauses(group.length, told, PRIOR_REPAIRS);
    const variances = shareVariances(fit, told);
    // Many repairs tell the same of a group.
    const known = new Map(told.map((one) => [keyOf(one), posteriorOf(fit, one)]));
    const posteriors = bad.map((one) => known.get(keyOf(one))!);
    group.forEach((part, at) => {
      const measured = bad.filter(({ failed }) => (failed >> at) & 1).length;
      const expected = posteriors.reduce((sum, posterior) => sum + posterior[at]!, 0);
      const share = expected / counted;
      const fitted = fit.chances.reduce((sum, chance, set) => sum + ((set >> at) & 1 ? chance : 0), 0);
      rates.push({
        part,
        measured,
        inferred: Math.max(0, expected - measured),
        masked: bad.filter(({ suspected }) => (suspected >> at) & 1).length,
        repairs: counted,
        rate:
          counted === 0
            ? undefined
            : rateOf(share, effectiveRepairs(bad.length / counted, counted, fitted, variances[at]!), confidence),
      });
    });
    bad.forEach((one, place) => {
      if (one.suspected !== 0) masked.push(maskedRepair(one, group, posteriors[place]!));
    });
  }
  return {
    parts: rates.sort((a, b) => (b.rate?.share ?? 0) - (a.rate?.share ?? 0) || compareParts(a.part, b.part)),
    masked,
    tooLarge: groups.filter(({ length }) => length > MOST_PARTS),
  };
}

/** Masking groups, and every other part of the family by itself. */
function groupsOf(parts: readonly Part[], repairs: readonly ExaminedRepair[]): readonly (readonly string[])[] {
  const groups = maskingGroups(parts);
  const grouped = new Set(groups.flat());
  const names = new Set(parts.map(({ designator }) => designator));
  for (const { evidence } of repairs) for (const part of evidence.keys()) names.add(part);
  return [...groups, ...[...names].filter((part) => !grouped.has(part)).map((part) => [part])];
}

/** What repairs tell of the groups in which something was bad, by group. */
function observations(
  groups: readonly (readonly string[])[],
  repairs: readonly ExaminedRepair[],
): ReadonlyMap<readonly string[], readonly (GroupRepair | 'contradictory')[]> {
  const groupOf = new Map(groups.flatMap((group) => group.map((part) => [part, group] as const)));
  const seen = new Map<readonly string[], (GroupRepair | 'contradictory')[]>();
  for (const repair of repairs) {
    const touched = new Set<readonly string[]>();
    for (const part of repair.needed) touched.add(groupOf.get(part)!);
    for (const part of repair.contradictory) touched.add(groupOf.get(part)!);
    for (const group of touched) {
      const one = observe(repair, group);
      if (one === undefined) continue;
      const own = seen.get(group);
      if (own) own.push(one);
      else seen.set(group, [one]);
    }
  }
  return seen;
}

/** What a repair tells of a group; undefined where nothing of it was bad. */
function observe(repair: ExaminedRepair, group: readonly string[]): GroupRepair | 'contradictory' | undefined {
  const findingOf = (part: string): Finding | undefined => repair.evidence.get(part)?.finding;
  const isBad = group.some((part) => findingOf(part) === 'failed' || findingOf(part) === 'suspected');
  if (!isBad) return group.some((part) => findingOf(part) === 'contradictory') ? 'contradictory' : undefined;
  const findings = group.map(findingOf);
  const failed = bitsWhere(group, (_, at) => findings[at] === 'failed');
  const suspected = bitsWhere(group, (_, at) =>
    [undefined, 'suspected', 'contradictory', 'not measured'].includes(findings[at]),
  );
  const kept = bitsWhere(group, (part, at) => ((suspected >> at) & 1) === 1 && isHeldGood(repair, part));
  const left = suspected & ~kept;
  return { repair: repair.repair, failed, suspected: (failed | left) === 0 ? suspected : left };
}

/** Whether a part that read shorted in circuit, or shares its nodes with one that did, went back with the board as it was. */
function isHeldGood({ record, replaced, evidence }: ExaminedRepair, part: string): boolean {
  const wentBack = record?.outcome === 'returned working' || record?.outcome === 'comeback';
  return wentBack && replaced.size > 0 && !replaced.has(part) && (evidence.get(part)?.word ?? 'shorted') === 'shorted';
}

function bitsWhere(group: readonly string[], test: (part: string, at: number) => boolean): number {
  return group.reduce((bits, part, at) => (test(part, at) ? bits | (1 << at) : bits), 0);
}

function tally(repairs: readonly GroupRepair[]): readonly CauseObservation[] {
  const counts = new Map<number, CauseObservation>();
  for (const { failed, suspected } of repairs) {
    const key = keyOf({ failed, suspected });
    counts.set(key, { failed, suspected, count: (counts.get(key)?.count ?? 0) + 1 });
  }
  return [...counts.values()];
}

/** Both sets in one number; a group has at most {@link MOST_PARTS} parts. */
function keyOf({ failed, suspected }: Pick<GroupRepair, 'failed' | 'suspected'>): number {
  return (failed << MOST_PARTS) | suspected;
}

function maskedRepair(one: GroupRepair, group: readonly string[], posterior: readonly number[]): MaskedRepair {
  return {
    repair: one.repair,
    failed: group.filter((_, at) => (one.failed >> at) & 1),
    suspects: group
      .map((part, at) => ({ part, chance: posterior[at]! }))
      .filter((_, at) => (one.suspected >> at) & 1)
      .sort((a, b) => b.chance - a.chance),
  };
}

/**
 * How many repairs without masking would tell a part's share as well as these do.
 * @param badShare - share of the repairs in which the group was bad
 * @param fitted - the part's share of the bad repairs as fitted, and its variance
 */
function effectiveRepairs(badShare: number, repairs: number, fitted: number, variance: number): number {
  const share = badShare * fitted;
  const spread = (fitted ** 2 * badShare * (1 - badShare)) / repairs + badShare ** 2 * variance;
  return spread === 0 ? repairs : Math.min(repairs, (share * (1 - share)) / spread);
}

/** A share with Wilson's limits for a number of repairs that need not be whole. */
function rateOf(share: number, repairs: number, confidence: number): NonNullable<PartRate['rate']> {
  const z = normalQuantile((1 + confidence) / 2);
  const centre = share + (z * z) / (2 * repairs);
  const reach = z * Math.sqrt((share * (1 - share)) / repairs + (z / repairs) ** 2 / 4);
  const whole = 1 + (z * z) / repairs;
  return {
    share,
    low: Math.max(0, Math.min(share, (centre - reach) / whole)),
    high: Math.min(1, Math.max(share, (centre + reach) / whole)),
  };
}
