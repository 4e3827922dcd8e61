import type { Part } from '../../domain/family.ts';
import { seededUniform } from '../../statistics/random/seeded-random.ts';
import type { ExaminedRepair } from '../examined-repair.ts';
import { boardPatterns, type BoardEvidence, type BoardPatterns } from './board-patterns.ts';
import { jointByCause, likelihoodOf, type LatentClasses } from './latent-classes.ts';
import { ClassSampler } from './sample-classes.ts';

/** A chance or a share, with limits between which it lies with 95 % by the posterior's equal tails. */
export interface Chance {
  readonly chance: number;
  readonly low: number;
  readonly high: number;
}

/** What is known of a board, by names. Names that the family does not know tell nothing. */
export interface KnownOfBoard {
  readonly complaint?: string | undefined;
  readonly failed?: readonly string[];
  readonly good?: readonly string[];
  /** Sets of parts that read bad together: of each, one at least has failed. */
  readonly oneOf?: readonly (readonly string[])[];
}

/** How a family fails, by posterior draws: every figure of a family asks it, so that they agree. */
export interface FailureModel {
  readonly seen: BoardPatterns;
  readonly draws: readonly LatentClasses[];
}

/** Most causes of a family; more change no figure on the simulated benches. */
const MOST_CAUSES = 10;
const FEWEST_CAUSES = 4;
const BOARDS_A_CAUSE = 20;
/** Rounds before the first draw that counts, and draws that count. */
const SETTLING = 80;
const DRAWS = 240;
/** How often a part fails of whose class nothing is known (common practice, no source). */
const UNKNOWN_SHARE = 0.1;
const SEED = 15;

/**
 * Learns how a family fails from what was read of its boards. The same repairs in any order give the same model.
 * @param parts - the family's parts with their nodes
 */
export function failureModel(parts: readonly Part[], repairs: readonly ExaminedRepair[]): FailureModel {
  const seen = boardPatterns(parts, repairs);
  const causes = Math.min(MOST_CAUSES, Math.max(FEWEST_CAUSES, Math.ceil(repairs.length / BOARDS_A_CAUSE)));
  const partShares = seen.parts.map(() => UNKNOWN_SHARE);
  const sampler = new ClassSampler(seen, { causes, partShares }, seededUniform(SEED));
  for (let round = 0; round < SETTLING; round += 1) sampler.next();
  return { seen, draws: Array.from({ length: DRAWS }, () => sampler.next()) };
}

/** The chance that all of some parts have failed on a board of which something is known. */
export function chanceOfAll(model: FailureModel, parts: readonly string[], known: KnownOfBoard = {}): Chance {
  return chancesGiven(model, known)(parts);
}

/** The same for many sets of parts of one board. A part that nobody knows may fail as often or as seldom as any. */
export function chancesGiven({ seen, draws }: FailureModel, known: KnownOfBoard): (parts: readonly string[]) => Chance {
  const board = placesOf(seen, known);
  const joints = draws.map((draw) => jointByCause(draw, board));
  const weights = joints.map((joint) => joint.reduce((sum, one) => sum + one, 0));
  const width = seen.parts.length;
  return (parts) => {
    const places = parts.map((part) => seen.parts.indexOf(part));
    if (places.includes(-1)) return { chance: UNKNOWN_SHARE, low: 0, high: 1 };
    if (places.some((place) => board.good.includes(place))) return { chance: 0, low: 0, high: 0 };
    const isDoubtful = board.doubtful.some((set) => set.parts.some((part) => places.includes(part)));
    const open = places.filter((place) => !board.failed.includes(place));
    const withThem = withFailed(board, places);
    return overDraws(
      draws.map((draw, at) => {
        const weight = weights[at]!;
        if (!(weight > 0)) return { chance: 0, weight };
        if (isDoubtful) return { chance: likelihoodOf(draw, withThem) / weight, weight };
        const joint = joints[at]!;
        let chance = 0;
        for (let cause = 0; cause < joint.length; cause += 1) {
          let all = joint[cause]!;
          for (const place of open) all *= draw.chances[cause * width + place]!;
          chance += all;
        }
        return { chance: chance / weight, weight };
      }),
    );
  };
}

/** What a board tells once some parts are taken to have failed too. */
function withFailed(board: BoardEvidence, places: readonly number[]): BoardEvidence {
  const isFailed = (part: number): boolean => places.includes(part);
  return {
    ...board,
    failed: [...board.failed, ...places.filter((part) => !board.failed.includes(part))],
    doubtful: board.doubtful.map((set) => ({
      ...set,
      parts: set.parts.filter((part) => !isFailed(part)),
      oneFailed: set.oneFailed && !set.parts.some(isFailed),
    })),
  };
}

function placesOf({ parts, complaints }: BoardPatterns, known: KnownOfBoard): BoardEvidence {
  const { complaint, failed = [], good = [], oneOf = [] } = known;
  const places = (some: readonly string[]): readonly number[] =>
    some.map((part) => parts.indexOf(part)).filter((at) => at >= 0);
  const told = complaint === undefined ? -1 : complaints.indexOf(complaint);
  const sets = oneOf
    .map((set) => places(set.filter((part) => !good.includes(part))))
    .filter(({ length }) => length > 0);
  return {
    failed: [...new Set([...places(failed), ...sets.filter(({ length }) => length === 1).flat()])],
    good: places(good),
    kept: [],
    doubtful: sets.filter(({ length }) => length > 1).map((set) => ({ parts: set, oneFailed: true, renewed: false })),
    ...(told >= 0 && { complaint: told }),
  };
}

/** Mean and equal tails of 2.5 % of what the draws say, each by its weight. */
export function overDraws(said: readonly { readonly chance: number; readonly weight: number }[]): Chance {
  const sorted = said.toSorted((a, b) => a.chance - b.chance);
  const whole = sorted.reduce((sum, { weight }) => sum + weight, 0);
  const tail = (share: number): number => {
    let passed = 0;
    return sorted.find(({ weight }) => (passed += weight) >= share * whole)?.chance ?? 0;
  };
  return {
    chance: sorted.reduce((sum, { chance, weight }) => sum + chance * weight, 0) / whole,
    low: tail(0.025),
    high: tail(0.975),
  };
}
