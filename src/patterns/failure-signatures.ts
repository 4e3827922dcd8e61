import { closedItemsets } from '../statistics/itemsets/closed-itemsets.ts';
import { wilsonInterval } from '../statistics/proportions/wilson-interval.ts';
import type { ShareInterval } from '../statistics/proportions/interval.ts';
import { countAlike } from './alike.ts';
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
  const alike = countAlike(repairs.map(({ failed }) => failed));
  const all = [...new Set(alike.flatMap(({ list }) => list))].sort(compareParts);
  const place = new Map(all.map((part, at) => [part, at]));
  const sets = alike.map(({ list, count }) => ({ items: list.map((part) => place.get(part)!), count }));
  return closedItemsets(sets, minimum)
    .map(({ items, count }) => ({ parts: items.map((item) => all[item]!), count }))
    .map(({ parts, count }) => ({
      parts,
      count,
      share: wilsonInterval(count, repairs.length, 0.95),
      examples: latestWith(parts, repairs),
    }))
    .sort((a, b) => b.count - a.count || b.parts.length - a.parts.length);
}

function latestWith(parts: readonly string[], repairs: readonly ExaminedRepair[]): readonly string[] {
  const found: string[] = [];
  for (let position = repairs.length - 1; position >= 0 && found.length < MOST_EXAMPLES; position -= 1) {
    const { repair, failed } = repairs[position]!;
    if (parts.every((part) => failed.includes(part))) found.push(repair);
  }
  return found.reverse();
}
