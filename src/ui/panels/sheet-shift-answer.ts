import { DAY } from '../../domain/day.ts';
import type {
  BenchCalls,
  FacetValue,
  ReadingsCount,
  ReadingsQuery,
  RepairLine,
  ShiftOverview,
} from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import type { RepairDecision } from './repair-answers.ts';

/** One board of a day's work, with its readings of that day. */
export interface ShiftBoard {
  readonly line: RepairLine;
  readonly readings: number;
  readonly decision: RepairDecision | undefined;
}

/** What a day's work came to. */
export interface ShiftSummary {
  /** Midnight, in local wall milliseconds counted as if UTC. */
  readonly day: number;
  readonly count: ReadingsCount;
  readonly boards: readonly ShiftBoard[];
  readonly verdicts: readonly FacetValue[];
  readonly meters: readonly FacetValue[];
  /** What the whole log says of the meters at that time. */
  readonly offsets: ReturnType<BenchCalls['metersOverview']>['periods'];
  /** Rows that were set aside of files with readings of that day. */
  readonly setAside: ShiftOverview['setAside'];
}

const TIMED = { field: 'time', from: Number.MIN_SAFE_INTEGER } as const;

/** Asks for all that one day's summary shows; `NaN` means the last day with readings. Undefined where no reading has a time. */
export async function askShift(
  session: Session,
  asked: number,
  signal: AbortSignal,
): Promise<ShiftSummary | undefined> {
  const day = Number.isNaN(asked) ? await lastDay(session, signal) : asked;
  if (day === undefined) return undefined;
  const query: ReadingsQuery = { filters: [{ field: 'time', from: day, to: day + DAY - 1 }], sort: [] };
  const [count, repairs, verdicts, meters, files, lines, shift, overview] = await Promise.all([
    session.ask('count', [query], signal),
    session.ask('facet', [query, 'repair'], signal),
    session.ask('facet', [query, 'verdict'], signal),
    session.ask('facet', [query, 'meter'], signal),
    session.ask('facet', [query, 'file'], signal),
    session.ask('repairs', [], signal),
    session.ask('shift', [], signal),
    session.ask('metersOverview', [], signal),
  ]);
  const boards = repairs.flatMap(({ value, count: readings }) => {
    const line = lines.find(({ repair }) => repair.id === value);
    return line === undefined ? [] : [{ line, readings }];
  });
  const { decimalMark } = session.state;
  const decisions = await Promise.all(
    boards.map(({ line }) => session.ask('decision', [line.repair.id, decimalMark], signal)),
  );
  return {
    day,
    count,
    boards: boards.map((board, at) => ({ ...board, decision: decisions[at] })),
    verdicts: verdicts.filter((verdict) => verdict.count > 0),
    meters,
    offsets: overview.periods.filter(({ since, until }) => since < day + DAY && until >= day),
    setAside: shift.setAside.filter(({ file }) => files.some(({ value }) => value === file)),
  };
}

async function lastDay(session: Session, signal: AbortSignal): Promise<number | undefined> {
  const query: ReadingsQuery = { filters: [TIMED], sort: [{ field: 'time', descending: true }] };
  const [last] = await session.ask('window', [query, 0, 1], signal);
  return last === undefined ? undefined : Math.floor(last.time / DAY) * DAY;
}
