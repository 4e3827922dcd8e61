import { readingAt } from '../../columns/reading-log.ts';
import { countOf, countText } from '../../domain/count-text.ts';
import { partClass, type Family } from '../../domain/family.ts';
import { listText } from '../../domain/list-text.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import { evidenceOf, type Evidence } from '../../judging/evidence.ts';
import { compareParts, type ExaminedRepair } from '../../patterns/examined-repair.ts';
import { chancesToFind, chancesToLift } from '../../patterns/part-chances.ts';
import { probingOrder, type ProbingCheck } from '../../patterns/probing-order.ts';
import type { WhatNext } from '../contract/repairs.ts';
import type { Judged } from './bench-data.ts';
import { examineFamily, liftingSeconds, probingChecks } from './examine.ts';
import { repairLine, rowsOf } from './repair-lines.ts';

/** Fewer repairs than this tell nothing of which part it is (common practice, no source). */
const FEWEST_REPAIRS = 5;
/** A part that failed with another in fewer repairs, or in a smaller share of them, is not worth naming (common practice, no source). */
const FEWEST_TOGETHER = 2;
const OFTEN = 0.1;

/** A board on the bench, and what is known of its family. */
export interface BoardOnBench {
  readonly family: Family;
  /** Empty where none is told. */
  readonly complaint: string;
  readonly evidence: ReadonlyMap<string, Evidence>;
  /** Points that were measured. */
  readonly measured: ReadonlySet<string>;
  /** Other repairs of the family. */
  readonly earlier: readonly ExaminedRepair[];
  /** The family's checks as received. */
  readonly checks: readonly ProbingCheck[];
  /** Seconds that it takes to lift a part, where that is known. */
  readonly lifting: ReadonlyMap<string, number>;
}

/** What to measure next on a board, from how its family failed in other repairs; undefined where nothing names the repair. */
export function whatNext(judged: Judged, id: string, mark: DecimalMark): WhatNext | undefined {
  const { log, repairs } = judged.data;
  if (!repairs.has(id) && log.names.repairs.find(id) < 0) return undefined;
  const { family: name, complaint } = repairLine(judged, id).repair;
  const examined = examineFamily(judged, name);
  if (examined === undefined)
    return without('too thin', 'Nothing is known of its family, so nothing tells what to measure next.');
  const { family } = examined;
  const rows = rowsOf(judged, id);
  return nextOn(
    {
      family,
      complaint,
      evidence: evidenceOf(log, judged.verdicts, rows, family),
      measured: new Set(Array.from(rows, (row) => readingAt(log, row).point)),
      earlier: examined.repairs.filter((other) => other.repair !== id),
      checks: probingChecks(judged, family),
      lifting: liftingSeconds(judged, family),
    },
    mark,
  );
}

/** What to measure next on a board. */
export function nextOn(board: BoardOnBench, mark: DecimalMark): WhatNext {
  const [suspect] = partsThat(board, 'suspected');
  if (suspect !== undefined) return whatToLift(board, suspect, mark);
  const failed = partsThat(board, 'failed').filter((part) => partClass(part) !== 'F');
  return failed.length > 0 ? whatElseFailed(board, failed, mark) : whatToProbe(board, mark);
}

/** What to measure besides parts that are proved failed: those that are not settled yet and have failed with them often enough. */
function whatElseFailed({ evidence, earlier }: BoardOnBench, failed: readonly string[], mark: DecimalMark): WhatNext {
  const [are, they] = failed.length === 1 ? ['is', 'it'] : ['are', 'they'];
  const found = `${listText(failed)} ${are} proved failed`;
  const alike = earlier.map((repair) => repair.failed).filter((parts) => failed.every((part) => parts.includes(part)));
  const together = new Map<string, number>();
  for (const part of alike.flat()) together.set(part, (together.get(part) ?? 0) + 1);
  const often = [...together]
    .filter(([part, times]) => isOpen(evidence.get(part)) && times >= FEWEST_TOGETHER && times >= OFTEN * alike.length)
    .sort(([a, times], [b, others]) => others - times || compareParts(a, b));
  if (alike.length < FEWEST_REPAIRS || often.length === 0)
    return without('found', `${found}; what ${they} may have taken along is still to be measured.`);
  const parts = often.map(([part, times]) => `${part} had failed too in ${countText(times, mark)}`);
  return without(
    'found',
    `${found}. Of the ${countOf(alike.length, 'earlier repair', mark)} in which ${they} had, ${listText(parts)}: measure ${often.length === 1 ? 'it' : 'these'} as well.`,
  );
}

