import { meterOffsets } from '../../patterns/meter-offsets.ts';
import type { ReadingLog } from '../../columns/reading-log.ts';
import { isPowered } from '../../domain/reading.ts';
import type { Family } from '../../domain/family.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import type { Repair } from '../../domain/repair.ts';
import { repairOddities } from '../../domain/repair-fault.ts';
import { isOutOfBand } from '../../domain/verdict.ts';
import { evidenceOf, type Evidence } from '../../judging/evidence.ts';
import { goBackLines } from '../../judging/go-back.ts';
import { boostFindings, chargeFindings, mainsFor, railFindings } from '../../judging/findings.ts';
import { familyNamed, type Judged } from './bench-data.ts';
import type { PartComparison, PartEvidence, ReadingRow, RepairDecision, RepairLine, RepairStory } from '../contract.ts';
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
  const readings = Array.from(rows, (row) => readingRow(judged, row));
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
  };
}

/** What it takes to decide about one board; undefined where nothing names the repair. */
export function repairDecision(judged: Judged, id: string, mark: DecimalMark): RepairDecision | undefined {
  const { data } = judged;
  if (!data.repairs.has(id) && data.log.names.repairs.find(id) < 0) return undefined;
  const { repair } = repairLine(judged, id);
  const readings = Array.from(rowsOf(judged, id), (row) => readingRow(judged, row));
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
    liveOutOfBand: outOfBand(afterLastWork(judged, rows, live)),
    liveReadings: live.length,
    listed: listed !== undefined,
  };
}

/** The powered rows that came after the last unpowered one. */
function afterLastWork(judged: Judged, rows: Uint32Array, live: Uint32Array): Uint32Array {
  const { log } = judged.data;
  const lastWork = rows.findLast((row) => !isPowered(log.names.checks.stage(log.check[row]!)));
  return lastWork === undefined ? live : live.filter((row) => rows.indexOf(row) > rows.indexOf(lastWork));
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
