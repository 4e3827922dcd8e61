import { wilsonInterval } from '../statistics/proportions/wilson-interval.ts';
import type { ShareInterval } from '../statistics/proportions/interval.ts';
import type { Evidence } from '../judging/evidence.ts';
import { compareParts, type ExaminedRepair } from './examined-repair.ts';

/** What an in-circuit reading of a part is worth. All counts are of repairs. */
export interface InCircuitVerdict {
  readonly part: string;
  /** It read shorted or leaky in circuit. */
  readonly readBad: number;
  /** And was proved to be the one, by more than that reading. */
  readonly wasIt: number;
  /** And was proved good. */
  readonly wasGood: number;
  /** And nothing settled it. */
  readonly unsettled: number;
  /** Wilson 95 % interval of the share in which it was the one, of the settled; undefined where none was. */
  readonly share: ShareInterval | undefined;
}

/**
 * Of the times a part read short in circuit, how often was it the one? Most readings first. A repair counts as settled only where something
 * other than the in-circuit reading settled it: the part measured out of circuit, cleared by removal, or left over when all others were good.
 */
export function inCircuitVerdicts(repairs: readonly ExaminedRepair[]): readonly InCircuitVerdict[] {
  const tallies = new Map<string, Record<Settled, number>>();
  for (const { badInCircuit, evidence } of repairs) {
    for (const part of badInCircuit) {
      const tally = tallies.get(part) ?? { failed: 0, good: 0, unsettled: 0 };
      tallies.set(part, tally);
      tally[settled(evidence.get(part))] += 1;
    }
  }
  return [...tallies]
    .map(([part, { failed, good, unsettled }]) => ({
      part,
      readBad: failed + good + unsettled,
      wasIt: failed,
      wasGood: good,
      unsettled,
      share: failed + good === 0 ? undefined : wilsonInterval(failed, failed + good, 0.95),
    }))
    .sort((a, b) => b.readBad - a.readBad || compareParts(a.part, b.part));
}

type Settled = 'failed' | 'good' | 'unsettled';

function settled(evidence: Evidence | undefined): Settled {
  if (evidence?.finding === 'failed') {
    const { proof } = evidence;
    return proof === 'out of circuit' || proof === 'all others across it are good' ? 'failed' : 'unsettled';
  }
  if (evidence?.finding === 'cleared') return 'good';
  return evidence?.finding === 'good' && evidence.proof === 'out of circuit' ? 'good' : 'unsettled';
}
