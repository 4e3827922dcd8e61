import { vi } from 'vitest';
import { PATIENCE } from './patience.ts';

/** Asks again and again until nothing is thrown any more. @throws what was thrown last, once patience has run out */
export function eventually<Result>(ask: () => Result | Promise<Result>): Promise<Result> {
  return vi.waitFor(ask, { timeout: PATIENCE, interval: 20 });
}
