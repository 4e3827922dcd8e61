import { readingAt } from '../../columns/reading-log.ts';
import { maskedBy, partClass, type Family } from '../../domain/family.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import { evidenceOf, type Evidence } from '../../judging/evidence.ts';
import { failedParts, type ExaminedRepair } from '../../patterns/examined-repair.ts';
import { probingOrder, type BoardSoFar, type ProbingCheck } from '../../patterns/probing-order.ts';
import type { WhatNext } from '../contract/repairs.ts';
import type { Judged } from './bench-data.ts';
import { examineFamilies, probingChecks } from './examine.ts';
import { repairLines, rowsOf } from './repair-stories.ts';

/** Fewer repairs than this tell nothing of which part it is (common practice, no source). */
const FEWEST_REPAIRS = 5;

/** What to measure next on a board, from how its family failed in other repairs; undefined where nothing names the repair. */
export function whatNext(judged: Judged, id: string, mark: DecimalMark): WhatNext | undefined {
  const line = repairLines(judged).find(({ repair }) => repair.id === id);
  if (line === undefined) return undefined;
  const { family: name, complaint } = line.repair;
  const examined = examineFamilies(judged).get(name);
  if (examined === undefined)
    return without('too thin', 'Nothing is known of its family, so nothing tells what to measure next.');
  const { family } = examined;
  const { log } = judged.data;
  const earlier = examined.repairs.filter((other) => other.repair !== id);
  const rows = rowsOf(judged, id);
  const evidence = evidenceOf(log, judged.verdicts, rows, family);
  const suspects = partsThat(evidence, 'suspected');
  if (suspects.length > 0) return whatToLift(family, suspects, earlier, mark);
  const failed = partsThat(evidence, 'failed').filter((part) => partClass(part) !== 'F');
  if (failed.length > 0) {
    const [are, they] = failed.length === 1 ? ['is', 'it'] : ['are', 'they'];
    return without(
      'found',
      `${failed.join(', ')} ${are} proved failed; what ${they} may have taken along is still to be measured.`,
    );
  }
  const measured = new Set(Array.from(rows, (row) => readingAt(log, row).point));
  const checks = probingChecks(judged, family).filter(({ point }) => !measured.has(point));
  const cleared = partsThat(evidence, 'good', 'cleared');
  return whatToProbe(earlier, checks, { cleared, ...(complaint !== '' && { complaint }) }, mark);
}

function partsThat(
  evidence: ReadonlyMap<string, Evidence>,
  ...findings: readonly Evidence['finding'][]
): readonly string[] {
  return [...evidence].filter(([, { finding }]) => findings.includes(finding)).map(([part]) => part);
}

/** Which of some parts that read bad together to lift first: the one that failed most often among them before. */
function whatToLift(
  family: Family,
  suspects: readonly string[],
  earlier: readonly ExaminedRepair[],
  mark: DecimalMark,
): WhatNext {
  const [first = ''] = suspects;
  const group = [first, ...maskedBy(family.parts, first).filter((part) => suspects.includes(part))];
  const failures = earlier.map(failedParts).filter((failed) => failed.some((part) => group.includes(part)));
  const together = `${group.join(', ')} ${group.length === 1 ? 'reads bad in circuit, where another part may mask it' : 'read bad together in circuit, and mask each other'}`; // prettier-ignore
  if (failures.length < FEWEST_REPAIRS) {
    const few = failures.length === 1 ? '1 earlier repair tells' : `${failures.length} earlier repairs tell`;
    return without('too thin', `${together}: lift whichever is easiest, since only ${few} which it was.`);
  }
  const inQuestion = group
    .map((part) => {
      const count = failures.filter((failed) => failed.includes(part)).length;
      return { point: pointOf(family, part), parts: [part], chance: (count + 0.5) / (failures.length + 1) };
    })
    .sort((a, b) => b.chance - a.chance);
  const likeliest = inQuestion[0]!;
  return {
    kind: 'lift',
    sentence: `${together}: lift ${likeliest.parts.join()} first, since it had failed in ${percentText(likeliest.chance, mark)} of the ${failures.length} earlier repairs in which one of them had.`,
    inQuestion,
  };
}

function whatToProbe(
  earlier: readonly ExaminedRepair[],
  checks: readonly ProbingCheck[],
  board: BoardSoFar,
  mark: DecimalMark,
): WhatNext {
  const order = probingOrder(earlier, checks, board);
  if (order === undefined)
    return without(
      'too thin',
      'Too few earlier repairs of its family are left to tell from: measure in the usual order.',
    );
  const steps = order.steps.filter(({ finds }) => finds > 0);
  const [next] = steps;
  if (next === undefined)
    return without('all measured', 'Every check that showed a fault in earlier repairs has been made: it is a new fault, a bad joint, or none.'); // prettier-ignore
  const under = board.complaint === undefined ? '' : `, ${order.underComplaint} of them under this complaint`;
  return {
    kind: 'probe',
    sentence: `Measure ${next.point} next: it takes about ${Math.round(next.seconds)} s and shows the fault in ${percentText(next.finds, mark)} of what is still open, going by ${order.repairs} earlier repairs${under}.`,
    inQuestion: steps.map(({ point, finds, seconds }) => ({
      point,
      parts: checks.find((check) => check.point === point)?.shows ?? [],
      chance: finds,
      seconds,
    })),
  };
}

function without(kind: WhatNext['kind'], sentence: string): WhatNext {
  return { kind, sentence, inQuestion: [] };
}

function pointOf(family: Family, part: string): string {
  return family.points.find((point) => point.part === part)?.name ?? part;
}

/** A share in percent with two digits at most, since it rests on tens of repairs. */
function percentText(share: number, mark: DecimalMark): string {
  const percent = share * 100;
  const text = percent < 9.5 ? String(Number(percent.toPrecision(1))) : String(Math.round(percent));
  return `${text.replace('.', mark)}\u00a0%`;
}
