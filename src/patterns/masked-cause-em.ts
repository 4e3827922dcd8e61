/**
 * What is known of one group of parts in some repairs in which at least one of them failed. Sets of parts are bits: part `i` is `1 << i`.
 * The failed set holds all of `failed`, perhaps some of `suspected`, and at least one of either; every other part was good.
 */
export interface CauseObservation {
  readonly failed: number;
  readonly suspected: number;
  /** In how many repairs just this is known. */
  readonly count: number;
}

/** Chances of each set of parts to be the failed one, given that the group is bad. */
export interface MaskedCauseFit {
  readonly size: number;
  /** By set of parts; the empty set has chance 0. They add up to 1. */
  readonly chances: Float64Array;
  /** What each set was worth before any repair, in repairs. */
  readonly prior: Float64Array;
  /** Log-likelihood after each round, with the prior's part where it has weight; it never falls. */
  readonly logLikelihoods: readonly number[];
}

const MOST_ROUNDS = 500;
const SETTLED = 1e-9;
/** Before any repair, each further part of a group is taken to fail along with the first by this odds (common practice, no source). */
const ODDS_OF_ONE_MORE = 0.25;

/**
 * Maximum-likelihood chances of the failed sets of a group, by expectation-maximisation (Dempster, Laird and Rubin 1977, Journal of the Royal
 * Statistical Society B 39:1-38). Each set that an observation allows is enumerated, and takes its share of the observed repairs; the shares
 * added up are the next chances. The chances of sets are free, so parts may fail together, or never together.
 *
 * Sound where the bench stops measuring by what it has seen and not by what it has not: then the stopping says nothing more (Rubin 1976).
 *
 * @param size - how many parts, 1 to 8
 * @param priorRepairs - imagined repairs that hold the chances off 0 and settle what no repair tells; 0 gives plain maximum likelihood
 * @throws RangeError for another size, or an observation without a part, or without a repair
 */
export function fitMaskedCauses(
  size: number,
  observations: readonly CauseObservation[],
  priorRepairs: number,
): MaskedCauseFit {
  if (!Number.isInteger(size) || size < 1 || size > MOST_PARTS) {
    throw new RangeError(`A group of ${size} parts cannot be enumerated: 1 to ${MOST_PARTS} can.`);
  }
  for (const { failed, suspected, count } of observations) {
    if ((failed | suspected) === 0 || !(count > 0)) throw new RangeError('An observation needs a part and a repair.');
  }
  const allowed = observations.map(allowedSets);
  const start = spreadOver(size);
  const prior = start.map((share) => share * priorRepairs);
  const total = observations.reduce((sum, { count }) => sum + count, 0) + priorRepairs;
  let chances = start;
  const logLikelihoods = [logLikelihood(observations, allowed, chances, prior)];
  for (let round = 0; round < MOST_ROUNDS && total > 0; round += 1) {
    chances = improve(observations, allowed, chances, prior, total);
    const reached = logLikelihood(observations, allowed, chances, prior);
    const gain = reached - logLikelihoods.at(-1)!;
    logLikelihoods.push(reached);
    if (gain < SETTLED) break;
  }
  return { size, chances, prior, logLikelihoods };
}

/** The largest group that is enumerated. */
export const MOST_PARTS = 8;

/** The sets of failed parts that an observation allows. */
export function allowedSets({ failed, suspected }: Pick<CauseObservation, 'failed' | 'suspected'>): readonly number[] {
  const sets: number[] = [];
  // Steps through the subsets of `suspected` from itself down to none.
  for (let some = suspected; ; some = (some - 1) & suspected) {
    if ((failed | some) !== 0) sets.push(failed | some);
    if (some === 0) return sets;
  }
}

/** The chance of each part to have failed, given an observation. */
export function posteriorOf(
  { size, chances }: MaskedCauseFit,
  observation: Pick<CauseObservation, 'failed' | 'suspected'>,
): readonly number[] {
  const sets = allowedSets(observation);
  const whole = sets.reduce((sum, set) => sum + chances[set]!, 0);
  return Array.from({ length: size }, (_, part) => {
    const holding = sets.filter((set) => (set >> part) & 1);
    if (whole === 0) return holding.length / sets.length;
    return holding.reduce((sum, set) => sum + chances[set]!, 0) / whole;
  });
}

function improve(
  observations: readonly CauseObservation[],
  allowed: readonly (readonly number[])[],
  chances: Float64Array,
  prior: Float64Array,
  total: number,
): Float64Array {
  const next = prior.slice();
  observations.forEach(({ count }, place) => {
    const sets = allowed[place]!;
    const whole = sets.reduce((sum, set) => sum + chances[set]!, 0);
    for (const set of sets) next[set] = next[set]! + (count * chances[set]!) / whole;
  });
  return next.map((weight) => weight / total);
}

function logLikelihood(
  observations: readonly CauseObservation[],
  allowed: readonly (readonly number[])[],
  chances: Float64Array,
  prior: Float64Array,
): number {
  let sum = 0;
  observations.forEach(({ count }, place) => {
    sum += count * Math.log(allowed[place]!.reduce((whole, set) => whole + chances[set]!, 0));
  });
  prior.forEach((weight, set) => {
    if (weight > 0) sum += weight * Math.log(chances[set]!);
  });
  return sum;
}

/** Chances of all sets but the empty one before any repair: the fewer parts, the likelier. */
function spreadOver(size: number): Float64Array {
  const spread = new Float64Array(1 << size);
  for (let set = 1; set < spread.length; set += 1) spread[set] = ODDS_OF_ONE_MORE ** (bitsOf(set) - 1);
  const whole = spread.reduce((sum, weight) => sum + weight, 0);
  return spread.map((weight) => weight / whole);
}

function bitsOf(set: number): number {
  let bits = 0;
  for (let left = set; left !== 0; left &= left - 1) bits += 1;
  return bits;
}
