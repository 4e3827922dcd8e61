import { meterOffsets } from '../../patterns/meter-offsets.ts';
import { summariseRunIn, type RunInTrace } from '../../patterns/run-in.ts';
import { decimateTrace, type TraceWindow } from '../../charts/trace.ts';
import { VALUE, type ReadingLog } from '../../columns/reading-log.ts';
import { isPowered, type Mode } from '../../domain/reading.ts';
import type { Family } from '../../domain/family.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import type { Repair } from '../../domain/repair.ts';
import { repairOddities } from '../../domain/repair-fault.ts';
import { isOutOfBand, PASS, VERDICT_MASK } from '../../domain/verdict.ts';
import { evidenceOf, type Evidence } from '../../judging/evidence.ts';
import { goBackLines } from '../../judging/go-back.ts';
import { boostFindings, chargeFindings, mainsFor, railFindings } from '../../judging/findings.ts';
import { familyNamed, type Judged } from './bench-data.ts';
import type { ReadingRow } from '../contract/readings.ts';
import type {
  PartComparison,
  PartEvidence,
  RepairDecision,
  RepairLine,
  RepairStory,
  RunInDrawing,
  RunInLine,
} from '../contract/repairs.ts';
import { limitsAt } from '../../judging/judge.ts';
import { readingRow } from './reading-rows.ts';

/** All repairs that the table of repairs lists or readings name, by id in natural order. */
export function repairLines(judged: Judged): readonly RepairLine[] {
  const { data } = judged;
  const ids = new Set([...data.repairs.keys(), ...data.log.names.repairs.labels]);
  const collator = new Intl.Collator('en', { numeric: true });
  return [...ids].sort(collator.compare).map((id) => repairLine(judged, id));
}

/** One board's story; undefined where nothing names the repair. */
export function repairStory(judged: Judged, id: string, mark: DecimalMark): RepairStory | undefined {
  const { data } = judged;
  if (!data.repairs.has(id) && data.log.names.repairs.find(id) < 0) return undefined;
  const line = repairLine(judged, id);
  const rows = rowsOf(judged, id);
  const listed = listedRows(judged, rows);
  const readings = Array.from(listed, (row) => readingRow(judged, row));
  const family = familyNamed(data, line.repair.family);
  const powered = readings.filter((reading) => isPowered(reading.stage));
  const measured = judged.standard.mains[data.log.names.repairs.find(id)] ?? NaN;
  const bands = data.bands.filter((band) => band.family === line.repair.family);
  return {
    line,
    readings,
    parts: family ? partEvidence(judged, rows, family, line.repair) : [],
    findings: [
      ...chargeFindings(readings),
      ...(family ? boostFindings(family, powered, mainsFor(measured, bands), mark) : []),
      ...(family ? railFindings(family, powered, mark) : []),
    ],
    comebacks: [...data.repairs.values()].filter((other) => other.comebackOf === id).map((other) => other.id),
    ...(rows.length > listed.length && { runInLeftOut: rows.length - listed.length }),
  };
}

/** What it takes to decide about one board; undefined where nothing names the repair. */
export function repairDecision(judged: Judged, id: string, mark: DecimalMark): RepairDecision | undefined {
  const { data } = judged;
  if (!data.repairs.has(id) && data.log.names.repairs.find(id) < 0) return undefined;
  const { repair } = repairLine(judged, id);
  const readings = condensed(judged, rowsOf(judged, id));
  const family = familyNamed(data, repair.family);
  const overruled = new Map(
    data.overrules.filter((one) => one.repair === id).map(({ rule, reason }) => [rule, reason]),
  );
  const lines = goBackLines({
    repair,
    ...(family && { family }),
    bands: data.bands.filter((band) => band.family === repair.family),
    readings,
    meterFaults: meterFaults(data.log, readings, mark),
    mark,
  });
  const goBack = lines.map((line) => {
    const reason = overruled.get(line.rule);
    return reason === undefined ? line : { ...line, overruled: reason };
  });
  return {
    goBack,
    mayGoBack: goBack.every(
      ({ standing, rule }) => standing === 'holds' || standing === 'does not apply' || overruled.has(rule),
    ),
    comparisons: comparisons(readings),
    oddities: repairOddities(repair, family, data.families.has(repair.family), readings),
    parts: family?.parts ?? [],
  };
}

