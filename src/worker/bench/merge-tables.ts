import { pointFromName, type DeclaredFamily, type Family, type TestPoint } from '../../domain/family.ts';
import type { Accuracy, Meter } from '../../domain/meter.ts';
import { MODES } from '../../domain/reading.ts';
import type { Repair } from '../../domain/repair.ts';

/** A family with what a table declares of it: points and parts are added or changed, the others stay, and silence changes nothing. */
export function mergedFamily(present: Family | undefined, { name, boost, points, parts }: DeclaredFamily): Family {
  const known = new Map(present?.points.map((point) => [point.name, point]));
  return {
    name,
    boost: boost ?? present?.boost ?? false,
    points: merged(present?.points ?? [], points.map((point) => mergedPoint(known.get(point.name), point)), nameOf), // prettier-ignore
    parts: merged(present?.parts ?? [], parts, ({ designator }) => designator),
  };
}

/** A repair with what a table says of it; an empty cell takes nothing away, and an outcome that is open is no news of one that is not. */
export function mergedRepair(present: Repair | undefined, brought: Repair): Repair {
  if (present === undefined) return brought;
  const { family, complaint, received, returned, outcome, replaced } = brought;
  return {
    ...present,
    ...brought,
    family: family === '' ? present.family : family,
    complaint: complaint === '' ? present.complaint : complaint,
    received: Number.isNaN(received) ? present.received : received,
    returned: Number.isNaN(returned) ? present.returned : returned,
    outcome: outcome === 'open' ? present.outcome : outcome,
    replaced: [...new Set([...present.replaced, ...replaced])],
  };
}

/** A meter with the ranges that a table gives added to its own, or in place of those of the same mode and end. */
export function mergedMeter(present: Meter | undefined, brought: Meter): Meter {
  if (present === undefined) return brought;
  const accuracies = merged(present.accuracies, brought.accuracies, ({ mode, upTo }) => `${mode} ${upTo}`);
  return { ...present, ...brought, accuracies: accuracies.toSorted(byModeAndRange) };
}

function nameOf({ name }: { readonly name: string }): string {
  return name;
}

/** A point that is what its name alone makes it is not declared to be anything. */
function mergedPoint(known: TestPoint | undefined, brought: TestPoint): TestPoint {
  if (known === undefined) return brought;
  const isDeclared = JSON.stringify(brought) !== JSON.stringify(pointFromName(brought.name));
  return isDeclared ? { ...known, ...brought } : known;
}

function byModeAndRange(first: Accuracy, second: Accuracy): number {
  return MODES.indexOf(first.mode) - MODES.indexOf(second.mode) || first.upTo - second.upTo;
}

function merged<Item>(present: readonly Item[], brought: readonly Item[], key: (item: Item) => string): Item[] {
  return [...new Map([...present, ...brought].map((item) => [key(item), item])).values()];
}
