import { expect } from 'vitest';

/** Expects a relative error of at most `within`, or an absolute one where zero is expected. */
export function expectWithin(actual: number, expected: number, within: number): void {
  const error = Math.abs(actual - expected) / (expected === 0 ? 1 : Math.abs(expected));
  expect(error, `${String(actual)} should be ${String(expected)} within ${String(within)}`).toBeLessThanOrEqual(within);
}
