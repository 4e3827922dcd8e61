import { compareParts } from './examined-repair.ts';
import { cheapestExclusion, dropOf, leastDrops, needTable, type Exclusion, type NeedTable } from './kit-search.ts';

/** What one repair needed. */
export interface RepairNeed {
  readonly repair: string;
  readonly parts: readonly string[];
}

/** A kit, and for how many repairs every part that they needed is in it. */
export interface KitCoverage {
  /** In order of name. */
  readonly parts: readonly string[];
  readonly covered: number;
  /** Repairs that needed a part. */
  readonly repairs: number;
  /** Whether no better kit exists; with very many parts the search is cut short, and one may. */
  readonly proved: boolean;
}

/** The same with what it leaves out and costs. */
export interface PartsKit extends KitCoverage {
  /** Ids of the repairs that it does not cover. */
  readonly leftOut: readonly string[];
  /** Sum of the prices; undefined where none were given. */
  readonly price: number | undefined;
}

/**
 * The smallest kit that covers a share of the repairs, exact by branch and bound unless that would take long; with prices, the cheapest. Of equally good ones, one that covers most.
 * Repairs that needed no part do not count.
 *
 * @param share - above 0, up to 1
 * @param prices - of one of each part, at least 0, in any currency
 * @returns undefined where no repair needed a part, or a part that one needed has no price
 * @throws RangeError for a share outside its range
 */
export function smallestKit(
  needs: readonly RepairNeed[],
  share: number,
  prices?: ReadonlyMap<string, number>,
): PartsKit | undefined {
  if (!(share > 0 && share <= 1)) throw new RangeError(`A kit covers a share above 0 and up to 1, not ${share}.`);
  const table = needTable(needs);
  const costs = table.parts.map((part) => (prices ? prices.get(part) : 1));
  if (table.parts.length === 0 || costs.includes(undefined)) return undefined;
  const mayDrop = table.total - Math.ceil(share * table.total - 1e-9);
  const excluded = cheapestExclusion(table, mayDrop, costs as readonly number[]);
  const kit = kitWithout(table, excluded);
  const inKit = new Set(kit.parts);
  return {
    ...kit,
    leftOut: needs.filter(({ parts }) => !parts.every((part) => inKit.has(part))).map(({ repair }) => repair),
    price: prices && kit.parts.reduce((sum, part) => sum + (prices.get(part) ?? 0), 0),
  };
}

/**
 * For each size of kit, smallest first, a kit that covers most repairs, exact by branch and bound unless that would take long; sizes that cover less than a share of them are left out.
 * @param from - the least share worth showing, 0 to 1
 */
export function kitCurve(needs: readonly RepairNeed[], from: number): readonly KitCoverage[] {
  const table = needTable(needs);
  return leastDrops(table, (1 - from) * table.total + 1e-9)
    .map((excluded) => kitWithout(table, excluded))
    .reverse();
}

function kitWithout(table: NeedTable, { parts: excluded, proved }: Exclusion): KitCoverage {
  const missing = new Set(excluded);
  const parts = table.parts.filter((_, at) => !missing.has(at)).sort(compareParts);
  return { parts, covered: table.total - dropOf(table, excluded), repairs: table.total, proved };
}
