import type { Family } from '../domain/family.ts';
import { isPowered, SPECIMENS, type Stage } from '../domain/reading.ts';
import { partWord } from '../domain/verdict.ts';
import type { ReadingLog } from '../columns/reading-log.ts';

const BOARD = SPECIMENS.indexOf('board');

/**
 * The parts whose own points read shorted or leaky on the board, before anything was refitted: those that an in-circuit reading alone would blame.
 * @param verdicts - verdict codes of all rows of the log
 * @param rows - the rows of one repair
 */
export function partsBadInCircuit(
  log: ReadingLog,
  verdicts: Uint8Array,
  rows: Iterable<number>,
  family: Family,
): ReadonlySet<string> {
  const partOfPoint = new Map(family.points.map(({ name, part }) => [name, part]));
  const { checks, points } = log.names;
  const bad = new Set<string>();
  for (const row of rows) {
    const check = log.check[row]!;
    if (log.specimen[row] !== BOARD || !isOnTheBoard(checks.stage(check))) continue;
    const part = partOfPoint.get(points.label(checks.pointCode(check)));
    const word = partWord(verdicts[row]!, checks.mode(check), log.value[row]!);
    if (part !== undefined && (word === 'shorted' || word === 'leaky')) bad.add(part);
  }
  return bad;
}

function isOnTheBoard(stage: Stage): boolean {
  return stage !== 'part out' && stage !== 'refitted' && !isPowered(stage);
}
