import { requireShare, requireWhole } from '../numerics/guards.ts';

/** @throws Error unless 0 <= successes <= trials, both whole, trials >= 1, and 0 < confidence < 1. */
export function requireCounts(subject: string, successes: number, trials: number, confidence: number): void {
  requireWhole(subject, 'number of trials', trials, 1);
  requireWhole(subject, 'number of successes', successes, 0);
  if (successes > trials)
    throw new Error(`${subject} needs successes within trials, got ${String(successes)} of ${String(trials)}`);
  requireShare(subject, 'confidence', confidence);
}
