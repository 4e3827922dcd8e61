import { normalQuantile } from '../distributions/normal.ts';
import { requireShare } from '../numerics/guards.ts';
import type { Lifetimes } from './lifetimes.ts';
import type { RiskStep } from './risk-steps.ts';
import { riskSteps } from './risk-steps.ts';

export interface SurvivalStep extends RiskStep {
  /** Share still without the event just after this time. */
  readonly survival: number;
  /** Greenwood's standard error of it; 0 where the survival has come to 0. */
  readonly standardError: number;
  /** Confidence limits of the survival; undefined where it has come to 0, as no transform gives them there. */
  readonly limits: { readonly lower: number; readonly upper: number } | undefined;
}

/**
 * Kaplan-Meier estimate of survival, one step for each time with an event.
 *
 * Standard error by Greenwood's formula. Limits by the log-log transform, S^exp(-+ z se / (S log S)), which stay within
 * 0 to 1. Source: Kaplan and Meier 1958, Journal of the American Statistical Association 53:457-481; Greenwood 1926;
 * limits Kalbfleisch and Prentice 1980, The Statistical Analysis of Failure Time Data, 1.3. Cost: O(n log n).
 *
 * @param confidence 0 to 1, for example 0.95
 * @throws Error without lifetimes, with lists of different length, a time that is negative or not finite, or confidence
 * outside its range
 */
export function kaplanMeier(lifetimes: Lifetimes, confidence: number): SurvivalStep[] {
  requireShare('Kaplan-Meier estimate', 'confidence', confidence);
  const z = normalQuantile((1 + confidence) / 2);
  let survival = 1;
  let greenwood = 0;
  return riskSteps('Kaplan-Meier estimate', lifetimes)
    .filter(({ events }) => events > 0)
    .map((step) => {
      const left = step.atRisk - step.events;
      survival *= left / step.atRisk;
      if (left === 0) return { ...step, survival, standardError: 0, limits: undefined };
      greenwood += step.events / (step.atRisk * left);
      const reach = (z * Math.sqrt(greenwood)) / Math.abs(Math.log(survival));
      const limits = { lower: survival ** Math.exp(reach), upper: survival ** Math.exp(-reach) };
      return { ...step, survival, standardError: survival * Math.sqrt(greenwood), limits };
    });
}
