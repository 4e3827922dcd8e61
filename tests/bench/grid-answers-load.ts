import { DERIVED_FIELDS } from '../../src/columns/derived.ts';
import { GROUP_FIELDS } from '../../src/columns/groups.ts';
import { LogBuilder } from '../../src/columns/log-builder.ts';
import type { ReadingLog } from '../../src/columns/reading-log.ts';
import { EMPTY_BENCH, judgeBench } from '../../src/worker/bench/bench-data.ts';
import { editLog, withPatches } from '../../src/worker/bench/reading-edits.ts';
import { judgePatched, readCells } from '../../src/worker/bench/reading-edits-desk.ts';
import { ReadingsView } from '../../src/worker/bench/readings-view.ts';
import type { ReadingsQuery } from '../../src/columns/query.ts';
import { BANDS, METERS } from '../support/bench/scenario.ts';
import { simulateBench } from '../support/bench/simulate.ts';

/** What was asked, and how long each answer took, in milliseconds. */
export type AnswerTimes = readonly (readonly [string, readonly number[]])[];

const ALL: ReadingsQuery = { filters: [], sort: [] };
const ROUNDS = 5;
/** Lines that a grid asks for at once. */
const PAGE = 128;

/** Times what a grid asks the worker about a log of so many invented readings. */
export function measureAnswers(readings: number): AnswerTimes {
  const judged = judgeBench({ ...EMPTY_BENCH, log: simulatedLog(readings), bands: BANDS, meters: METERS });
  const edited = editLog(judged.data.log, []);
  const times = (work: () => void): number[] =>
    Array.from({ length: ROUNDS }, () => {
      const start = performance.now();
      work();
      return performance.now() - start;
    });
  const fresh = (): ReadingsView => new ReadingsView(judged);
  const first = (query: ReadingsQuery): number[] =>
    times(() => {
      const view = fresh();
      view.count(query);
      view.lines(query, 0, PAGE);
    });
  const sorted = (field: ReadingsQuery['sort'][number]['field']): ReadingsQuery => ({
    ...ALL,
    sort: [{ field, descending: true }],
  });
  return [
    ['first lines', first(ALL)],
    ['sorted by reading', first(sorted('reading'))],
    ['sorted by repair', first(sorted('repair'))],
    ...DERIVED_FIELDS.map((field) => [`sorted by ${field}`, first(sorted(field))] as const),
    ...GROUP_FIELDS.map((by) => {
      const query: ReadingsQuery = { ...ALL, group: { by, folded: true, except: [] } };
      const all = times(() => {
        const view = fresh();
        view.lines(query, 0, view.count(query).lines ?? 0);
      });
      return [`grouped by ${by}, every group's line with its medians`, all] as const;
    }),
    [
      'one number edited, judged anew and listed',
      times(() => {
        const cells = [{ first: 7, last: 7, field: 'reading', text: '12.34' }] as const;
        const { patches } = readCells(judged, edited, cells, (line) => line, '.');
        const after = judgePatched(judged, patches);
        if (after === undefined) throw new Error('The edited reading was to be judged by itself.');
        new ReadingsView(after, withPatches(edited, after.data.log, patches)).lines(ALL, 0, PAGE);
      }),
    ],
  ];
}

function simulatedLog(count: number): ReadingLog {
  const builder = new LogBuilder(undefined, count);
  const { readings } = simulateBench({ seed: 1, repairs: Math.ceil(count / 23), perDay: 12 });
  for (const reading of readings) if (builder.count < count) builder.add(reading);
  return builder.finish();
}
