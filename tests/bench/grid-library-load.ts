import { desc, op, table } from 'arquero';
import { VALUE } from '../../src/columns/reading-log.ts';
import { queryRows, type ReadingsQuery, type SortField } from '../../src/columns/query.ts';
import type { Judged } from '../../src/worker/bench/bench-data.ts';
import { ReadingsView } from '../../src/worker/bench/readings-view.ts';
import type { GridLine, GroupLine } from '../../src/worker/contract/readings.ts';
import { simulatedJudged } from './simulated-judged.ts';

/** One question asked of the worker and of a general-purpose columnar library in turn, with the milliseconds of each round. */
export interface Compared {
  readonly asked: string;
  readonly ours: readonly number[];
  readonly library: readonly number[];
}

interface Question {
  readonly asked: string;
  readonly query: ReadingsQuery;
  /** The same question to the library. */
  readonly library: () => unknown;
  /** Whether both say the same. */
  readonly agrees: () => boolean;
}

const ROUNDS = 9;
/** Lines that a grid asks for at once. */
const PAGE = 128;
const FAMILY = 'HERON-48';

/**
 * Times both over so many invented readings: the worker from the question to the first lines with the counts of all, or to
 * every group's line; the library to the numbers of the rows, or to each group's count and median.
 * @throws Error where the two do not say the same
 */
export function compareWithLibrary(readings: number): readonly Compared[] {
  const judged = simulatedJudged(readings);
  return questionsOf(judged).map(({ asked, query, library, agrees }) => {
    if (!agrees()) throw new Error(`${asked}: the library says something else.`);
    const ours: number[] = [];
    const theirs: number[] = [];
    for (let round = 0; round < ROUNDS; round += 1) {
      ours.push(timeOf(() => answer(judged, query)));
      theirs.push(timeOf(library));
    }
    return { asked, ours, library: theirs };
  });
}

function questionsOf(judged: Judged): readonly Question[] {
  const { verdicts } = judged;
  const { log } = judged.data;
  const { checks, families, points } = log.names;
  const pointAt = (row: number): string => points.label(checks.pointCode(log.check[row]!));
  const columns = table({
    value: log.value.map((value, row) => (log.state[row] === VALUE ? value : NaN)),
    family: Array.from(log.check, (check) => families.label(checks.familyCode(check))),
    point: Array.from(log.check, (_, row) => pointAt(row)),
  });
  const rowsOf = (query: ReadingsQuery): Uint32Array => queryRows(log, verdicts, query);

  const byNumber = sortedBy('reading', true);
  const libraryByNumber = (): ArrayLike<number> => columns.orderby(desc('value')).indices();
  const byName = sortedBy('point', false);
  const libraryByName = (): ArrayLike<number> => columns.orderby('point').indices();
  const ofFamily: ReadingsQuery = { filters: [{ field: 'family', oneOf: [FAMILY] }], sort: [] };
  const libraryOfFamily = (): ArrayLike<number> => columns.filter(`d => d.family === '${FAMILY}'`).indices();
  const libraryByPoint = (): readonly PointLine[] =>
    columns
      .groupby('point')
      .rollup({ count: op.count(), median: op.median('value') })
      .objects() as PointLine[];

  const numbersIn = (order: ArrayLike<number>): readonly number[] =>
    Array.from(order).flatMap((row) => (log.state[row] === VALUE ? [log.value[row]!] : []));
  return [
    {
      asked: 'sort by a number',
      query: byNumber,
      library: libraryByNumber,
      agrees: () => isSame(numbersIn(rowsOf(byNumber)), numbersIn(libraryByNumber())),
    },
    {
      asked: 'sort by a name',
      query: byName,
      library: libraryByName,
      // Each has its own order of letters: what must agree is which names stand together, in the order of the log.
      agrees: () => isSame(runsOf(rowsOf(byName), pointAt).sort(), runsOf(libraryByName(), pointAt).sort()),
    },
    {
      asked: 'filter by a name',
      query: ofFamily,
      library: libraryOfFamily,
      agrees: () => isSame([...rowsOf(ofFamily)], Array.from(libraryOfFamily())),
    },
    {
      asked: 'group by point, with medians',
      query: BY_POINT,
      library: libraryByPoint,
      agrees: () => {
        const theirs = new Map(libraryByPoint().map((line) => [line.point, line]));
        const lines = groupLines(judged);
        return (
          lines.length === theirs.size &&
          lines.every(({ group, readings, numbers }) => {
            const line = theirs.get(group);
            return line?.count === readings && (numbers === undefined || numbers.median === line.median);
          })
        );
      },
    },
  ];
}

interface PointLine {
  readonly point: string;
  readonly count: number;
  readonly median: number;
}

const BY_POINT: ReadingsQuery = { filters: [], sort: [], group: { by: 'point', folded: true, except: [] } };

/** What a grid is told of a query by a worker that was not asked it before: counts, and the first lines, or those of all groups. */
function answer(judged: Judged, query: ReadingsQuery): readonly GridLine[] {
  const view = new ReadingsView(judged);
  const { lines = PAGE } = view.count(query);
  return view.lines(query, 0, lines);
}

function groupLines(judged: Judged): readonly GroupLine[] {
  return answer(judged, BY_POINT).filter((line) => 'group' in line);
}

function sortedBy(field: SortField, descending: boolean): ReadingsQuery {
  return { filters: [], sort: [{ field, descending }] };
}

/** Each run of equal names as its name and a number that follows from its rows in their order. */
function runsOf(order: ArrayLike<number>, nameAt: (row: number) => string): string[] {
  const runs: { readonly name: string; sum: number }[] = [];
  for (const row of Array.from(order)) {
    const name = nameAt(row);
    if (runs.at(-1)?.name !== name) runs.push({ name, sum: 0 });
    const run = runs.at(-1)!;
    run.sum = (Math.imul(run.sum, 31) + row) | 0;
  }
  return runs.map(({ name, sum }) => `${name} ${sum}`);
}

function isSame<Item>(ours: readonly Item[], theirs: readonly Item[]): boolean {
  return ours.length === theirs.length && ours.every((item, at) => Object.is(item, theirs[at]));
}

function timeOf(work: () => unknown): number {
  const started = performance.now();
  work();
  return performance.now() - started;
}
