import { designatorOf } from '../../domain/family.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import type { Verdict } from '../../domain/verdict.ts';
import type { FamilyPage, Filter } from '../../session/answers.ts';
import { hashOf, readingsHash } from '../route.ts';
import { countOf } from '../words.ts';
import type { AskedChanges, FamilyAsked } from './families-query.ts';

/** What the figures of a family's page are drawn from. */
export interface FamilyView {
  readonly page: FamilyPage;
  readonly asked: FamilyAsked;
  /** The family's test points with readings. */
  readonly points: readonly string[];
  /** The day up to which boards were watched for coming back. */
  readonly watched: number;
  readonly mark: DecimalMark;
  /** Asks for another page, by its address. */
  readonly change: (changes: AskedChanges) => void;
}

const OUT_OF_BAND = ['conditional fail', 'fail'] as const satisfies readonly Verdict[];

/** Fewer repairs than this say nothing of how a family fails (common practice, no source). */
const REPAIRS_NEEDED = 10;

/** Why nothing can be said of how the family fails, as a sentence; undefined where something can. */
export function tooFew({ page, mark }: FamilyView): string | undefined {
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
export function noFailures(view: FamilyView): string | undefined {
  const few = tooFew(view);
  if (few !== undefined) return few;
  const { failures, repairs } = view.page;
  if (failures.some(({ failed, suspected }) => failed + suspected > 0)) return undefined;
  return `No part is proved failed or suspected in ${countOf(repairs, 'repair', view.mark)}: too few to say. Parts are proved failed by readings against bands.`;
}

/** The readings of the family's points that a test holds of, or of a text where none does, within the page's days and meter. */
function readingsOf({ page, asked }: FamilyView, points: readonly string[], more: readonly Filter[]): string {
  const { from, to, meter } = asked;
  const isTimed = more.some(({ field }) => field === 'time');
  const filters: readonly Filter[] = [
    { field: 'family', oneOf: [page.family] },
    ...(points.length === 0 ? [] : [{ field: 'point', oneOf: points } as const]),
    ...(isTimed || (from === undefined && to === undefined)
      ? []
      : [
          {
            field: 'time',
            ...(from === undefined ? {} : { from }),
            ...(to === undefined ? {} : { to: to + 86_399_999 }),
          } as const,
        ]),
    ...(meter === undefined ? [] : [{ field: 'meter', oneOf: [meter] } as const]),
    ...more,
  ];
  return readingsHash({ filters, sort: [] });
}

/** The readings out of band at the points of some parts. */
export function badReadings(view: FamilyView, parts: readonly string[], more: readonly Filter[] = []): string {
  const points = view.points.filter((point) => parts.includes(designatorOf(point) ?? ''));
  const bad: Filter = { field: 'verdict', oneOf: OUT_OF_BAND };
  return points.length === 0
    ? readingsOf(view, [], [{ field: 'text', contains: parts[0] ?? '' }, ...more])
    : readingsOf(view, points, [bad, ...more]);
}

/** All readings at a point. */
export function pointReadings(view: FamilyView, point: string, more: readonly Filter[] = []): string {
  return readingsOf(view, [point], more);
}

/** The repairs of the family whose record holds some words. */
export function repairsHash({ page }: FamilyView, words: readonly string[] = []): string {
  return hashOf('repairs', undefined, new URLSearchParams({ text: [page.family, ...words].join(' ') }));
}
