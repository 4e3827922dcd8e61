import { DAY } from '../../domain/day.ts';
import { designatorOf } from '../../domain/family.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import type { Verdict } from '../../domain/verdict.ts';
import type { FamilyPage, Filter, RepairsQuery } from '../../session/answers.ts';
import { hashOf, readingsHash } from '../route.ts';
import { countOf } from '../words.ts';
import { chosenBy, type AskedChanges, type FamilyAsked } from './families-query.ts';
import { writeRepairsQuery } from './repairs-query.ts';

/** What is known of a family, and how its numbers are written. */
export interface FamilyFigures {
  readonly page: FamilyPage;
  readonly asked: FamilyAsked;
  readonly mark: DecimalMark;
}

/** What the figures of a family's page are drawn from. */
export interface FamilyView extends FamilyFigures {
  /** Asks for another page, by its address. */
  readonly change: (changes: AskedChanges) => void;
  /** Keeps the price of a part, or that it has none. */
  readonly keepPrice: (part: string, price: number | undefined) => void;
  /** Keeps the fee for a board, or that there is none. */
  readonly keepFee: (fee: number | undefined) => void;
}

const OUT_OF_BAND = ['conditional fail', 'fail'] as const satisfies readonly Verdict[];

/** Fewer repairs than this say nothing of how a family fails (common practice, no source). */
export const REPAIRS_NEEDED = 10;

/** Why nothing can be said of how the family fails, as a sentence; undefined where something can. */
export function tooFew({ page, mark }: FamilyFigures): string | undefined {
  if (page.repairs === 0) {
    return page.allRepairs === 0
      ? 'No repair of this family is known: too few to say.'
      : 'No repair fits these filters: too few to say.';
  }
  if (page.repairs < REPAIRS_NEEDED) {
    return `${countOf(page.repairs, 'repair', mark)}: too few repairs to say, it takes ${REPAIRS_NEEDED}.`;
  }
  return undefined;
}

/** Why no failure can be counted, as a sentence: too few repairs, or none that proves anything. */
export function noFailures(view: FamilyFigures): string | undefined {
  const few = tooFew(view);
  if (few !== undefined) return few;
  const { failures, repairs } = view.page;
  if (failures.some(({ failed, suspected }) => failed + suspected > 0)) return undefined;
  return `No part is proved failed or suspected in ${countOf(repairs, 'repair', view.mark)}: too few to say. Parts are proved failed by readings against bands.`;
}

/** The readings at some of the family's points of the repairs that the page's filters leave; undefined where no filter of readings tells these repairs. */
function readingsOf(
  { page, asked }: FamilyView,
  points: readonly string[],
  more: readonly Filter[],
): string | undefined {
  const isToldByDays = asked.complaint === undefined && asked.bench === undefined;
  if (page.chosen.length === 0 && page.repairs < page.allRepairs && !isToldByDays) return undefined;
  const { meter } = asked;
  const filters: readonly Filter[] = [
    { field: 'family', oneOf: [page.family] },
    ...(points.length === 0 ? [] : [{ field: 'point', oneOf: points } as const]),
    ...chosenFilters(page, asked, more),
    ...(meter === undefined ? [] : [{ field: 'meter', oneOf: [meter] } as const]),
    ...more,
  ];
  return readingsHash({ filters, sort: [] });
}

/** The repairs that are left, by name where they are few, else by their days alone. */
function chosenFilters(page: FamilyPage, { from, to }: FamilyAsked, more: readonly Filter[]): readonly Filter[] {
  if (page.repairs === page.allRepairs) return [];
  if (page.chosen.length > 0) return [{ field: 'repair', oneOf: page.chosen }];
  if ((from === undefined && to === undefined) || more.some(({ field }) => field === 'time')) return [];
  return [
    {
      field: 'time',
      ...(from === undefined ? {} : { from }),
      ...(to === undefined ? {} : { to: to + DAY - 1 }),
    },
  ];
}

/** The readings out of band at the points of some parts. */
export function badReadings(
  view: FamilyView,
  parts: readonly string[],
  more: readonly Filter[] = [],
): string | undefined {
  const points = view.page.points.filter((point) => parts.includes(designatorOf(point) ?? ''));
  const bad: Filter = { field: 'verdict', oneOf: OUT_OF_BAND };
  return points.length === 0
    ? readingsOf(view, [], [{ field: 'text', contains: parts[0] ?? '' }, ...more])
    : readingsOf(view, points, [bad, ...more]);
}

/** All readings at a point. */
export function pointReadings(view: FamilyView, point: string, more: readonly Filter[] = []): string | undefined {
  return readingsOf(view, [point], more);
}

/** The repairs of the page that a mark counts. */
export function repairsHash({ page, asked }: FamilyView, counted: RepairsQuery): string {
  return hashOf('repairs', undefined, writeRepairsQuery({ family: page.family, ...chosenBy(asked), ...counted }));
}
