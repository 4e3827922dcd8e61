import { countOf } from '../domain/count-text.ts';
import { maskedBy, partClass } from '../domain/family.ts';
import { listText } from '../domain/list-text.ts';
import { isInCircuit, isPowered, MODE_UNITS } from '../domain/reading.ts';
import { isOutOfBand, SHORT_BELOW_OHMS } from '../domain/verdict.ts';
import { held, isFuse, isJudged, lastOfEach, partAt, type Held } from './go-back-case.ts';
import { pointsOf, said, were } from './go-back-words.ts';
import type { GoBackCase, JudgedReading } from './go-back.ts';

export function shortsLine(board: GoBackCase): Held {
  const seen = board.readings.filter(({ specimen, stage }) => specimen === 'board' && !isPowered(stage));
  const partPoints = seen.filter(({ point }) => partAt(board, point) !== undefined && !isFuse(board, point));
  const last = lastOfEach(partPoints.filter(({ stage }) => isInCircuit(stage)));
  const bad = last.filter(({ word }) => word === 'shorted' || word === 'leaky');
  const standing = bad.filter((reading) => !clearedLater(board, reading, last));
  const opened = new Set([
    ...board.repair.replaced.filter((part) => partClass(part) !== 'F'),
    ...partPoints.filter(({ stage }) => stage === 'part out').flatMap(({ point }) => partAt(board, point) ?? []),
  ]);
  const missing = [...opened].filter((part) => !isRefitted(board, part, partPoints));
  const unjudged = last.filter((reading) => reading.stage === 'refitted' && !isJudged(reading));
  if (standing.length > 0)
    return held('does not hold', `${said(standing, board.mark)}, and nothing later clears it.`, standing);
  if (missing.length > 0)
    return held(
      'not measured',
      `${listText(missing)} came out or ${were(missing)} replaced, and ${were(missing)} not read again once fitted.`,
      last,
    );
  if (unjudged.length > 0)
    return held(
      'no band',
      `${pointsOf(unjudged)} ${were(unjudged)} read once refitted, with no band to judge by.`,
      unjudged,
    );
  if (last.length === 0) return held('not measured', 'No part of this board was measured without power.', []);
  const refitted = last.filter(({ stage }) => stage === 'refitted');
  return refitted.length === 0
    ? held(
        'holds',
        `No part came out, and ${countOf(last.length, 'point', board.mark)} read as received ${last.length === 1 ? 'shows' : 'show'} no short.`,
        last,
      )
    : held('holds', `${countOf(refitted.length, 'refitted point', board.mark)} read, none shorted or leaky.`, refitted);
}

/** Whether a later good reading across the same nodes shows that the short is gone from them. */
function clearedLater(board: GoBackCase, bad: JudgedReading, last: readonly JudgedReading[]): boolean {
  const part = partAt(board, bad.point);
  const mates = part === undefined ? [] : maskedBy(board.family?.parts ?? [], part);
  return last.some((reading) => {
    const own = partAt(board, reading.point);
    const later = board.readings.indexOf(reading) > board.readings.indexOf(bad);
    return later && own !== undefined && mates.includes(own) && reading.word === 'good';
  });
}

function isRefitted(board: GoBackCase, part: string, readings: readonly JudgedReading[]): boolean {
  const own = readings.filter(({ point }) => partAt(board, point) === part);
  const lastOut = own.findLastIndex(({ stage }) => stage === 'part out');
  return own.findLastIndex(({ stage }) => stage === 'refitted') > lastOut;
}

export function fuseLine(board: GoBackCase): Held {
  const fuses = new Set([
    ...(board.family?.parts.map(({ designator }) => designator).filter((part) => partClass(part) === 'F') ?? []),
    ...board.readings.flatMap(({ point }) => (isFuse(board, point) ? (partAt(board, point) ?? []) : [])),
  ]);
  if (fuses.size === 0) {
    return (board.family?.parts.length ?? 0) > 0
      ? held('does not apply', 'This family declares no fuse.', [])
      : held('not measured', 'No fuse of this board is known: measure it, or declare it in the family.', []);
  }
  const read = [...fuses].map((fuse) => {
    const own = board.readings.filter(({ point, specimen, stage }) => {
      const counts = stage === 'refitted' || (stage === 'as received' && !board.repair.replaced.includes(fuse));
      return counts && specimen === 'board' && partAt(board, point) === fuse;
    });
    return { fuse, reading: own.at(-1) };
  });
  const last = read.flatMap(({ reading }) => reading ?? []);
  const bad = last.filter((reading) => conducts(reading) === false);
  if (bad.length > 0) return held('does not hold', `${said(bad, board.mark)}.`, bad);
  const missing = read.filter(({ reading }) => reading === undefined || conducts(reading) === undefined);
  if (missing.length > 0) {
    const names = listText(missing.map(({ fuse }) => fuse));
    const renewed = missing.some(({ fuse }) => board.repair.replaced.includes(fuse));
    return held(
      'not measured',
      `${names} ${were(missing)} not measured ${renewed ? 'once replaced' : 'in circuit'}.`,
      last,
    );
  }
  return held('holds', `${said(last, board.mark)}.`, last);
}

/** Whether a fuse conducts: by its band, else a beep or a few ohms (common practice, no source); undefined where the answer does not say. */
function conducts(reading: JudgedReading): boolean | undefined {
  const { verdict, word, state, value, mode } = reading;
  if (isJudged(reading)) return word === undefined ? !isOutOfBand(verdict) : word === 'good';
  if (state === 'beep') return true;
  if (state === 'no beep' || state === 'over-range') return false;
  return state === 'value' && MODE_UNITS[mode] === 'Ω' ? value < SHORT_BELOW_OHMS : undefined;
}
