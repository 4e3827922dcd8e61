import { finiteReadings, requireAtLeast } from '../numerics/guards.ts';

export interface CusumSignal {
  readonly side: 'high' | 'low';
  /** Position of the first reading whose sum exceeds the decision interval. */
  readonly at: number;
  /** Position at which that sum last left zero: the likely onset of the shift. */
  readonly onset: number;
}

export interface TabularCusum {
  /** Upper sum after each reading: how far the readings have run above target + allowance. */
  readonly high: readonly number[];
  /** Lower sum after each reading, positive too. */
  readonly low: readonly number[];
  /** The first signal of either sum; undefined without one. */
  readonly signal: CusumSignal | undefined;
}

/**
 * Tabular cumulative sum chart: finds a small lasting shift from a target sooner than limits on single readings do.
 *
 * All arguments are in the readings' unit. Not restarted after a signal. Source: Page 1954, Biometrika 41:100-115;
 * NIST/SEMATECH e-Handbook 6.3.2.3; onset as in Montgomery, Introduction to Statistical Quality Control, 9.1. Cost:
 * O(n).
 *
 * @param allowance half the shift worth finding (often called k)
 * @param decision the sum that signals (often called h)
 * @throws Error without readings, when one is not finite, or when allowance or decision is negative
 */
export function tabularCusum(
  values: ArrayLike<number>,
  target: number,
  allowance: number,
  decision: number,
): TabularCusum {
  const readings = finiteReadings('cusum', values, 1);
  requireAtLeast('cusum', 'target', target, -Infinity);
  requireAtLeast('cusum', 'allowance', allowance, 0);
  requireAtLeast('cusum', 'decision interval', decision, 0);
  const high = sums(readings.map((value) => value - target - allowance));
  const low = sums(readings.map((value) => target - allowance - value));
  const signals = [firstSignal('high', high, decision), firstSignal('low', low, decision)];
  const signal = signals.filter((found) => found !== undefined).sort((a, b) => a.at - b.at)[0];
  return { high, low, signal };
}

function sums(excesses: readonly number[]): number[] {
  let sum = 0;
  return excesses.map((excess) => (sum = Math.max(0, sum + excess)));
}

function firstSignal(side: 'high' | 'low', run: readonly number[], decision: number): CusumSignal | undefined {
  const at = run.findIndex((sum) => sum > decision);
  return at < 0 ? undefined : { side, at, onset: run.lastIndexOf(0, at) + 1 };
}
