import { designatorOf, partClass, pointFromName } from '../domain/family.ts';
import { isPowered, type Reading } from '../domain/reading.ts';
import { PASS, VERDICT_MASK } from '../domain/verdict.ts';
import type { GoBackCase, JudgedReading, Standing } from './go-back.ts';

/** How a line stands, why, and the readings that it rests on. */
export interface Held {
  readonly standing: Standing;
  readonly sentence: string;
  readonly on: readonly JudgedReading[];
}

export function held(standing: Standing, sentence: string, on: readonly JudgedReading[]): Held {
  return { standing, sentence, on };
}

/** Readings after the last one that was taken of the unpowered board; all of them where it never was. */
export function afterLastWork(board: GoBackCase): readonly JudgedReading[] {
  const last = board.readings.findLastIndex(
    (reading) => !isPowered(reading.stage) && reading.specimen === 'board' && !isBulkVolts(board, reading),
  );
  return board.readings.slice(last + 1);
}

/** The last reading of each point and mode, in order of time. */
export function lastOfEach(readings: readonly JudgedReading[]): readonly JudgedReading[] {
  const last = new Map(readings.map((reading) => [`${reading.mode} ${reading.point}`, reading]));
  return readings.filter((reading) => last.get(`${reading.mode} ${reading.point}`) === reading);
}

export function isBulkVolts(board: GoBackCase, { point, mode }: Reading): boolean {
  return mode === 'DC volts' && pointOf(board, point).role === 'bulk';
}

/** Whether a band settled it either way. */
export function isJudged({ verdict }: JudgedReading): boolean {
  return (verdict & VERDICT_MASK) >= PASS;
}

function pointOf(board: GoBackCase, name: string) {
  return board.family?.points.find((point) => point.name === name) ?? pointFromName(name);
}

export function partAt(board: GoBackCase, point: string): string | undefined {
  return pointOf(board, point).part;
}

export function isFuse(board: GoBackCase, point: string): boolean {
  return partClass(partAt(board, point) ?? designatorOf(point) ?? '') === 'F';
}
