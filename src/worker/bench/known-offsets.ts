import type { ReadingLog } from '../../columns/reading-log.ts';
import { meterOffsets, meterOffsetsInSteps, type MeterOffsets } from '../../patterns/meter-offsets.ts';
import type { PacedWork } from './paced-work.ts';

const known = new WeakMap<ReadingLog, MeterOffsets>();

/** How far the meters of a log are off, found once. */
export function knownOffsets(log: ReadingLog): MeterOffsets {
  const offsets = known.get(log) ?? meterOffsets(log);
  known.set(log, offsets);
  return offsets;
}

/** The most steps that {@link knownOffsetsPaced} takes. */
export function offsetSteps(log: ReadingLog): number {
  return 2 * (log.names.meters.size + 1) + 1;
}

/** The same in steps, between which it can be stopped. */
export async function knownOffsetsPaced(log: ReadingLog, work: PacedWork): Promise<MeterOffsets> {
  const finding = meterOffsetsInSteps(log);
  for (let offsets = known.get(log); ;) {
    if (offsets !== undefined) return offsets;
    const step = finding.next();
    if (step.done !== true) await work.step();
    else known.set(log, (offsets = step.value));
  }
}
