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
    const key = partKey({ family, part });
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

/** What is to be changed of the settings: one given as undefined is taken away, what is not named stays as it is. */
export interface SettingsChanges {
  /** Parts that get another price, or none any more. */
  readonly prices?: readonly (Omit<PartPrice, 'price'> & { readonly price: number | undefined })[];
  readonly fee?: number | undefined;
  readonly technician?: string | undefined;
  readonly goodRule?: GoodRule | undefined;
}

/** Settings after changes. */
export function changedSettings(settings: BenchSettings, { prices = [], ...changes }: SettingsChanges): BenchSettings {
  const byPart = new Map(settings.prices.map((one) => [partKey(one), one]));
  for (const { family, part, price } of prices) {
    if (price === undefined) byPart.delete(partKey({ family, part }));
    else byPart.set(partKey({ family, part }), { family, part, price });
  }
  const rest = Object.entries({ ...settings, ...changes }).filter(([, value]) => value !== undefined);
  return { ...Object.fromEntries(rest), prices: [...byPart.values()] };
}

/** The changes that lead from some settings to others. */
export function settingsChanges(before: BenchSettings, after: BenchSettings): SettingsChanges {
  const { prices: old, ...earlier } = before;
  const { prices, ...later } = after;
  const fields = [...new Set([...Object.keys(earlier), ...Object.keys(later)])] as (keyof typeof later)[];
  const changed = fields.filter((field) => JSON.stringify(earlier[field]) !== JSON.stringify(later[field]));
  const known = new Map(old.map((one) => [partKey(one), one.price]));
  const kept = new Set(prices.map(partKey));
  return {
    ...Object.fromEntries(changed.map((field) => [field, later[field]])),
    prices: [
      ...old.filter((one) => !kept.has(partKey(one))).map(({ family, part }) => ({ family, part, price: undefined })),
      ...prices.filter((one) => known.get(partKey(one)) !== one.price),
    ],
  };
}

function partKey({ family, part }: Pick<PartPrice, 'family' | 'part'>): string {
  return JSON.stringify([family, part]);
}