/** Of a long run-in this many entries are listed. */
const MOST_LISTED = 100;

/** The rows that a story lists: all but a long run-in's later entries. */
function listedRows(judged: Judged, rows: Uint32Array): Uint32Array {
  const { log } = judged.data;
  let entries = 0;
  return rows.filter((row) => log.names.checks.stage(log.check[row]!) !== 'run-in' || (entries += 1) <= MOST_LISTED);
}

/** A repair's readings in which later entries of a long run-in that stand alike, one after the other, are one reading with their count. */
function condensed(judged: Judged, rows: Uint32Array): readonly (ReadingRow & { readonly alike?: number })[] {
  const { log } = judged.data;
  const readings: (ReadingRow & { alike?: number })[] = [];
  let last: string | undefined;
  let entries = 0;
  for (const row of rows) {
    const check = log.check[row]!;
    const verdict = judged.verdicts[row]!;
    const isRunIn = log.names.checks.stage(check) === 'run-in';
    const standing = isOutOfBand(verdict) ? 'out' : (verdict & VERDICT_MASK) >= PASS ? 'in' : 'not judged';
    const kind = isRunIn ? `${check} ${standing} ${log.state[row]!} ${log.meter[row]!}` : undefined;
    const before = readings.at(-1);
    if (isRunIn) entries += 1;
    if (entries > MOST_LISTED && kind !== undefined && kind === last && before) before.alike = (before.alike ?? 0) + 1;
    else readings.push(readingRow(judged, row));
    last = kind;
  }
  return readings;
}

/** The rails that a repair's run-in logged, in the order of their first entries. */
export function runIns(judged: Judged, id: string): readonly RunInLine[] {
  const { log } = judged.data;
  const { checks, points, repairs } = log.names;
  const own = rowsOf(judged, id).filter((row) => checks.stage(log.check[row]!) === 'run-in');
  return [...new Set(Array.from(own, (row) => log.check[row]!))].map((check) => {
    const rows = own.filter((row) => log.check[row] === check);
    const limits = limitsAt(log, rows[0]!, judged.standard);
    const summary = summariseRunIn(traceOf(log, rows), limits);
    const others = otherRunIns(log, check, repairs.find(id)).flatMap((repair) => {
      const theirs = judged.rowsByRepair[repair]!.filter((row) => log.check[row] === check);
      const summed = summariseRunIn(traceOf(log, theirs), limits);
      return summed === undefined ? [] : [{ repair: repairs.label(repair), summary: summed }];
    });
    return {
      point: points.label(checks.pointCode(check)),
      mode: checks.mode(check),
      ...(limits && { limits }),
      lastDigit: rows.reduce((most, row) => Math.max(most, log.prefix[row]! - log.decimals[row]!), -Infinity),
      ...(summary && { summary }),
      backwards: jumpsBack(log, rows),
      others,
    };
  });
}

/** A line is broken where a pause is this many times as long as the mean one. */
const GAP_PAUSES = 5;
const MOST_OTHERS = 30;

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
const drawnLast = new WeakMap<Judged, { readonly key: string; readonly trace: RunInTrace }>();

