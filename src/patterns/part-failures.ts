import type { Evidence } from '../judging/evidence.ts';
import { wilsonInterval } from '../statistics/proportions/wilson-interval.ts';

/** One repair of a family: what its readings prove of each part, and which parts were replaced. */
export interface ExaminedRepair {
  readonly repair: string;
  readonly evidence: ReadonlyMap<string, Evidence>;
  readonly replaced: ReadonlySet<string>;
}

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
  /** Wilson 95 % interval of the share of repairs in which it failed. */
  readonly share: { readonly low: number; readonly high: number };
}

/**
 * Counts failures and replacements by part, most failures first, then by name. Replaced is not failed: the two are counted apart.
 * @param repairs - all repairs of one family, with or without readings
 */
export function countPartFailures(repairs: readonly ExaminedRepair[]): readonly PartFailureCount[] {
  const parts = new Set(repairs.flatMap(({ evidence, replaced }) => [...evidence.keys(), ...replaced]));
  const byName = new Intl.Collator('en', { numeric: true });
  return [...parts]
    .map((part) => countPart(part, repairs))
    .sort((a, b) => b.failed - a.failed || b.suspected - a.suspected || byName.compare(a.part, b.part));
}

function countPart(part: string, repairs: readonly ExaminedRepair[]): PartFailureCount {
  const count = (test: (evidence: Evidence | undefined, replaced: boolean) => boolean): number =>
    repairs.filter((repair) => test(repair.evidence.get(part), repair.replaced.has(part))).length;
  const failed = count((evidence) => evidence?.finding === 'failed');
  const failedAs = (word: string): number =>
    count((evidence) => evidence?.finding === 'failed' && evidence.word === word);
  const share = wilsonInterval(failed, repairs.length, 0.95);
  return {
    part,
    failed,
    shorted: failedAs('shorted'),
    leaky: failedAs('leaky'),
    open: failedAs('open'),
    suspected: count((evidence) => evidence?.finding === 'suspected'),
    replaced: count((_, replaced) => replaced),
    replacedGood: count(
      (evidence, replaced) => replaced && evidence?.finding === 'good' && evidence.proof === 'out of circuit',
    ),
    share: { low: share.lower, high: share.upper },
  };
}
