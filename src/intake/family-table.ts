import { pointFromName, type DeclaredFamily, type Part, type Role, type TestPoint } from '../domain/family.ts';
import { shorten } from './fault.ts';

/** What a row of a bands table says of a family's board; empty texts say nothing. */
export interface Declaration {
  readonly family: string;
  readonly boost: boolean | undefined;
  readonly point: string;
  readonly role: Role | undefined;
  readonly rail: string;
  readonly part: string;
  readonly nodes: readonly [string, string] | undefined;
}

interface Draft {
  boost: boolean | undefined;
  readonly points: Map<string, TestPoint>;
  readonly parts: Map<string, Part>;
}

/** Families put together from the rows that tell of them. */
export class FamilyTable {
  readonly #drafts = new Map<string, Draft>();

  /** Adds what a row declares. @returns why it contradicts an earlier row, as sentences, or undefined */
  declare(row: Declaration): string | undefined {
    const draft: Draft = this.#drafts.get(row.family) ?? { boost: undefined, points: new Map(), parts: new Map() };
    if (row.boost !== undefined && draft.boost !== undefined && row.boost !== draft.boost) {
      return `An earlier row says otherwise of the boost stage of “${shorten(row.family)}”. Correct one of the two.`;
    }
    const point = row.point === '' ? undefined : declaredPoint(row, draft.points.get(row.point));
    if (typeof point === 'string') return point;
    const part = row.part !== '' && row.nodes ? { designator: row.part, nodes: row.nodes } : undefined;
    const known = part && draft.parts.get(part.designator);
    if (part && known && !sameNodes(part.nodes, known.nodes)) {
      return `An earlier row puts “${shorten(part.designator)}” across other nodes. Correct one of the two.`;
    }
    draft.boost ??= row.boost;
    if (point) draft.points.set(point.name, point);
    if (part) draft.parts.set(part.designator, part);
    this.#drafts.set(row.family, draft);
    return undefined;
  }

  families(): DeclaredFamily[] {
    return [...this.#drafts].map(([name, draft]) => ({
      name,
      ...(draft.boost === undefined ? {} : { boost: draft.boost }),
      points: [...draft.points.values()],
      parts: [...draft.parts.values()],
    }));
  }
}

/** The point as a row and the earlier ones have it, or why they contradict each other. */
function declaredPoint(row: Declaration, known: TestPoint | undefined): TestPoint | string {
  const guess = pointFromName(row.point);
  const role = row.role ?? known?.role ?? (row.part === '' ? guess.role : 'part');
  const part = row.part !== '' ? row.part : (known?.part ?? (role === 'part' ? guess.part : undefined));
  const rail = row.rail !== '' ? row.rail : known?.rail;
  const differs = known && (known.role !== role || (known.part ?? part) !== part || (known.rail ?? rail) !== rail);
  if (differs) return `An earlier row says otherwise of the point “${shorten(row.point)}”. Correct one of the two.`;
  return { name: row.point, role, ...(part === undefined ? {} : { part }), ...(rail === undefined ? {} : { rail }) };
}

function sameNodes(first: readonly [string, string], second: readonly [string, string]): boolean {
  return (first[0] === second[0] && first[1] === second[1]) || (first[0] === second[1] && first[1] === second[0]);
}
