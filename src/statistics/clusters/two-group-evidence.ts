import { ckmeans } from 'simple-statistics';
import { mean } from '../descriptive/mean.ts';
import { finiteReadings, requireAtLeast } from '../numerics/guards.ts';

export interface TwoGroupEvidence {
  /** BIC of one normal less BIC of two: above 0 favours two groups, above 10 very strongly (Kass and Raftery 1995). */
  readonly gain: number;
  /**
   * The fitted groups, lower first: mean and share of the readings. A share of one reading is an outlier, not a group.
   */
  readonly groups: readonly [MixturePart, MixturePart];
  /** Standard deviation within a group, the same for both. */
  readonly deviation: number;
}

export interface MixturePart {
  readonly mean: number;
  readonly share: number;
}

/** The log-likelihood lies by less than this below where the rounds lead, at the end. */
const SETTLED = 1e-3;
const MOST_ROUNDS = 2000;

/**
 * Do the readings look like two groups rather than one? Compares one normal with a mixture of two normals of equal
 * deviation by the Bayesian information criterion (Schwarz 1978, Annals of Statistics 6:461-464), as model-based
 * clustering does (Fraley and Raftery 2002, Journal of the American Statistical Association 97:611-631); the scale of
 * evidence is that of Kass and Raftery 1995, ibid. 90:773-795.
 *
 * The mixture is fitted by EM from the best split in two (ckmeans), so the result is a hint, not a test: one skewed
 * group may look like two. A deviation counts as half a step of the resolution at least (this project's choice), so
 * that two neighbouring digits, between which a steady reading flickers, do not make two groups. The rounds end where
 * Aitken's extrapolation finds no more to gain (Boehning et al. 1994, Annals of the Institute of Statistical Mathematics
 * 46:373-388). Cost: O(n) a round, up to 2,000 rounds.
 *
 * @param resolution the step in which the readings come, in their unit; 0 when unknown
 * @throws Error with fewer than 8 readings, when one is not finite, when all are equal, or resolution is negative
 */
export function twoGroupEvidence(values: ArrayLike<number>, resolution: number): TwoGroupEvidence {
  const readings = finiteReadings('two-group evidence', values, 8);
  requireAtLeast('two-group evidence', 'resolution', resolution, 0);
  const n = readings.length;
  const [low, high] = ckmeans(readings, 2);
  if (low === undefined || high === undefined) throw new Error('two-group evidence needs readings that differ');

  const centre = mean(readings);
  const floor = Math.max(resolution, 1e-6 * (mean(high) - mean(low))) ** 2 / 4;
  const total = readings.reduce((sum, value) => sum + (value - centre) ** 2, 0) / n;
  const one = oneGroup(n, total, Math.max(floor, total));

  const between = (mean(high) - mean(low)) ** 2 * (low.length / n) * (high.length / n);
  let mixture: Mixture = {
    groups: [
      { mean: mean(low), share: low.length / n },
      { mean: mean(high), share: high.length / n },
    ],
    variance: Math.max(floor, total - between),
  };
  let { likelihood: two, next } = emRound(readings, mixture);
  let rise = Infinity;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const candidate = { ...next, variance: Math.max(floor, next.variance) };
    const reached = emRound(readings, candidate);
    const gained = reached.likelihood - two;
    if (!(gained > 0)) break;
    [mixture, two, next] = [candidate, reached.likelihood, reached.next];
    const ratio = gained / rise;
    if (ratio < 1 && (gained * ratio) / (1 - ratio) < SETTLED) break;
    rise = gained;
  }
  const { groups, variance } = mixture;
  // Two parameters more: a mean and a share.
  return { gain: 2 * (two - one) - 2 * Math.log(n), groups, deviation: Math.sqrt(variance) };
}

/** Two normal groups of equal variance. */
interface Mixture {
  readonly groups: readonly [MixturePart, MixturePart];
  readonly variance: number;
}

/** Log-likelihood of one normal group about the mean. @param total - mean square about it */
function oneGroup(n: number, total: number, variance: number): number {
  return -0.5 * n * (Math.log(2 * Math.PI * variance) + total / variance);
}

/** One round of EM: the log-likelihood of a mixture, and the mixture that follows from each reading's share in the upper group. */
function emRound(
  readings: readonly number[],
  { groups: [low, high], variance }: Mixture,
): { readonly likelihood: number; readonly next: Mixture } {
  const n = readings.length;
  const middle = (low.mean + high.mean) / 2;
  const slope = (high.mean - low.mean) / variance;
  const odds = Math.log(high.share / low.share);
  let likelihood = n * (Math.log(low.share) - 0.5 * Math.log(2 * Math.PI * variance));
  let [weight, sumLow, sumHigh, squaresLow, squaresHigh] = [0, 0, 0, 0, 0];
  for (const value of readings) {
    const lean = odds + slope * (value - middle);
    const shrunk = Math.exp(-Math.abs(lean));
    const smaller = shrunk / (1 + shrunk);
    const upper = lean > 0 ? 1 - smaller : smaller;
    const fromLow = value - low.mean;
    const fromHigh = value - high.mean;
    likelihood += Math.max(0, lean) + Math.log1p(shrunk) - (fromLow * fromLow) / (2 * variance);
    weight += upper;
    sumLow += (1 - upper) * fromLow;
    sumHigh += upper * fromHigh;
    squaresLow += (1 - upper) * fromLow * fromLow;
    squaresHigh += upper * fromHigh * fromHigh;
  }
  const [byLow, byHigh] = [sumLow / (n - weight), sumHigh / weight];
  const squares = squaresLow - sumLow * byLow + squaresHigh - sumHigh * byHigh;
  const groups = [
    { mean: low.mean + byLow, share: 1 - weight / n },
    { mean: high.mean + byHigh, share: weight / n },
  ] as const;
  return { likelihood, next: { groups, variance: squares / n } };
}