/** The entries with a time that a repair's run-in logged of one point, in order of time. */
function runInOf(judged: Judged, id: string, point: string, mode: Mode): RunInTrace {
  const key = JSON.stringify([id, point, mode]);
  const known = drawnLast.get(judged);
  if (known?.key === key) return known.trace;
  const { log } = judged.data;
  const { checks, points } = log.names;
  const isOwn = Array.from({ length: checks.size }, (_, check) => {
    const isPoint = points.label(checks.pointCode(check)) === point;
    return isPoint && checks.stage(check) === 'run-in' && checks.mode(check) === mode;
  });
  const rows = rowsOf(judged, id).filter((row) => isOwn[log.check[row]!] === true && !Number.isNaN(log.time[row]!));
  const trace = traceOf(log, rows);
  drawnLast.set(judged, { key, trace });
  return trace;
}

function traceOf(log: ReadingLog, rows: Uint32Array): RunInTrace {
  return {
    times: Float64Array.from(rows, (row) => log.time[row]!),
    values: Float64Array.from(rows, (row) => (log.state[row] === VALUE ? log.value[row]! : NaN)),
  };
}

/** The other repairs that logged a check, in the order of their codes, the last thirty of them. */
function otherRunIns(log: ReadingLog, check: number, own: number): readonly number[] {
  const others = new Set<number>();
  for (let row = 0; row < log.count; row += 1) if (log.check[row] === check) others.add(log.repair[row]!);
  others.delete(own);
  return [...others].sort((a, b) => a - b).slice(-MOST_OTHERS);
}

function jumpsBack(log: ReadingLog, rows: Uint32Array): number {
  const inLog = rows.toSorted();
  return inLog.reduce((count, row, at) => {
    const before = inLog[at - 1];
    const jumped = before !== undefined && log.file[before] === log.file[row] && log.time[row]! < log.time[before]!;
    return count + (jumped ? 1 : 0);
  }, 0);
}

/** The readings of each part that was lifted, or has a new one measured beside it, by point and mode in order of time. */
function comparisons(readings: readonly ReadingRow[]): readonly PartComparison[] {
  const last = (point: string, mode: string, is: (reading: ReadingRow) => boolean): ReadingRow | undefined =>
    readings.findLast((reading) => reading.point === point && reading.mode === mode && is(reading));
  const beside = readings.filter(({ stage, specimen }) => stage === 'part out' || specimen === 'new part');
  const first = new Map(beside.toReversed().map((reading) => [`${reading.mode} ${reading.point}`, reading]));
  return [...first.values()].reverse().map(({ point, mode }) => {
    const inCircuit = last(point, mode, ({ stage, specimen }) => stage === 'as received' && specimen === 'board');
    const outOfCircuit = last(point, mode, ({ stage, specimen }) => stage === 'part out' && specimen === 'board');
    const newPart = last(point, mode, ({ specimen }) => specimen === 'new part');
    const ratio = ratioOf(outOfCircuit ?? inCircuit, newPart);
    return {
      point,
      ...(inCircuit && { inCircuit }),
      ...(outOfCircuit && { outOfCircuit }),
      ...(newPart && { newPart }),
      ...(ratio && { ratio }),
    };
  });
}

function ratioOf(own: ReadingRow | undefined, other: ReadingRow | undefined): PartComparison['ratio'] {
  if (own?.state !== 'value' || other?.state !== 'value' || other.value === 0 || own.value === 0) return undefined;
  return { value: own.value / other.value, digits: Math.min(digitsOf(own), digitsOf(other)) };
}

/** Significant digits that a meter showed of a number other than zero. */
function digitsOf({ value, prefix, decimals }: ReadingRow): number {
  return Math.max(1, Math.floor(Math.log10(Math.abs(value)) + 1e-9) - (prefix - decimals) + 1);
}

/** A meter that surely reads off by this much is held against its readings, in percent (common practice, no source). */
const METER_OFF = 0.5;
const offsetsByLog = new WeakMap<ReadingLog, ReturnType<typeof meterOffsets>>();

