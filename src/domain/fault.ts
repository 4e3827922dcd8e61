import { bandFault, type Band } from './band.ts';
import type { Family } from './family.ts';
import type { Accuracy, Meter } from './meter.ts';

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

/** What is wrong with a line of a meter's profile, with the field that is to blame: the end of a sentence, and a sentence that says what to do. */
export interface AccuracyFault {
  readonly field: 'range limit' | 'percent' | 'counts' | 'resolution';
  readonly wrong: string;
  readonly remedy: string;
}

/** Why a line of a meter's profile cannot be used; undefined where it can. */
export function accuracyFault({ percent, counts, upTo, resolution }: Accuracy): AccuracyFault | undefined {
  const negative = { wrong: 'is negative', remedy: 'An accuracy is ±: write it without a sign.' };
  const notAbove = { wrong: 'is not above zero', remedy: 'Take it from the meter’s data sheet.' };
  if (!(percent >= 0)) return { field: 'percent', ...(percent < 0 ? negative : NO_NUMBER) };
  if (!(counts >= 0)) return { field: 'counts', ...(counts < 0 ? negative : NO_NUMBER) };
  if (!(upTo > 0)) return { field: 'range limit', ...notAbove };
  if (resolution !== undefined && !(resolution > 0)) return { field: 'resolution', ...notAbove };
  if (resolution !== undefined && resolution > upTo)
    return { field: 'resolution', wrong: 'is larger than the range itself', remedy: 'Correct one of the two.' };
  if (![percent, counts, upTo].every(Number.isFinite)) return { field: 'range limit', ...NO_NUMBER };
  return undefined;
}

const NO_NUMBER = { wrong: 'is no number', remedy: 'Take it from the meter’s data sheet.' };

/** Why a meter's profile cannot be used, as a sentence; undefined where it can. */
export function meterFault({ name, accuracies, overRangeMark }: Meter): string | undefined {
  if (name.trim() === '') return 'A meter needs a name.';
  if (overRangeMark !== undefined && /^[+\-\u2212]?[\d.,]*\d$/.test(overRangeMark.trim()))
    return `The over-range mark “${overRangeMark}” reads as a number: no reading could be told from it.`;
  for (const accuracy of accuracies) {
    const fault = accuracyFault(accuracy);
    if (fault) return `The ${FIELD_WORDS[fault.field]} for ${accuracy.mode} ${fault.wrong}. ${fault.remedy}`;
  }
  return undefined;
}

const FIELD_WORDS: Readonly<Record<AccuracyFault['field'], string>> = {
  'range limit': 'range limit',
  percent: 'percentage',
  counts: 'number of counts',
  resolution: 'last digit',
};

function firstTwice(names: readonly string[]): string | undefined {
  return names.find((name, index) => names.indexOf(name) !== index);
}
