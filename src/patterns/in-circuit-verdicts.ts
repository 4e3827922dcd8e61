import { maskedBy, type Part } from '../domain/family.ts';
import { betaQuantile } from '../statistics/distributions/beta.ts';
import type { ShareInterval } from '../statistics/proportions/interval.ts';
import type { Evidence } from '../judging/evidence.ts';
import { compareParts, type ExaminedRepair } from './examined-repair.ts';
import { chanceOfAll, type FailureModel } from './failure-model/failure-model.ts';

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
  /** The share in which it is the one, with 95 % limits; undefined where nothing tells. */
  readonly share: (ShareInterval & { readonly middle: number }) | undefined;
}

/**
 * Of the times a part reads short in circuit, how often is it the one? Most readings first. A repair counts as settled only where something
 * other than the in-circuit reading settled it: the part measured out of circuit, cleared by removal, or left over when all others were good.
 *
 * Of parts across the same nodes the settled repairs alone mislead, since a bench lifts what it suspects and stops at the first bad one: there the
 * family's failure model tells how often the part has failed where one of them has. Of a part by itself it is the beta posterior of the settled
 * ones from Jeffreys' prior (Brown, Cai and DasGupta 2001, Statistical Science 16:101-133).
 * @param model - of the same repairs
 */
export function inCircuitVerdicts(
  repairs: readonly ExaminedRepair[],
  model: FailureModel,
  parts: readonly Part[],
): readonly InCircuitVerdict[] {
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
      share: amongGroup(model, part, maskedBy(parts, part)) ?? byItself(failed, good),
    }))
    .sort((a, b) => b.readBad - a.readBad || compareParts(a.part, b.part));
}

function amongGroup(model: FailureModel, part: string, others: readonly string[]): InCircuitVerdict['share'] {
  if (others.length === 0) return undefined;
  const { chance, low, high } = chanceOfAll(model, [part], { oneOf: [[part, ...others]] });
  return { middle: chance, lower: low, upper: high };
}

function byItself(failed: number, good: number): InCircuitVerdict['share'] {
  if (failed + good === 0) return undefined;
  const [a, b] = [failed + 0.5, good + 0.5];
  return { middle: a / (a + b), lower: betaQuantile(0.025, a, b), upper: betaQuantile(0.975, a, b) };
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
