import { isPowered } from '../../domain/reading.ts';
import { isOutOfBand } from '../../domain/verdict.ts';
import type { ReadingRow } from '../../session/answers.ts';

/** What one point read as the board came, and as it goes. */
export interface BeforeAfter {
  readonly point: string;
  readonly before?: ReadingRow;
  readonly after?: ReadingRow;
}

/**
 * The points that tell a board's repair, in the order in which they were first read: those read again once parts were fitted, and those that were
 * out of band as it came. A point in two modes has a line for each.
 * @param readings - the repair's readings, in order of time
 */
export function beforeAndAfter(readings: readonly ReadingRow[]): readonly BeforeAfter[] {
  const own = readings.filter(
    ({ specimen, stage }) => specimen === 'board' && stage !== 'part out' && stage !== 'run-in',
  );
  const lastWork = readings.findLastIndex(({ stage, mode }) => !isPowered(stage) && mode !== 'DC volts');
  const isAfter = (reading: ReadingRow): boolean =>
    reading.stage === 'refitted' || (isPowered(reading.stage) && readings.indexOf(reading) > lastWork);
  const places = new Set(own.map(({ point, mode }) => JSON.stringify([point, mode])));
  return [...places].flatMap((place) => {
    const here = own.filter(({ point, mode }) => JSON.stringify([point, mode]) === place);
    const before = here.find((reading) => !isAfter(reading));
    const after = here.findLast(isAfter);
    if (after === undefined && !(before !== undefined && isOutOfBand(before.verdict))) return [];
    const [{ point } = { point: '' }] = here;
    return [{ point, ...(before && { before }), ...(after && { after }) }];
  });
}
