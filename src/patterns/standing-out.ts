import { partClass } from '../domain/family.ts';
import { wilsonInterval } from '../statistics/proportions/wilson-interval.ts';
import type { ShareInterval } from '../statistics/proportions/interval.ts';
import { benjaminiHochberg } from '../statistics/significance/benjamini-hochberg.ts';
import { fisherExact } from '../statistics/significance/fisher-exact.ts';
import { countAlike } from './alike.ts';
import { compareParts, type ExaminedRepair } from './examined-repair.ts';

/** How many repairs hold a failed part of a class, of how many; with the Wilson 95 % interval of the share. */
export interface ClassShare {
  readonly count: number;
  readonly repairs: number;
  readonly share: ShareInterval;
}

export interface ClassContrast {
  /** Class letters of the designators: Q, D, BR. */
  readonly partClass: string;
  readonly here: ClassShare;
  readonly elsewhere: ClassShare;
  /** Fisher's exact test, two-sided. */
  readonly p: number;
  /** The same, adjusted over all classes (Benjamini and Hochberg). */
  readonly adjusted: number;
}

/**
 * Which classes of parts fail oftener or less often in this family than in all others, the surest first. By class, because designators of
 * different families are different parts.
 * @returns undefined where either side has no repair
 */
export function standingOut(
  here: readonly ExaminedRepair[],
  elsewhere: readonly ExaminedRepair[],
): readonly ClassContrast[] | undefined {
  if (here.length === 0 || elsewhere.length === 0) return undefined;
  const [own, other] = [countClasses(here), countClasses(elsewhere)];
  const classes = [...new Set([...own.keys(), ...other.keys()])].sort(compareParts);
  const contrasts = classes.map((name) => {
    const [a, b] = [own.get(name) ?? 0, other.get(name) ?? 0];
    return {
      partClass: name,
      here: classShare(a, here.length),
      elsewhere: classShare(b, elsewhere.length),
      p: fisherExact(a, here.length - a, b, elsewhere.length - b).twoSided,
    };
  });
  const adjusted = benjaminiHochberg(contrasts.map(({ p }) => p));
  return contrasts
    .map((contrast, at) => ({ ...contrast, adjusted: adjusted[at]! }))
    .sort((a, b) => a.adjusted - b.adjusted || a.p - b.p);
}

function countClasses(repairs: readonly ExaminedRepair[]): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  for (const { list, count } of countAlike(repairs.map(({ failed }) => failed))) {
    for (const name of new Set(list.map(partClass))) counts.set(name, (counts.get(name) ?? 0) + count);
  }
  return counts;
}

function classShare(count: number, repairs: number): ClassShare {
  return { count, repairs, share: wilsonInterval(count, repairs, 0.95) };
}
