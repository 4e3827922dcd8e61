import type { ExaminedRepair } from './examined-repair.ts';

/** How much was renewed, measured against what the readings prove. */
export const RENEWALS = ['only what measured bad', 'whole group renewed', 'neither'] as const;
export type Renewal = (typeof RENEWALS)[number];

/**
 * Whether a repair renewed just the parts that measured bad, or others along with them: those across the same nodes, by habit, or as a precaution.
 * `neither` where nothing was replaced, nothing measured bad, or a part that measured bad was left.
 */
export function renewalOf({ failed, replaced }: ExaminedRepair): Renewal {
  if (failed.length === 0 || !failed.every((part) => replaced.has(part))) return 'neither';
  return replaced.size === failed.length ? 'only what measured bad' : 'whole group renewed';
}
