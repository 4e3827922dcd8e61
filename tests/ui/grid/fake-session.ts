import type { BenchCalls, CallName, ReadingRow, ReadingsQuery } from '../../../src/session/answers.ts';
import type { Session } from '../../../src/session/session.ts';
import { CONDITIONAL_FAIL, CONDITIONAL_PASS, FAIL, HIGH, LOW, NO_BAND, PASS } from '../../../src/domain/verdict.ts';

type Answers = {
  readonly [Name in CallName]?: (...args: Parameters<BenchCalls[Name]>) => ReturnType<BenchCalls[Name]>;
};

/** A session that answers from plain functions; `asked` lists the calls made of it, and it can be told to change. */
export interface FakeSession {
  readonly session: Session;
  readonly asked: [CallName, ...unknown[]][];
  /** Makes the bench a new revision, as an import would. */
  readonly change: () => void;
}

export interface FakeOptions {
  readonly decimalMark?: '.' | ',';
  /** How long each answer takes, in milliseconds. */
  readonly delay?: number;
}

export function fakeSession(answers: Answers, { decimalMark = '.', delay = 0 }: FakeOptions = {}): FakeSession {
  const listeners = new Set<() => void>();
  const asked: [CallName, ...unknown[]][] = [];
  const session = {
    state: { revision: 1, decimalMark, bench: 'own', kept: { keeps: false, faults: [], canUndoSwitch: false } },
    subscribe(listener: () => void) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    async ask(name: CallName, args: unknown[]) {
      asked.push([name, ...args]);
      if (delay > 0) await new Promise((resolve) => setTimeout(resolve, delay));
      const answer = answers[name] as ((...args: unknown[]) => unknown) | undefined;
      if (answer === undefined) throw new Error(`The fake session has no answer to ${name}.`);
      return answer(...args);
    },
  };
  return {
    session: session as unknown as Session,
    asked,
    change: () => {
      session.state = { ...session.state, revision: session.state.revision + 1 };
      for (const listener of listeners) listener();
    },
  };
}

const SAMPLES: readonly Partial<ReadingRow>[] = [
  { point: 'F1', stage: 'as received', mode: 'continuity', state: 'over-range', value: NaN, prefix: 0, decimals: 1, verdict: FAIL | HIGH, word: 'open', limits: { low: -Infinity, high: 1 } },
  { point: 'Q1 D→S', stage: 'as received', mode: 'resistance', value: 0.4, prefix: 0, decimals: 1, verdict: FAIL | LOW, word: 'shorted', limits: { low: 100e3, high: Infinity } },
  { point: 'Q1 D→S', stage: 'part out', mode: 'resistance', value: 640e3, prefix: 6, decimals: 3, verdict: PASS, word: 'good', limits: { low: 100e3, high: Infinity }, specimen: 'new part' },
  { point: 'BR1 ~→+', stage: 'part out', mode: 'diode', value: 0.512, prefix: 0, decimals: 3, verdict: PASS, word: 'good', limits: { low: 0.4, high: 0.7 } },
  { point: 'bulk', stage: 'live', mode: 'DC volts', value: 387.2, prefix: 0, decimals: 1, verdict: PASS, limits: { low: 380, high: 400 } },
  { point: '12V main', stage: 'live', mode: 'DC volts', value: 12.58, prefix: 0, decimals: 2, verdict: CONDITIONAL_PASS | HIGH, limits: { low: 11.4, high: 12.6 }, meter: 'M2' },
  { point: '24V main', stage: 'live', mode: 'DC volts', value: 25.27, prefix: 0, decimals: 2, verdict: CONDITIONAL_FAIL | HIGH, limits: { low: 22.8, high: 25.2 }, meter: 'M2' },
  { point: 'backlight', stage: 'live', mode: 'DC volts', value: 12.4, prefix: 0, decimals: 1, verdict: FAIL | LOW, limits: { low: 100, high: 140 } },
  { point: 'C7', stage: 'part out', mode: 'capacitance', value: 98.6e-6, prefix: -6, decimals: 1, verdict: NO_BAND },
  { point: 'F1', stage: 'refitted', mode: 'continuity', state: 'beep', value: NaN, prefix: 0, decimals: 0, verdict: PASS, word: 'good', limits: { low: -Infinity, high: 1 } },
]; // prettier-ignore

/** The reading of a row of the log, the same for each row number. */
export function fakeRow(row: number): ReadingRow {
  const sample = SAMPLES[row % SAMPLES.length];
  const repair = Math.floor(row / SAMPLES.length);
  const value = sample?.value ?? 12;
  return {
    time: Date.UTC(2026, 2, 14, 9, 14, 2) + row * 38_000,
    repair: `T-${String(131 + repair).padStart(4, '0')}`,
    family: repair % 3 === 2 ? 'PLOVER-32' : 'HERON-48',
    point: 'bulk',
    stage: 'live',
    mode: 'DC volts',
    specimen: 'board',
    state: 'value',
    value,
    prefix: 0,
    decimals: 2,
    meter: 'M1',
    origin: { file: 'shift-2026-03-14.csv', line: row + 2 },
    row,
    verdict: PASS,
    uncertainty: Math.abs(value) * 0.006,
    ...sample,
  };
}

/** A log of `count` rows: a descending first sort key turns it round, and a filter on a file keeps each tenth row. */
export function fakeLog(count: number): Answers {
  const step = (query: ReadingsQuery): number => (query.filters.some((filter) => filter.field === 'point') ? 10 : 1);
  const length = (query: ReadingsQuery): number => Math.ceil(count / step(query));
  const rowAt = (query: ReadingsQuery, place: number): number =>
    (query.sort[0]?.descending === true ? length(query) - 1 - place : place) * step(query);
  return {
    count: (query) => ({
      readings: length(query),
      outOfBand: Math.ceil(length(query) / 5),
      repairs: Math.ceil(count / 10),
    }),
    lines: (query, first, rows) =>
      Array.from({ length: Math.max(0, Math.min(rows, length(query) - first)) }, (_, index) =>
        fakeRow(rowAt(query, first + index)),
      ),
    placeOf: (query, { line }) => {
      const row = line - 2;
      if (row % step(query) !== 0) return -1;
      const place = row / step(query);
      return query.sort[0]?.descending === true ? length(query) - 1 - place : place;
    },
    summarise: (_query, first, last) => ({
      rows: last - first + 1,
      outOfBand: 1,
      overRange: 1,
      numbers: { count: last - first, mean: 14.8312, median: 12.58, deviation: 4.2, minimum: 5.02, maximum: 25.27, minimumShown: { prefix: 0, decimals: 2 }, maximumShown: { prefix: 0, decimals: 2 }, unit: 'V', lastDigit: -2 },
    }), // prettier-ignore
    editsSoFar: () => ({ changed: 0, deleted: 0, steps: 0, undone: 0 }),
    facet: () => [
      { value: 'HERON-48', count: Math.ceil((count * 2) / 3) },
      { value: 'PLOVER-32', count: Math.floor(count / 3) },
    ],
  };
}
