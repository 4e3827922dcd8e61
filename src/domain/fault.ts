import { bandFault, type Band } from './band.ts';
import type { Family } from './family.ts';
import type { Meter } from './meter.ts';

/** Why a band as a whole cannot be used, as a sentence; undefined where it can. */
export function bandRecordFault(band: Band): string | undefined {
  if (band.family.trim() === '' || band.point.trim() === '') return 'A band needs a family and a test point.';
  return bandFault(band.expects);
}

/** Why a family cannot be used, as a sentence; undefined where it can. */
export function familyFault(family: Family): string | undefined {
  if (family.name.trim() === '') return 'A family needs a name.';
  const twicePoint = firstTwice(family.points.map((point) => point.name));
  if (twicePoint !== undefined) return `The test point ${twicePoint} stands there twice: rename one.`;
  const twicePart = firstTwice(family.parts.map((part) => part.designator));
  if (twicePart !== undefined) return `The part ${twicePart} stands there twice: rename one.`;
  const shorted = family.parts.find(({ nodes: [first, second] }) => first === second);
  if (shorted) return `The part ${shorted.designator} has one node on both ends: name the other node.`;
  return undefined;
}

/** Why a meter's profile cannot be used, as a sentence; undefined where it can. */
export function meterFault(meter: Meter): string | undefined {
  if (meter.name.trim() === '') return 'A meter needs a name.';
  for (const { mode, percent, counts, upTo, resolution } of meter.accuracies) {
    if (![percent, counts, upTo].every(Number.isFinite))
      return `The accuracy for ${mode} holds something that is no number.`;
    if (percent < 0 || counts < 0)
      return `The accuracy for ${mode} has a negative term: it is ±, so write it without a sign.`;
    if (upTo <= 0) return `The range for ${mode} must reach above zero.`;
    if (resolution !== undefined && !(resolution > 0)) return `The resolution for ${mode} must be above zero.`;
  }
  return undefined;
}

function firstTwice(names: readonly string[]): string | undefined {
  return names.find((name, index) => names.indexOf(name) !== index);
}
