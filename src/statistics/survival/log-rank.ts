import { chiSquareUpperTail } from '../distributions/chi-square.ts';
import type { Lifetimes } from './lifetimes.ts';
import type { RiskStep } from './risk-steps.ts';
import { riskSteps } from './risk-steps.ts';

export interface LogRank {
  /** Events seen in the first and the second group. */
  readonly observed: readonly [number, number];
  /** Events to be expected in each if both had the same hazard. */
  readonly expected: readonly [number, number];
  /** Hypergeometric variance of observed less expected. */
  readonly variance: number;
  /** (observed - expected)^2 / variance, with 1 degree of freedom. */
  readonly chiSquare: number;
  readonly p: number;
}

/**
 * Log-rank test: do two groups of lifetimes, some censored, differ in hazard?
 *
 * With the hypergeometric variance at each time (Mantel's form), not the sum of (O - E)^2 / E, which is smaller.
 * Source: Mantel 1966, Cancer Chemotherapy Reports 50:163-170; Peto and Peto 1972, Journal of the Royal Statistical
 * Society A 135:185-207. Cost: O(n log n).
 *
 * @throws Error for an empty group, lists of different length, a time that is negative or not finite, or when no event
 * can tell the groups apart
 */
export function logRank(first: Lifetimes, second: Lifetimes): LogRank {
  const steps = mergeSteps(riskSteps('log-rank test', first), riskSteps('log-rank test', second));
  let observedFirst = 0;
  let expectedFirst = 0;
  let events = 0;
  let variance = 0;
  for (const { a, b } of steps) {
    const n = a.atRisk + b.atRisk;
    const d = a.events + b.events;
    const share = a.atRisk / n;
    observedFirst += a.events;
    expectedFirst += d * share;
    events += d;
    if (n > 1) variance += (d * share * (1 - share) * (n - d)) / (n - 1);
  }
  if (variance === 0) throw new Error('log-rank test needs an event while both groups are under observation');
  const chiSquare = (observedFirst - expectedFirst) ** 2 / variance;
  return {
    observed: [observedFirst, events - observedFirst],
    expected: [expectedFirst, events - expectedFirst],
    variance,
    chiSquare,
    p: chiSquareUpperTail(chiSquare, 1),
  };
}

/**
 * Both groups side by side at every time of either; a group without a step there has its number at risk and no event.
 */
function mergeSteps(a: readonly RiskStep[], b: readonly RiskStep[]): { readonly a: RiskStep; readonly b: RiskStep }[] {
  const times = [...new Set([...a, ...b].map(({ time }) => time))].sort((s, t) => s - t);
  const walkA = walker(a);
  const walkB = walker(b);
  return times.map((time) => ({ a: walkA(time), b: walkB(time) }));
}

/** Gives the step at each of a row of ascending times. */
function walker(steps: readonly RiskStep[]): (time: number) => RiskStep {
  let next = 0;
  return (time) => {
    const step = steps[next];
    if (step === undefined) return { time, atRisk: 0, events: 0 };
    if (step.time > time) return { time, atRisk: step.atRisk, events: 0 };
    next += 1;
    return step;
  };
}
