import type { Repair } from '../../src/domain/repair.ts';
import type { Evidence } from '../../src/judging/evidence.ts';
import { examinedRepair, type Examination, type ExaminedRepair } from '../../src/patterns/examined-repair.ts';

export const SHORTED: Evidence = { finding: 'failed', word: 'shorted', proof: 'out of circuit', rows: [] };
export const GOOD: Evidence = { finding: 'good', proof: 'out of circuit', rows: [] };
export const SUSPECTED: Evidence = { finding: 'suspected', word: 'shorted', rows: [] };
export const CONTRADICTORY: Evidence = { finding: 'contradictory', word: 'leaky', rows: [] };

export const DAY = 86_400_000;
/** A Monday. */
export const MONDAY = Date.UTC(2026, 0, 5);

/** A bench's record with what a test does not care about filled in. */
export function record(given: Partial<Repair>): Repair {
  return {
    id: 'T-0001',
    family: 'HERON-48',
    complaint: 'no standby light',
    received: MONDAY,
    returned: MONDAY + DAY,
    outcome: 'returned working',
    replaced: [],
    ...given,
  };
}

/** A repair with the given evidence, and nothing replaced unless said. */
export function examined(
  evidence: Readonly<Record<string, Evidence>>,
  given: Partial<Omit<Examination, 'evidence'>> = {},
): ExaminedRepair {
  return examinedRepair({
    repair: 'T-0001',
    replaced: new Set(),
    ...given,
    evidence: new Map(Object.entries(evidence)),
  });
}

/** A repair in which the parts are proved failed. */
export function failing(parts: readonly string[], given: Partial<Omit<Examination, 'evidence'>> = {}): ExaminedRepair {
  return examined(Object.fromEntries(parts.map((part) => [part, SHORTED])), given);
}

/** So many times what `make` gives. */
export function times<Item>(count: number, make: (at: number) => Item): Item[] {
  return Array.from({ length: count }, (_, at) => make(at));
}
