import type { Limits } from './band.ts';
import { designatorOf, partClass, type Family } from './family.ts';
import { isInCircuit, isPowered, type Mode, type Stage } from './reading.ts';
import { SHORT_BELOW_OHMS, SHORT_BELOW_VOLTS } from './verdict.ts';

const EVERYTHING: Limits = { low: -Infinity, high: Infinity };

/** Parts that block one way at least, so that near nothing across them is a short: transistors, diodes, bridge rectifiers. */
const BLOCKING: readonly string[] = ['Q', 'D', 'BR'];

/** The part that a point measures: as its family declares it, else as its name says. */
export function partOfPoint(family: Family | undefined, point: string): string | undefined {
  const declared = family?.points.find(({ name }) => name === point);
  return declared === undefined ? designatorOf(point) : declared.part;
}

/**
 * The limits beyond which a reading is a fault of its part, whatever band was learned (common practice, no source): a transistor, diode or
 * rectifier near nothing is shorted, a fuse of more than some ohms is blown. Unbounded where the part or the mode has no such fault.
 * @returns limits in the SI unit of the mode
 */
export function soundLimits(part: string | undefined, mode: Mode): Limits {
  const kind = part === undefined ? '' : partClass(part);
  const isOhms = mode === 'resistance' || mode === 'continuity';
  if (kind === 'F' && isOhms) return { low: -Infinity, high: SHORT_BELOW_OHMS };
  if (!BLOCKING.includes(kind)) return EVERYTHING;
  if (isOhms) return { low: SHORT_BELOW_OHMS, high: Infinity };
  return mode === 'diode' ? { low: SHORT_BELOW_VOLTS, high: Infinity } : EVERYTHING;
}

/**
 * {@link soundLimits} of a reading at a stage. In circuit what lies beside a part can only lower its resistance, so a short is told out of
 * circuit alone, and an open fuse at every stage without power.
 */
export function soundLimitsAt(part: string | undefined, mode: Mode, stage: Stage): Limits {
  if (isPowered(stage)) return EVERYTHING;
  const sound = soundLimits(part, mode);
  return isInCircuit(stage) ? { low: -Infinity, high: sound.high } : sound;
}