/** Whether nothing that was measured says yet if a part is good. */
function isOpen(evidence: Evidence | undefined): boolean {
  return evidence === undefined || evidence.finding === 'not measured';
}

function partsThat({ evidence }: BoardOnBench, ...findings: readonly Evidence['finding'][]): readonly string[] {
  return [...evidence].filter(([, { finding }]) => findings.includes(finding)).map(([part]) => part);
}

/** Which of some parts that read bad together to lift first: the best chance for the time, where it is known how long each takes. */
function whatToLift(
  { family, evidence, earlier, lifting }: BoardOnBench,
  suspect: string,
  mark: DecimalMark,
): WhatNext {
  const group = [suspect, ...(evidence.get(suspect)?.maskedBy ?? [])];
  const { parts, repairs } = chancesToLift(group, earlier);
  const together = readTogether(group, evidence);
  if (repairs < FEWEST_REPAIRS) {
    const few = countOf(repairs, 'earlier repair', mark);
    return without('too thin', `${together}: lift whichever is easiest, since only ${few} ${repairs === 1 ? 'tells' : 'tell'} which it was.`); // prettier-ignore
  }
  const candidates = group.map((part, at) => ({ part, seconds: lifting.get(part), ...parts[at]! }));
  const isTimed = candidates.every(({ seconds }) => seconds !== undefined);
  const worth = ({ chance, seconds = 1 }: (typeof candidates)[number]): number => (isTimed ? chance / seconds : chance);
  const order = candidates.sort((a, b) => worth(b) - worth(a));
  const [first] = order as [(typeof candidates)[number]];
  const time = isTimed ? ` and takes about ${Math.round(first.seconds ?? 0)} s` : '';
  return {
    kind: 'lift',
    sentence: `${together}: lift ${first.part} first, which has failed with a chance of ${percentText(first.chance, mark)}${time}, since it had in ${countText(first.failed, mark)} of the ${countOf(first.told, 'earlier repair', mark)} that told.`,
    inQuestion: order.map(({ part, chance, seconds }) => ({
      point: pointOf(family, part),
      parts: [part],
      chance,
      ...(seconds !== undefined && { seconds }),
    })),
    restsOn: { repairs },
  };
}

function readTogether(group: readonly string[], evidence: BoardOnBench['evidence']): string {
  const read = group.filter((part) => evidence.get(part)?.finding === 'suspected');
  const unread = group.filter((part) => !read.includes(part));
  return unread.length === 0
    ? `${listText(read)} read bad together in circuit, and mask each other`
    : `${listText(read)} ${read.length === 1 ? 'reads' : 'read'} bad in circuit, where ${listText(unread)} may mask ${read.length === 1 ? 'it' : 'them'}`;
}

/** Which check to make: the first of the order that shows the fault in the least expected time. */
function whatToProbe(board: BoardOnBench, mark: DecimalMark): WhatNext {
  const { earlier, complaint, measured } = board;
  const cleared = partsThat(board, 'good', 'cleared');
  const soFar = complaint === '' ? { cleared } : { cleared, complaint };
  const open = board.checks.filter(({ point }) => !measured.has(point));
  const order = probingOrder(earlier, open, soFar);
  if (order === undefined)
    return without(
      'too thin',
      'Too few earlier repairs of its family are left to tell from: measure in the usual order.',
    );
  const steps = order.steps.filter(({ finds }) => finds > 0);
  const checks = steps.flatMap(({ point }) => open.find((check) => check.point === point) ?? []);
  const { chances, repairs, underComplaint } = chancesToFind(checks, earlier, soFar);
  const [next] = checks;
  if (next === undefined)
    return without('all measured', 'Every check that showed a fault in earlier repairs has been made: it is a new fault, a bad joint, or none.'); // prettier-ignore
  return {
    kind: 'probe',
    sentence: `Measure ${next.point} next: it takes about ${Math.round(next.seconds)} s and shows the fault with a chance of ${percentText(chances[0]!, mark)}, going by ${countOf(repairs, 'earlier repair', mark)}${complaint === '' ? '' : `, ${countText(underComplaint, mark)} of them under this complaint`}.`,
    inQuestion: checks.map(({ point, shows, seconds }, at) => ({ point, parts: shows, chance: chances[at]!, seconds })),
    noneOfThese: Math.max(0, 1 - chances.reduce((sum, chance) => sum + chance, 0)),
    restsOn: complaint === '' ? { repairs } : { repairs, underComplaint },
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
