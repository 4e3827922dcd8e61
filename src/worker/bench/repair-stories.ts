import { isPowered } from '../../domain/reading.ts';
import type { Family } from '../../domain/family.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import type { Repair } from '../../domain/repair.ts';
import { isOutOfBand } from '../../domain/verdict.ts';
import { evidenceOf, type Evidence } from '../../judging/evidence.ts';
import { boostFindings, chargeFindings, mainsFor, railFindings } from '../../judging/findings.ts';
import { familyNamed, type Judged } from './bench-data.ts';
import type { PartEvidence, RepairLine, RepairStory } from '../contract.ts';
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
