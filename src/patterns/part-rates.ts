import { compareParts } from './examined-repair.ts';
import { chancesGiven, type FailureModel } from './failure-model/failure-model.ts';
import { chancesOnBoard } from './failure-model/latent-classes.ts';

/** How often one part fails, by the family's failure model. Counts are of repairs. */
export interface PartRate {
  readonly part: string;
  /** In which it is proved failed. */
  readonly measured: number;
  /** Of which it is told whether it had failed. */
  readonly read: number;
  /** What the others are worth: in how many of them it is expected to have failed. */
  readonly inferred: number;
  readonly repairs: number;
  /** Undefined without repairs. */
  readonly rate: { readonly share: number; readonly low: number; readonly high: number } | undefined;
}

/** Every so many draws tell what is expected of the boards on which a part was not read. */
const DRAWS_APART = 12;

/** How often each part fails, highest rate first, then by name. */
export function partRates(model: FailureModel): readonly PartRate[] {
  const { parts, patterns, ofRepair } = model.seen;
  const expected = expectedUnread(model);
  const chanceOf = chancesGiven(model, {});
  const rates = parts.map((part, place): PartRate => {
    const { chance, low, high } = chanceOf([part]);
    let [measured, good] = [0, 0];
    for (const pattern of patterns) {
      if (pattern.failed.includes(place)) measured += pattern.count;
      if (pattern.good.includes(place)) good += pattern.count;
    }
    return {
      part,
      measured,
      read: measured + good,
      inferred: expected[place]!,
      repairs: ofRepair.length,
      rate: ofRepair.length === 0 ? undefined : { share: chance, low, high },
    };
  });
  return rates.sort((a, b) => (b.rate?.share ?? 0) - (a.rate?.share ?? 0) || compareParts(a.part, b.part));
}

/** In how many boards that do not tell of it each part is expected to have failed. */
function expectedUnread({ seen, draws }: FailureModel): Float64Array {
  const some = draws.filter((_, at) => at % DRAWS_APART === 0);
  const expected = new Float64Array(seen.parts.length);
  for (const pattern of seen.patterns) {
    if (pattern.failed.length + pattern.good.length === seen.parts.length) continue;
    for (const draw of some) {
      const chances = chancesOnBoard(draw, pattern);
      for (const part of pattern.failed) chances[part] = 0;
      chances.forEach((chance, part) => (expected[part]! += (chance * pattern.count) / some.length));
    }
  }
  return expected;
}