/** What the whole log says against the meters of some readings at their time, a sentence each, by meter. */
function meterFaults(log: ReadingLog, readings: readonly ReadingRow[], mark: DecimalMark): ReadonlyMap<string, string> {
  const offsets = offsetsByLog.get(log) ?? meterOffsets(log);
  offsetsByLog.set(log, offsets);
  if (offsets.onlyDifference) return new Map();
  const last = readings.at(-1)?.time ?? NaN;
  const off = offsets.periods.filter(
    ({ since, until, low, high }) => last >= since && last <= until && (low > METER_OFF || high < -METER_OFF),
  );
  return new Map(
    off.map(({ meter, percent, repairs }) => {
      const text = Math.abs(percent).toFixed(1).replace('.', mark);
      return [
        meter,
        `${meter} reads ${text}\u00a0% ${percent > 0 ? 'high' : 'low'} against the other meters, over ${repairs} repairs.`,
      ];
    }),
  );
}

/** The rows of a repair in order of time. */
export function rowsOf(judged: Judged, id: string): Uint32Array {
  return judged.rowsByRepair[judged.data.log.names.repairs.find(id)] ?? new Uint32Array(0);
}

function repairLine(judged: Judged, id: string): RepairLine {
  const { data, verdicts } = judged;
  const { checks, families } = data.log.names;
  const rows = rowsOf(judged, id);
  const live = rows.filter((row) => isPowered(checks.stage(data.log.check[row]!)));
  const outOfBand = (some: Uint32Array): number =>
    some.reduce((count, row) => count + (isOutOfBand(verdicts[row]!) ? 1 : 0), 0);
  const listed = data.repairs.get(id);
  const first = rows[0];
  const family = first === undefined ? '' : families.label(checks.familyCode(data.log.check[first]!));
  return {
    repair: listed ?? {
      id,
      family,
      complaint: '',
      received: first === undefined ? NaN : data.log.time[first]!,
      returned: NaN,
      outcome: 'open',
      replaced: [],
    },
    readings: rows.length,
    outOfBand: outOfBand(rows),
    liveOutOfBand: outOfBand(afterLastWork(judged, rows)),
    liveReadings: live.length,
    listed: listed !== undefined,
  };
}

/** The powered rows that came after the last unpowered one. */
function afterLastWork(judged: Judged, rows: Uint32Array): Uint32Array {
  const { log } = judged.data;
  const isLive = (row: number): boolean => isPowered(log.names.checks.stage(log.check[row]!));
  return rows.subarray(rows.findLastIndex((row) => !isLive(row)) + 1);
}

function partEvidence(judged: Judged, rows: Uint32Array, family: Family, repair: Repair): readonly PartEvidence[] {
  const evidence = evidenceOf(judged.data.log, judged.verdicts, rows, family);
  const unlisted = repair.replaced.filter((part) => !evidence.has(part));
  const none: Evidence = { finding: 'not measured', rows: [] };
  return [...evidence, ...unlisted.map((part) => [part, none] as const)].map(([part, own]) => ({
    part,
    finding: own.finding,
    ...(own.word && { word: own.word }),
    reason: reasonOf(own),
    replaced: repair.replaced.includes(part),
  }));
}

function reasonOf({ finding, proof, word, maskedBy }: Evidence): string {
  switch (finding) {
    case 'failed':
      if (proof === 'out of circuit') return 'measured bad out of circuit';
      return proof === 'in circuit'
        ? 'reads open in circuit, which parts beside it cannot cause'
        : `reads ${word ?? 'bad'} in circuit, and ${proof ?? 'nothing else explains it'}`;
    case 'good':
      return proof === 'in circuit' ? 'measured good in circuit' : 'measured good out of circuit';
    case 'contradictory':
      return 'measured both bad and good out of circuit';
    case 'cleared':
      return 'read bad in circuit until a part across it came out';
    case 'suspected':
      return `reads ${word ?? 'bad'} in circuit; ${(maskedBy ?? []).join(', ')} across the same nodes not cleared`;
    case 'not measured':
      return 'not measured';
  }
}
