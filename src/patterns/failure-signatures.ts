import { closedItemsets } from '../statistics/itemsets/closed-itemsets.ts';
import type { ShareInterval } from '../statistics/proportions/interval.ts';
import { countAlike } from './alike.ts';
import { compareParts, type ExaminedRepair } from './examined-repair.ts';
import { chancesGiven, type FailureModel } from './failure-model/failure-model.ts';

/** Parts that failed together in several repairs, and no further part in all of them. */
export interface FailureSignature {
  readonly parts: readonly string[];
  readonly count: number;
  /** How often all its parts fail, by the family's failure model, with 95 % limits. */
  readonly share: ShareInterval & { readonly middle: number };
  /** Ids of the latest repairs that hold all its parts, in the order given. */
  readonly examples: readonly string[];
}

const MOST_EXAMPLES = 5;

/**
 * The signatures of a family: all closed sets of failed parts in at least `minimum` repairs, most frequent first, then the larger.
 * @param repairs - in order of time
 * @param model - of the same repairs
 * @param minimum - fewest repairs, at least 1
 */
export function failureSignatures(
  repairs: readonly ExaminedRepair[],
  model: FailureModel,
  minimum: number,
): readonly FailureSignature[] {
  const chanceOf = chancesGiven(model, {});
  const alike = countAlike(repairs.map(({ failed }) => failed));
  const all = [...new Set(alike.flatMap(({ list }) => list))].sort(compareParts);
  const place = new Map(all.map((part, at) => [part, at]));
  const sets = alike.map(({ list, count }) => ({ items: list.map((part) => place.get(part)!), count }));
  return closedItemsets(sets, minimum)
    .map(({ items, count }) => ({ parts: items.map((item) => all[item]!), count }))
    .map(({ parts, count }) => {
      const { chance, low, high } = chanceOf(parts);
      return { parts, count, share: { middle: chance, lower: low, upper: high }, examples: latestWith(parts, repairs) };
    })
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
