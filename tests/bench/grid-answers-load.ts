import { DERIVED_FIELDS } from '../../src/columns/derived.ts';
import { GROUP_FIELDS } from '../../src/columns/groups.ts';
import { editLog, withPatches } from '../../src/worker/bench/reading-edits.ts';
import { judgePatched, readCells } from '../../src/worker/bench/reading-edits-desk.ts';
import { readingsText } from '../../src/worker/bench/readings-text.ts';
import { ReadingsView } from '../../src/worker/bench/readings-view.ts';
import type { ReadingsQuery } from '../../src/columns/query.ts';
import { simulatedJudged } from './simulated-judged.ts';

/** What was asked, and how long each answer took, in milliseconds. */
export type AnswerTimes = readonly (readonly [string, readonly number[]])[];

const ALL: ReadingsQuery = { filters: [], sort: [] };
const VOLTS: ReadingsQuery = { filters: [{ field: 'mode', oneOf: ['DC volts'] }], sort: [] };
const ROUNDS = 5;
/** Lines that a grid asks for at once. */
const PAGE = 128;

/** Times what a grid asks the worker about a log of so many invented readings. */
export function measureAnswers(readings: number): AnswerTimes {
  const judged = simulatedJudged(readings);
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
      'all volts selected: mean, median, deviation, extent',
      times(() => {
        const view = fresh();
        view.summarise(VOLTS, 0, view.count(VOLTS).readings - 1);
      }),
    ],
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

/** Times how long it takes to write as many invented readings as a CSV file. */
export async function measureSaving(readings: number): Promise<AnswerTimes> {
  const judged = simulatedJudged(readings);
  const { log } = judged.data;
  const rows = new ReadingsView(judged).rows(ALL);
  const context = { signal: new AbortController().signal, report: () => undefined };
  const save = async (isForSpreadsheet: boolean): Promise<number> => {
    const start = performance.now();
    await readingsText(log, rows, isForSpreadsheet, context);
    return performance.now() - start;
  };
  const exact: number[] = [];
  const guarded: number[] = [];
  for (let round = 0; round < ROUNDS; round += 1) {
    exact.push(await save(false));
    guarded.push(await save(true));
  }
  return [
    ['all written as CSV, exact', exact],
    ['all written as CSV, for a spreadsheet', guarded],
  ];
}
