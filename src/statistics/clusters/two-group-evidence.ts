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

/** The likelihood rises by less than this at the end. */
const SETTLED = 1e-9;
const MOST_ROUNDS = 2000;

/**
 * Do the readings look like two groups rather than one? Compares one normal with a mixture of two normals of equal
 * deviation by the Bayesian information criterion (Schwarz 1978, Annals of Statistics 6:461-464), as model-based
 * clustering does (Fraley and Raftery 2002, Journal of the American Statistical Association 97:611-631); the scale of
 * evidence is that of Kass and Raftery 1995, ibid. 90:773-795.
 *
 * The mixture is fitted by EM from the best split in two (ckmeans), so the result is a hint, not a test: one skewed
 * group may look like two. A deviation counts as half a step of the resolution at least (this project's choice), so
 * that two neighbouring digits, between which a steady reading flickers, do not make two groups. Cost: O(n) a round, up
 * to 2,000 rounds.
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
  const one = logLikelihood(readings, [{ mean: centre, share: 1 }], Math.max(floor, total));

  let groups: [MixturePart, MixturePart] = [
    { mean: mean(low), share: low.length / n },
    { mean: mean(high), share: high.length / n },
  ];
  let variance = Math.max(floor, total - groups[0].share * groups[1].share * (groups[1].mean - groups[0].mean) ** 2);
  let two = logLikelihood(readings, groups, variance);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const next = maximize(readings, groups, variance);
    const reached = logLikelihood(readings, next.groups, Math.max(floor, next.variance));
    if (!(reached > two)) break;
    const rise = reached - two;
    [groups, variance, two] = [next.groups, Math.max(floor, next.variance), reached];
    if (rise < SETTLED) break;
  }
  // Two parameters more: a mean and a share.
  return { gain: 2 * (two - one) - 2 * Math.log(n), groups, deviation: Math.sqrt(variance) };
}

function logLikelihood(readings: readonly number[], parts: readonly MixturePart[], variance: number): number {
  let sum = -0.5 * readings.length * Math.log(2 * Math.PI * variance);
  for (const value of readings) {
    const exponents = parts.map(({ mean: m, share }) => Math.log(share) - (value - m) ** 2 / (2 * variance));
    const most = exponents.reduce((a, b) => Math.max(a, b));
    sum += most + Math.log(exponents.reduce((total, exponent) => total + Math.exp(exponent - most), 0));
  }
  return sum;
}

/** One round of EM: each reading's share in the upper group, then the groups that follow from these shares. */
function maximize(
  readings: readonly number[],
  [low, high]: readonly [MixturePart, MixturePart],
  variance: number,
): { readonly groups: [MixturePart, MixturePart]; readonly variance: number } {
  const n = readings.length;
  const middle = (low.mean + high.mean) / 2;
  const slope = (high.mean - low.mean) / variance;
  const upper = readings.map((value) => 1 / (1 + (low.share / high.share) * Math.exp(slope * (middle - value))));
  const weight = upper.reduce((sum, share) => sum + share, 0);
  let [sumLow, sumHigh] = [0, 0];
  readings.forEach((value, i) => {
    const share = upper[i]!;
    sumLow += (1 - share) * value;
    sumHigh += share * value;
  });
  const [meanLow, meanHigh] = [sumLow / (n - weight), sumHigh / weight];
  let squares = 0;
  readings.forEach((value, i) => {
    const share = upper[i]!;
    squares += (1 - share) * (value - meanLow) ** 2 + share * (value - meanHigh) ** 2;
  });
  return {
    groups: [
      { mean: meanLow, share: 1 - weight / n },
      { mean: meanHigh, share: weight / n },
    ],
    variance: squares / n,
  };
}
