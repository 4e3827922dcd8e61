import type { Repair } from './repair.ts';

/**
 * Which boards came back, by the id of the repair before: another repair names it as the one that it is a comeback of, or its own outcome says so;
 * either is enough, and every figure, page, list and sheet goes by this.
 * @returns the first day on which the board was received again in milliseconds; `NaN` where that is not known
 */
export function comebacksAmong(records: Iterable<Repair>): ReadonlyMap<string, number> {
  const cameBack = new Map<string, number>();
  for (const { id, outcome, comebackOf, received } of records) {
    if (outcome === 'comeback' && !cameBack.has(id)) cameBack.set(id, NaN);
    if (comebackOf === undefined) continue;
    const known = cameBack.get(comebackOf) ?? NaN;
    cameBack.set(
      comebackOf,
      Number.isNaN(known) ? received : Number.isNaN(received) ? known : Math.min(known, received),
    );
  }
  return cameBack;
}
