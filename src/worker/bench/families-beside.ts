import { compareHolding, holdingOf, holdingTimes } from '../../patterns/do-repairs-hold.ts';
import { measured } from '../../patterns/examined-repair.ts';
import { countPartFailures } from '../../patterns/part-failures.ts';
import { standingOut } from '../../patterns/standing-out.ts';
import { whetherItPays } from '../../patterns/whether-it-pays.ts';
import type { CallContext } from '../contract/calls.ts';
import type { FamiliesBeside, FamilyQuery, FamilySide } from '../contract/families.ts';
import type { WorkProgress } from '../contract/progress.ts';
import type { Judged } from './bench-data.ts';
import { chosenOf } from './chosen-repairs.ts';
import { examineFamiliesPaced, repairsByFamily, type ExaminedFamily } from './examine.ts';
import { PacedWork } from './paced-work.ts';
import { workingPeriod } from './working-period.ts';

/**
 * Two families by the same filters: which classes of parts fail oftener in one, and whether one holds better. Undefined where either is not known.
 * @throws where the context's signal stops it
 */
export async function familiesBeside(
  judged: Judged,
  query: FamilyQuery,
  other: string,
  context: CallContext<WorkProgress>,
): Promise<FamiliesBeside | undefined> {
  const work = new PacedWork(context, repairsByFamily(judged).size);
  try {
    const families = await examineFamiliesPaced(judged, work);
    const named = (name: string): ExaminedFamily | undefined => families.find(({ family }) => family.name === name);
    const [first, second] = [named(query.family), named(other)];
    return first && second && compare(judged, query, first, second);
  } finally {
    work.close();
  }
}

function compare(judged: Judged, query: FamilyQuery, first: ExaminedFamily, second: ExaminedFamily): FamiliesBeside {
  const watched = query.watched ?? workingPeriod(judged)?.last ?? 0;
  const sideOf = (family: ExaminedFamily) => {
    const repairs = chosenOf(judged, family, query);
    const { lifetimes } = holdingTimes(repairs, watched);
    const side: FamilySide = {
      family: family.family.name,
      repairs: repairs.length,
      failures: countPartFailures(repairs),
      holding: holdingOf(lifetimes),
      pays: whetherItPays(repairs, lifetimes),
    };
    return { side, repairs, lifetimes };
  };
  const [here, there] = [sideOf(first), sideOf(second)];
  return {
    families: [here.side, there.side],
    classes: standingOut(measured(here.repairs), measured(there.repairs)),
    holdingTest: compareHolding(here.lifetimes, there.lifetimes),
    watched,
  };
}
