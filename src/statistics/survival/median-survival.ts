import type { SurvivalStep } from './kaplan-meier.ts';

/**
 * Median survival: the earliest time at which the estimate is one half or less; undefined when it never falls so far.
 * Where the estimate rests at exactly one half, this is the start of that stretch, not its middle.
 * Source: Klein and Moeschberger 2003, Survival Analysis, 4.5.
 */
export function medianSurvival(steps: readonly SurvivalStep[]): number | undefined {
  // The product may miss an exact half by some units in the last place.
  return steps.find(({ survival }) => survival <= 0.5 * (1 + 1e-12))?.time;
}
