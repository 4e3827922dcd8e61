import { closedItemsets } from '../statistics/itemsets/closed-itemsets.ts';
import { wilsonInterval } from '../statistics/proportions/wilson-interval.ts';
import type { ShareInterval } from '../statistics/proportions/interval.ts';
import { compareParts, type ExaminedRepair } from './examined-repair.ts';

/** Parts that failed together in several repairs, and no further part in all of them. */
export interface FailureSignature {
  readonly parts: readonly string[];
  readonly count: number;
  /** Wilson 95 % interval of its share of all repairs given. */
  readonly share: ShareInterval;
  /** Ids of the latest repairs that hold all its parts, in the order given. */
  readonly examples: readonly string[];
}

const MOST_EXAMPLES = 5;

/**
 * The signatures of a family: all closed sets of failed parts in at least `minimum` repairs, most frequent first, then the larger.
 * @param repairs - in order of time
 * @param minimum - fewest repairs, at least 1
 */
export function failureSignatures(repairs: readonly ExaminedRepair[], minimum: number): readonly FailureSignature[] {
  const failed = repairs.map((repair) => repair.failed);
  const parts = [...new Set(failed.flat())].sort(compareParts);
  const place = new Map(parts.map((part, at) => [part, at]));
  const sets = failed.map((set) => set.map((part) => place.get(part)!));
  return closedItemsets(sets, minimum)
    .map(({ items, count }) => ({
      parts: items.map((item) => parts[item]!),
      count,
      share: wilsonInterval(count, repairs.length, 0.95),
      examples: latestWith(items, sets).map((position) => repairs[position]!.repair),
    }))
    .sort((a, b) => b.count - a.count || b.parts.length - a.parts.length);
}

function latestWith(items: readonly number[], sets: readonly (readonly number[])[]): readonly number[] {
  const found: number[] = [];
  for (let position = sets.length - 1; position >= 0 && found.length < MOST_EXAMPLES; position -= 1) {
    const set = sets[position]!;
    if (items.every((item) => set.includes(item))) found.push(position);
  }
  return found.reverse();
}
