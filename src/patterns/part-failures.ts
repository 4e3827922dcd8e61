import type { Evidence } from '../judging/evidence.ts';
import { compareParts, type ExaminedRepair } from './examined-repair.ts';

/** How often one part failed and was replaced in the repairs of its family. All counts are of repairs. */
export interface PartFailureCount {
  readonly part: string;
  readonly failed: number;
  readonly shorted: number;
  readonly leaky: number;
  readonly open: number;
  /** Read bad in circuit, and nothing settled whether it or a part across it was to blame. */
  readonly suspected: number;
  readonly replaced: number;
  /** Replaced although it had measured good out of circuit. */
  readonly replacedGood: number;
}

/**
 * Counts failures and replacements by part, most failures first, then by name. Replaced is not failed: the two are counted apart.
 * @param repairs - all repairs of one family, with or without readings; none gives no counts
 */
export function countPartFailures(repairs: readonly ExaminedRepair[]): readonly PartFailureCount[] {
  const tallies = new Map<string, Tally>();
  const tallyOf = (part: string): Tally => {
    const known = tallies.get(part);
    if (known !== undefined) return known;
    const fresh = { failed: 0, shorted: 0, leaky: 0, open: 0, suspected: 0, replaced: 0, replacedGood: 0 };
    tallies.set(part, fresh);
    return fresh;
  };
  for (const { evidence, replaced } of repairs) {
    for (const [part, own] of evidence) addEvidence(tallyOf(part), own, replaced.has(part));
    for (const part of replaced) tallyOf(part).replaced += 1;
  }
  return [...tallies]
    .map(([part, tally]) => ({ part, ...tally }))
    .sort((a, b) => b.failed - a.failed || b.suspected - a.suspected || compareParts(a.part, b.part));
}

type Tally = Record<Exclude<keyof PartFailureCount, 'part'>, number>;

function addEvidence(tally: Tally, { finding, word, proof }: Evidence, replaced: boolean): void {
  if (finding === 'suspected') tally.suspected += 1;
  if (finding === 'good' && proof === 'out of circuit' && replaced) tally.replacedGood += 1;
  if (finding !== 'failed') return;
  tally.failed += 1;
  if (word !== undefined && word !== 'good') tally[word] += 1;
}
