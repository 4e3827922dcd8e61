import { decimateTrace, type TraceWindow } from '../../charts/trace.ts';
import { VALUE, type ReadingLog } from '../../columns/reading-log.ts';
import type { Mode } from '../../domain/reading.ts';
import { limitsAt } from '../../judging/judge.ts';
import { summariseRunIn, type RunInSummary, type RunInTrace } from '../../patterns/run-in.ts';
import type { RunInDrawing, RunInLine } from '../contract/repairs.ts';
import type { Judged } from './bench-data.ts';

/** The rails that a repair's run-in logged, in the order of their first entries, each beside the family's other run-ins of it. */
export function runIns(judged: Judged, id: string): readonly RunInLine[] {
  const { log } = judged.data;
  const { checks, points, repairs } = log.names;
  const own = repairs.find(id);
  const lines = [...railsOf(judged)].flatMap(([check, runs]) => {
    const rows = runs.get(own);
    return rows === undefined ? [] : [{ check, rows, runs }];
  });
  return lines
    .sort((a, b) => log.time[a.rows[0]!]! - log.time[b.rows[0]!]!)
    .map(({ check, rows, runs }) => {
      const limits = limitsAt(log, rows[0]!, judged.standard);
      const summary = summaryOf(judged, rows);
      const others = [...runs.keys()].filter((repair) => repair !== own).slice(-MOST_OTHERS);
      return {
        point: points.label(checks.pointCode(check)),
        mode: checks.mode(check),
        ...(limits && { limits }),
        lastDigit: rows.reduce((most, row) => Math.max(most, log.prefix[row]! - log.decimals[row]!), -Infinity),
        ...(summary && { summary }),
        backwards: jumpsBack(log, rows),
        others: others.flatMap((repair) => {
          const summed = summaryOf(judged, runs.get(repair)!);
          return summed === undefined ? [] : [{ repair: repairs.label(repair), summary: summed }];
        }),
      };
    });
}

/** Of the family's other run-ins this many are shown, the latest. */
const MOST_OTHERS = 30;

/** Rows of each run-in in order of time, by check and then by repair. */
type Rails = ReadonlyMap<number, ReadonlyMap<number, Uint32Array>>;
/** By the verdicts of a judging, which every new judging makes anew. */
const railsByVerdicts = new WeakMap<Uint8Array, Rails>();
const summaries = new WeakMap<Uint32Array, RunInSummary | undefined>();

/** All run-ins of a bench: found in one pass for each judging. */
function railsOf(judged: Judged): Rails {
  const known = railsByVerdicts.get(judged.verdicts);
  if (known !== undefined) return known;
  const { log } = judged.data;
  const isRunIn = Array.from(
    { length: log.names.checks.size },
    (_, check) => log.names.checks.stage(check) === 'run-in',
  );
  const rails = new Map<number, Map<number, Uint32Array>>();
  judged.rowsByRepair.forEach((rows, repair) => {
    const logged = rows.filter((row) => isRunIn[log.check[row]!]);
    for (const check of checksOf(log, logged)) {
      const runs = rails.get(check) ?? new Map<number, Uint32Array>();
      rails.set(
        check,
        runs.set(
          repair,
          logged.filter((row) => log.check[row] === check),
        ),
      );
    }
  });
  railsByVerdicts.set(judged.verdicts, rails);
  return rails;
}

function checksOf(log: ReadingLog, rows: Uint32Array): ReadonlySet<number> {
  const found = new Set<number>();
  for (const row of rows) found.add(log.check[row]!);
  return found;
}

/** What a run-in comes to, summed up once for each judging. */
function summaryOf(judged: Judged, rows: Uint32Array): RunInSummary | undefined {
  if (summaries.has(rows)) return summaries.get(rows);
  const { log } = judged.data;
  const summary = summariseRunIn(traceOf(log, rows), limitsAt(log, rows[0]!, judged.standard));
  summaries.set(rows, summary);
  return summary;
}

/** A line is broken where a pause is this many times as long as the mean one. */
const GAP_PAUSES = 5;

/** One run-in as it is drawn; undefined where none of its entries has a time. */
export function runInTrace(
  judged: Judged,
  id: string,
  point: string,
  mode: Mode,
  columns: number,
  window?: TraceWindow,
): RunInDrawing | undefined {
  const { times, values } = runInOf(judged, id, point, mode);
  const [from, to] = [times[0], times.at(-1)];
  if (from === undefined || to === undefined) return undefined;
  const pause = (to - from) / Math.max(1, times.length - 1);
  return {
    whole: { from, to },
    ...decimateTrace(times, values, window ?? { from, to }, Math.max(1, Math.floor(columns)), GAP_PAUSES * pause),
  };
}

/** The run-in drawn last of each judging: each move and zoom asks for the same one again. */
const drawnLast = new WeakMap<Uint8Array, { readonly key: string; readonly trace: RunInTrace }>();

/** The entries with a time that a repair's run-in logged of one point, in order of time. */
function runInOf(judged: Judged, id: string, point: string, mode: Mode): RunInTrace {
  const key = JSON.stringify([id, point, mode]);
  const known = drawnLast.get(judged.verdicts);
  if (known?.key === key) return known.trace;
  const { log } = judged.data;
  const { checks, points, repairs } = log.names;
  const [rows = new Uint32Array()] = [...railsOf(judged)].flatMap(([check, runs]) => {
    const isAsked = checks.mode(check) === mode && points.label(checks.pointCode(check)) === point;
    return (isAsked ? runs.get(repairs.find(id)) : undefined) ?? [];
  });
  const trace = traceOf(
    log,
    rows.filter((row) => !Number.isNaN(log.time[row]!)),
  );
  drawnLast.set(judged.verdicts, { key, trace });
  return trace;
}

function traceOf(log: ReadingLog, rows: Uint32Array): RunInTrace {
  const times = new Float64Array(rows.length);
  const values = new Float64Array(rows.length);
  for (let at = 0; at < rows.length; at += 1) {
    const row = rows[at]!;
    times[at] = log.time[row]!;
    values[at] = log.state[row] === VALUE ? log.value[row]! : NaN;
  }
  return { times, values };
}

function jumpsBack(log: ReadingLog, rows: Uint32Array): number {
  const inLog = rows.toSorted();
  return inLog.reduce((count, row, at) => {
    const before = inLog[at - 1];
    const jumped = before !== undefined && log.file[before] === log.file[row] && log.time[row]! < log.time[before]!;
    return count + (jumped ? 1 : 0);
  }, 0);
}
