import { designatorOf, maskingGroups, roleOf, type Family, type Role } from '../../domain/family.ts';
import { familyFault } from '../../domain/fault.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import { countOf, listText } from '../words.ts';

/** A test point while it is typed; a row without a name is no point. */
export interface PointDraft {
  readonly name: string;
  readonly role: Role;
  readonly part: string;
  readonly rail: string;
}

/** A part while it is typed; a row without anything is no part. */
export interface PartDraft {
  readonly designator: string;
  readonly first: string;
  readonly second: string;
}

export interface FamilyDraft {
  readonly name: string;
  readonly boost: boolean;
  readonly points: readonly PointDraft[];
  readonly parts: readonly PartDraft[];
}

export const EMPTY_POINT: PointDraft = { name: '', role: 'main', part: '', rail: '' };
export const EMPTY_PART: PartDraft = { designator: '', first: '', second: '' };
export const EMPTY_FAMILY: FamilyDraft = { name: '', boost: false, points: [EMPTY_POINT], parts: [EMPTY_PART] };

/** A draft of a family that is known; `name` may be another, for a copy. */
export function familyDraftOf({ boost, points, parts }: Family, name: string): FamilyDraft {
  return {
    name,
    boost,
    points: points.map(({ name: point, role, part = '', rail = '' }) => ({ name: point, role, part, rail })),
    parts: parts.map(({ designator, nodes: [first, second] }) => ({ designator, first, second })),
  };
}

/** A point after its name was typed: role and part follow from the name until somebody says otherwise. */
export function renamedPoint(point: PointDraft, name: string): PointDraft {
  const guessed = point.role === roleOf(point.name) || point.name.trim() === '';
  const part = point.part === (designatorOf(point.name) ?? '') ? (designatorOf(name.trim()) ?? '') : point.part;
  return { ...point, name, part, role: guessed ? roleOf(name.trim()) : point.role };
}

/** The family that a draft describes, or the first thing that is wrong with it, as a sentence. */
export function readFamily(draft: FamilyDraft): { readonly family: Family } | { readonly fault: string } {
  const points = draft.points.map(trimmed).filter(({ name, part, rail }) => name + part + rail !== '');
  const parts = draft.parts.map(trimmed).filter(({ designator, first, second }) => designator + first + second !== '');
  const nameless = points.findIndex(({ name }) => name === '');
  if (nameless !== -1) return { fault: 'A test point has a part or a rail and no name: name it.' };
  if (parts.some(({ designator }) => designator === ''))
    return { fault: 'A part has nodes and no designator: name it.' };
  const bare = parts.find(({ first, second }) => first === '' || second === '');
  if (bare) return { fault: `The part ${bare.designator} needs both of its nodes.` };
  const partless = points.find(({ role, part }) => role === 'part' && part === '');
  if (partless) return { fault: `The test point ${partless.name} measures a part: say which.` };
  const family: Family = {
    name: draft.name.trim(),
    boost: draft.boost,
    points: points.map(({ name, role, part, rail }) => ({
      name,
      role,
      ...(part === '' ? {} : { part }),
      ...(rail === '' ? {} : { rail }),
    })),
    parts: parts.map(({ designator, first, second }) => ({ designator, nodes: [first, second] })),
  };
  const fault = familyFault(family);
  return fault === undefined ? { family } : { fault };
}

/**
 * Points and parts that a family loses although readings were taken there, each with how many.
 * @param counts - readings of each point
 */
export function whatGoes(
  known: Family,
  next: Family,
  counts: ReadonlyMap<string, number>,
  mark: DecimalMark,
): readonly string[] {
  const told = (name: string, noun: string, points: readonly { readonly name: string }[]): readonly string[] => {
    const readings = points.reduce((sum, point) => sum + (counts.get(point.name) ?? 0), 0);
    return readings === 0 ? [] : [`The ${noun} ${name}, with ${countOf(readings, 'reading', mark)}.`];
  };
  const points = new Set(next.points.map(({ name }) => name));
  const parts = new Set(next.parts.map(({ designator }) => designator));
  return [
    ...known.points.filter(({ name }) => !points.has(name)).flatMap((point) => told(point.name, 'point', [point])),
    ...known.parts
      .filter(({ designator }) => !parts.has(designator))
      .flatMap(({ designator }) =>
        told(
          designator,
          'part',
          known.points.filter(({ part }) => part === designator),
        ),
      ),
  ];
}

/** What a draft's parts and points mean for each other, each a sentence; nothing here keeps it from being saved. */
export function familyNotes(draft: FamilyDraft): readonly string[] {
  const parts = draft.parts.map(trimmed).filter(({ first, second }) => first !== '' && second !== '');
  const masks = maskingGroups(
    parts.map(({ designator, first, second }) => ({ designator, nodes: [first, second] as const })),
  ).map((group) => `${listText(group)} lie across the same nodes: in circuit they mask each other, and only a reading with the part out tells which is bad.`); // prettier-ignore
  const known = new Set(draft.parts.map(({ designator }) => designator.trim()));
  const named = draft.points.map(({ part }) => part.trim()).filter((part) => part !== '' && !known.has(part));
  const unknown = [...new Set(named)];
  const missing = unknown.length === 0 ? [] : [`${listText(unknown)} ${unknown.length === 1 ? 'has' : 'have'} no nodes yet, so that nobody knows what masks ${unknown.length === 1 ? 'it' : 'them'}.`]; // prettier-ignore
  const rails = [...new Set(draft.points.map(({ rail }) => rail.trim()))].filter((rail) => rail !== '');
  const agreeing = rails.flatMap((rail) => {
    const own = draft.points.filter((point) => point.rail.trim() === rail).map(({ name }) => name.trim());
    return own.length < 2 ? [] : [`${listText(own)} carry ${rail} and must agree.`];
  });
  return [...masks, ...agreeing, ...missing];
}

function trimmed<Draft extends object>(draft: Draft): Draft {
  const entries = Object.entries(draft).map(([key, value]: [string, unknown]) => [key, typeof value === 'string' ? value.trim() : value]); // prettier-ignore
  return Object.fromEntries(entries) as Draft;
}
