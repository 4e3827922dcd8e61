import type { DecimalMark } from '../../domain/quantity.ts';
import type { Family } from '../../domain/family.ts';
import { isPowered } from '../../domain/reading.ts';
import type { Repair } from '../../domain/repair.ts';
import { evidenceOf, type Evidence } from '../../judging/evidence.ts';
import { boostFindings, chargeFindings, mainsFor, railFindings } from '../../judging/findings.ts';
import type { PartEvidence, RepairStory } from '../contract/repairs.ts';
import { familyNamed, type Judged } from './bench-data.ts';
import { readingRow } from './reading-rows.ts';
import { repairLine, rowsOf } from './repair-lines.ts';

/** Of a long run-in this many entries are listed. */
export const MOST_LISTED = 100;

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

/** The rows that a story lists: all but a long run-in's later entries. */
function listedRows(judged: Judged, rows: Uint32Array): Uint32Array {
  const { log } = judged.data;
  let entries = 0;
  return rows.filter((row) => log.names.checks.stage(log.check[row]!) !== 'run-in' || (entries += 1) <= MOST_LISTED);
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
