import { partClass } from '../domain/family.ts';
import type { Finding } from '../judging/evidence.ts';
import { weightOfOthers } from './complaint-weights.ts';
import type { ExaminedRepair } from './examined-repair.ts';
import type { BoardSoFar, ProbingCheck } from './probing-order.ts';

/** For each of some parts that read bad together in circuit, the chance that it has failed; several may have. */
export interface LiftChance {
  /** From 0 to 1. */
  readonly chance: number;
  /** In how many earlier repairs it had failed, of those that told of it. */
  readonly failed: number;
  readonly told: number;
}

/**
 * The chance of each of some parts that read bad together in circuit, from earlier repairs of the family that settled who was to blame: one of them
 * at least is proved failed, or they read bad and all are proved good. A part that such a repair left unsettled counts in neither way.
 *
 * A chance is (failed + 1) / (told + 2), the mean of the beta posterior from a uniform prior (Laplace's law of succession; Gelman et al. 2013,
 * Bayesian Data Analysis, 3rd ed., 2.4), so that five repairs alike make no certainty. The complaint is left out: it says which parts are in
 * question, and once they read bad hardly which of them it is.
 */
export function chancesToLift(
  parts: readonly string[],
  earlier: readonly ExaminedRepair[],
): { readonly parts: readonly LiftChance[]; readonly repairs: number } {
  const settled = earlier.filter((repair) => isSettled(repair, parts));
  return {
    parts: parts.map((part) => {
      const findings = settled.map(({ evidence }) => evidence.get(part)?.finding);
      const failed = findings.filter((finding) => finding === 'failed').length;
      const told = failed + findings.filter(isGood).length;
      return { chance: (failed + 1) / (told + 2), failed, told };
    }),
    repairs: settled.length,
  };
}

/** For each check in the order in which they are made, the chance that it is the first to show the fault. */
export interface FindChances {
  /** From 0 to 1. What they leave to one is the chance of none: a fault that these checks do not show, or no fault. */
  readonly chances: readonly number[];
  /** How many repairs they rest on, and how many of these were under the same complaint. */
  readonly repairs: number;
  readonly underComplaint: number;
}

/**
 * The chance of each check, from earlier repairs of the family. It is the mean of a Dirichlet posterior over the checks and "none of these", from a
 * prior that weighs one repair in all, spread evenly: the overall objective prior of Berger, Bernardo and Sun 2015, Bayesian Analysis 10:189-221.
 * @param checks - in the order in which they are made
 * @param earlier - those that were not finished, or in which no part was measured, tell nothing; those under the board's complaint tell more, by {@link weightOfOthers}
 */
export function chancesToFind(
  checks: readonly ProbingCheck[],
  earlier: readonly ExaminedRepair[],
  { complaint, cleared = [] }: BoardSoFar,
): FindChances {
  const good = new Set(cleared);
  const telling = earlier
    .filter(isFinished)
    .map((repair) => ({ causes: causesOf(repair), complaint: repair.record?.complaint }))
    .filter(({ causes }) => !causes.some((part) => good.has(part)));
  const isUnder = (repair: (typeof telling)[number]): boolean =>
    complaint === undefined || repair.complaint === complaint;
  const under = telling.filter(isUnder).length;
  const others = weightOfOthers(telling.length - under);
  const found = checks.map(() => 1 / (checks.length + 1));
  let total = 1;
  for (const repair of telling) {
    const weight = isUnder(repair) ? 1 : others;
    const first = checks.findIndex(({ shows }) => shows.some((part) => repair.causes.includes(part)));
    if (first >= 0) found[first]! += weight;
    total += weight;
  }
  return { chances: found.map((weight) => weight / total), repairs: telling.length, underComplaint: under };
}

function isSettled({ evidence, badInCircuit }: ExaminedRepair, parts: readonly string[]): boolean {
  const findings = parts.map((part) => evidence.get(part)?.finding);
  if (findings.includes('failed')) return true;
  const readBad = parts.some((part) => badInCircuit.has(part));
  return readBad && findings.every(isGood);
}

function isGood(finding: Finding | undefined): boolean {
  return finding === 'good' || finding === 'cleared';
}

function isFinished({ isMeasured, record }: ExaminedRepair): boolean {
  return record?.outcome !== 'open' && isMeasured;
}

/** The parts to which a repair's fault leads: those that failed, else those suspected; fuses, which blow as an effect, only where nothing else did. */
function causesOf({ failed, needed }: ExaminedRepair): readonly string[] {
  const isCause = (part: string): boolean => partClass(part) !== 'F';
  const proved = failed.filter(isCause);
  if (proved.length > 0) return proved;
  const causes = needed.filter(isCause);
  return causes.length > 0 ? causes : failed;
}
