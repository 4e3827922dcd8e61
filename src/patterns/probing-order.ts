import { partClass } from '../domain/family.ts';
import { countAlike, type Alike } from './alike.ts';
import { weightOfOthers } from './complaint-weights.ts';
import type { ExaminedRepair } from './examined-repair.ts';
import { bestSearchOrder, expectedCost, type SearchCase, type SearchRule } from './search-order.ts';

/** Something to measure as received, with what it costs. */
export interface ProbingCheck {
  readonly point: string;
  /** The parts whose failure it shows: its own, and those across the same nodes. */
  readonly shows: readonly string[];
  readonly seconds: number;
}

/** What is known of the board on the bench. */
export interface BoardSoFar {
  readonly complaint?: string;
  /** Parts that have measured good. */
  readonly cleared?: readonly string[];
}

export interface ProbingStep {
  readonly point: string;
  readonly seconds: number;
  /** Chance that this check is the one that finds the fault. */
  readonly finds: number;
  /** Chance that the fault has been found by then. */
  readonly found: number;
}

export interface ProbingOrder {
  readonly steps: readonly ProbingStep[];
  /** Expected minutes to the reading that shows the fault. */
  readonly minutes: number;
  readonly rule: SearchRule;
  /** Expected minutes in the order that the bench really uses; undefined where it is not known. */
  readonly usualMinutes: number | undefined;
  /** Repairs that it rests on, and of these those under the complaint. */
  readonly repairs: number;
  readonly underComplaint: number;
}

const FEWEST_REPAIRS = 5;

/**
 * What to probe first: the order of checks that shows the fault in the least expected time (see {@link bestSearchOrder} for the rule and where the
 * ratio of chance to seconds is not the best). Each past repair with a proved failure is a case; it is found by the first check that shows one of
 * its failed parts. A blown fuse is an effect and does not count as found, unless nothing else failed. Checks are taken as perfect, and as all
 * paid for: the last one too, since a part is replaced only when it has measured bad.
 *
 * A complaint narrows it by {@link weightOfOthers}. What has measured good rules out the repairs in which it failed.
 *
 * @param checks - seconds above 0
 * @param usual - points in the order in which the bench makes them
 * @returns undefined where fewer than five repairs are left to tell from
 */
export function probingOrder(
  repairs: readonly ExaminedRepair[],
  checks: readonly ProbingCheck[],
  board: BoardSoFar = {},
  usual: readonly string[] = [],
): ProbingOrder | undefined {
  const cleared = new Set(board.cleared);
  const open = checks.filter(({ shows }) => !shows.every((part) => cleared.has(part)));
  const faultsOf = (some: readonly ExaminedRepair[]): readonly Alike[] =>
    countAlike(some.map(({ failed }) => failed))
      .map(({ list, count }) => ({ list: causesAmong(list), count }))
      .filter(({ list }) => list.length > 0 && !list.some((part) => cleared.has(part)));
  const isUnder = ({ record }: ExaminedRepair): boolean =>
    board.complaint === undefined || record?.complaint === board.complaint;
  const own = faultsOf(repairs.filter(isUnder));
  const others = faultsOf(repairs.filter((repair) => !isUnder(repair)));
  const [under, elsewhere] = [repairsIn(own), repairsIn(others)];
  const cases = [...casesOf(own, 1, open), ...casesOf(others, weightOfOthers(elsewhere), open)];
  const costs = open.map(({ seconds }) => seconds);
  const best = under + elsewhere < FEWEST_REPAIRS ? undefined : bestSearchOrder(costs, cases);
  if (best === undefined) return undefined;
  const known = usual.map((point) => open.findIndex((check) => check.point === point)).filter((at) => at >= 0);
  const inUsualOrder = [...known, ...[...open.keys()].filter((at) => !known.includes(at))];
  const usualSeconds = usual.length === 0 ? undefined : expectedCost(inUsualOrder, costs, cases);
  return {
    steps: stepsOf(best.order, open, cases),
    minutes: best.cost / 60,
    rule: best.rule,
    usualMinutes: usualSeconds === undefined ? undefined : usualSeconds / 60,
    repairs: under + elsewhere,
    underComplaint: under,
  };
}

/** Of failed parts those that are no fuses, unless nothing else failed. */
function causesAmong(failed: readonly string[]): readonly string[] {
  const causes = failed.filter((part) => partClass(part) !== 'F');
  return causes.length > 0 ? causes : failed;
}

function repairsIn(faults: readonly Alike[]): number {
  return faults.reduce((sum, { count }) => sum + count, 0);
}

/** A case for each fault, by the checks that reveal it. */
function casesOf(faults: readonly Alike[], weight: number, checks: readonly ProbingCheck[]): readonly SearchCase[] {
  return faults.map(({ list, count }) => ({
    weight: count * weight,
    revealedBy: [...checks.keys()].filter((check) => checks[check]!.shows.some((part) => list.includes(part))),
  }));
}

function stepsOf(
  order: readonly number[],
  checks: readonly ProbingCheck[],
  cases: readonly SearchCase[],
): readonly ProbingStep[] {
  const total = cases.reduce((sum, { weight }) => sum + weight, 0);
  let open = cases;
  let found = 0;
  return order.map((at) => {
    const { point, seconds } = checks[at]!;
    const hits = open.filter(({ revealedBy }) => revealedBy.includes(at));
    open = open.filter(({ revealedBy }) => !revealedBy.includes(at));
    const finds = hits.reduce((sum, { weight }) => sum + weight, 0) / total;
    found += finds;
    return { point, seconds, finds, found: Math.min(1, found) };
  });
}
