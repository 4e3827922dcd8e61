import { fisherExact } from '../statistics/significance/fisher-exact.ts';
import { holm } from '../statistics/significance/holm.ts';
import { chancesGiven, type Chance, type FailureModel } from './failure-model/failure-model.ts';

/** Two parts that each are proved failed at least once. All counts are of repairs in which both were read. */
export interface PartPair {
  readonly parts: readonly [string, string];
  readonly together: number;
  readonly first: number;
  readonly second: number;
  readonly repairs: number;
  /** How often both fail, by the family's failure model. */
  readonly both: Chance;
  /** How many times oftener together than if they had nothing to do with each other, by the same model. */
  readonly lift: number;
  /** Fisher's exact test, one-sided: chance of as many together or more if they had nothing to do with each other. */
  readonly p: number;
  /** The same, adjusted over all pairs (Holm): one family in twenty has any false pair up to 0.05. */
  readonly adjusted: number;
}

/**
 * Which parts fail together: every pair of parts that each are proved failed at least once, the surest first.
 *
 * The test is over boards on which both were read. Which parts are read hangs on what was read before, and so on one of the two at most in a way that
 * leaves their odds ratio as it is; boards on which one was not read tell nothing of the pair.
 */
export function pairsFailingTogether(model: FailureModel): readonly PartPair[] {
  const { parts, patterns } = model.seen;
  const size = parts.length;
  const counts = new Uint32Array(size * size);
  const failedAndRead = new Uint32Array(size * size);
  const read = new Uint32Array(size * size);
  for (const { failed, good, count } of patterns) {
    const told = [...failed, ...good];
    for (const a of failed) for (const b of failed) counts[a * size + b]! += count;
    for (const a of failed) for (const b of told) failedAndRead[a * size + b]! += count;
    for (const a of told) for (const b of told) read[a * size + b]! += count;
  }
  const often = [...parts.keys()].filter((part) => counts[part * size + part]! > 0);
  const chanceOf = chancesGiven(model, {});
  const single = new Map(often.map((part) => [part, chanceOf([parts[part]!]).chance]));
  const pairs = often.flatMap((a, at) =>
    often.slice(at + 1).map((b) => {
      const [together, whole] = [counts[a * size + b]!, read[a * size + b]!];
      const [first, second] = [failedAndRead[a * size + b]!, failedAndRead[b * size + a]!];
      const names = [parts[a]!, parts[b]!] as const;
      const both = chanceOf(names);
      return {
        parts: names,
        together,
        first,
        second,
        repairs: whole,
        both,
        lift: both.chance / (single.get(a)! * single.get(b)!),
        p: fisherExact(together, first - together, second - together, whole - first - second + together).greater,
      };
    }),
  );
  const adjusted = holm(pairs.map(({ p }) => p));
  return pairs
    .map((pair, at) => ({ ...pair, adjusted: adjusted[at]! }))
    .sort((a, b) => a.adjusted - b.adjusted || a.p - b.p || b.together - a.together);
}
