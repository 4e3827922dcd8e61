import { goodRuleFault, type GoodRule } from './good-rule.ts';

/** What one of a part costs, in the bench's currency, at least 0. */
export interface PartPrice {
  readonly family: string;
  /** Reference designator, such as `Q1`. */
  readonly part: string;
  readonly price: number;
}

/** What a bench states once for all its repairs. */
export interface BenchSettings {
  /** At most one for each part of a family. */
  readonly prices: readonly PartPrice[];
  /** What a board returned working earns, in the currency of the prices, at least 0. */
  readonly fee?: number;
  /** Who works at the bench: stands beside every change in its history. */
  readonly technician?: string;
  /** Which readings count as known good, where that is not the usual. */
  readonly goodRule?: GoodRule;
}

export const NO_SETTINGS: BenchSettings = { prices: [] };

/** Why settings cannot be used, as a sentence; undefined where they can. */
export function settingsFault({ prices, fee, technician, goodRule }: BenchSettings): string | undefined {
  const seen = new Set<string>();
  for (const { family, part, price } of prices) {
    if (family.trim() === '' || part.trim() === '') return 'A price needs the family and the part that it is of.';
    if (!isAmount(price)) return `The price of ${part} of ${family} must be a number of at least 0.`;
    const key = JSON.stringify([family, part]);
    if (seen.has(key)) return `${part} of ${family} has two prices: give one.`;
    seen.add(key);
  }
  if (fee !== undefined && !isAmount(fee)) return 'The fee for a board must be a number of at least 0.';
  if (technician?.trim() === '') return 'A technician needs a name, or none is stated.';
  return goodRule && goodRuleFault(goodRule);
}

function isAmount(amount: number): boolean {
  return Number.isFinite(amount) && amount >= 0;
}
