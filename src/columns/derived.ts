import type { ReadingLog } from './reading-log.ts';
import { VALUE } from './reading-log.ts';
import { SPECIMENS, STAGES } from '../domain/reading.ts';

/**
 * Numbers that follow from a reading and others: the margin to the nearer limit in the unit and in U, the deviation from
 * the nominal value in percent, the change from the stage before, the ratio to a new part, the robust z within the check.
 */
export const DERIVED_FIELDS = ['margin', 'margin-in-u', 'deviation', 'change', 'ratio', 'robust-z'] as const;
export type DerivedField = (typeof DERIVED_FIELDS)[number];

const NEW_PART = SPECIMENS.indexOf('new part');

/**
 * How far each number lies from the one of the nearest earlier stage at the same point, in the same mode, of the same
 * specimen and repair; of several there, the last one counts. In the SI unit; `NaN` where there is none.
 * @param rowsByRepair - rows of each repair in order of time
 */
export function changeFromStageBefore(log: ReadingLog, rowsByRepair: readonly Uint32Array[]): Float64Array {
  const result = new Float64Array(log.count).fill(NaN);
  const stages = STAGES.length;
  const { placeOf, places } = placesOf(log);
  const last = new Float64Array(places * SPECIMENS.length * stages).fill(NaN);
  const stageOf = Uint8Array.from({ length: log.names.checks.size }, (_, check) => log.names.checks.stageCode(check));
  const startAt = (row: number): number => (placeOf[log.check[row]!]! * SPECIMENS.length + log.specimen[row]!) * stages;
  for (const rows of rowsByRepair) {
    for (const row of rows) {
      if (log.state[row] === VALUE) last[startAt(row) + stageOf[log.check[row]!]!] = log.value[row]!;
    }
    for (const row of rows) {
      if (log.state[row] !== VALUE) continue;
      const start = startAt(row);
      let at = start + stageOf[log.check[row]!]! - 1;
      while (at >= start && Number.isNaN(last[at])) at -= 1;
      if (at >= start) result[row] = log.value[row]! - last[at]!;
    }
    for (const row of rows) last[startAt(row) + stageOf[log.check[row]!]!] = NaN;
  }
  return result;
}

/**
 * Each number of a board's own part over the last one that a new part of the same type showed at the same point in the
 * same mode in the same repair; `NaN` where none was measured, or it showed zero.
 * @param rowsByRepair - rows of each repair in order of time
 */
export function ratioToNewPart(log: ReadingLog, rowsByRepair: readonly Uint32Array[]): Float64Array {
  const result = new Float64Array(log.count).fill(NaN);
  const { placeOf, places } = placesOf(log);
  const ofNew = new Float64Array(places).fill(NaN);
  const isNew = (row: number): boolean => log.specimen[row] === NEW_PART;
  for (const rows of rowsByRepair) {
    for (const row of rows) {
      if (isNew(row) && log.state[row] === VALUE) ofNew[placeOf[log.check[row]!]!] = log.value[row]!;
    }
    for (const row of rows) {
      if (isNew(row) || log.state[row] !== VALUE) continue;
      const reference = ofNew[placeOf[log.check[row]!]!]!;
      if (reference !== 0) result[row] = log.value[row]! / reference;
    }
    for (const row of rows) if (isNew(row)) ofNew[placeOf[log.check[row]!]!] = NaN;
  }
  return result;
}

/** For each check, a number that it shares with the checks of the same family, point and mode at other stages. */
function placesOf(log: ReadingLog): { readonly placeOf: Uint32Array; readonly places: number } {
  const { checks } = log.names;
  const known = new Map<string, number>();
  const placeOf = Uint32Array.from({ length: checks.size }, (_, check) => {
    const key = `${checks.familyCode(check)} ${checks.pointCode(check)} ${checks.modeCode(check)}`;
    const place = known.get(key) ?? known.size;
    known.set(key, place);
    return place;
  });
  return { placeOf, places: known.size };
}
