import type { Accuracy } from '../../domain/meter.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import { MODE_UNITS } from '../../domain/reading.ts';
import { limitText } from '../band-text.ts';
import { countOf } from '../words.ts';
import { numberField } from './band-typed.ts';

/** A meter's accuracy in lines: a line for each mode whose ranges are equally accurate, else one for each accuracy. */
export function accuracyLines(accuracies: readonly Accuracy[], mark: DecimalMark): readonly string[] {
  const alike = new Map<string, Accuracy[]>();
  for (const accuracy of accuracies) {
    const key = JSON.stringify([accuracy.mode, accuracy.percent, accuracy.counts]);
    alike.set(key, [...(alike.get(key) ?? []), accuracy]);
  }
  return [...alike.values()].map((ranges) => lineOf(ranges, mark));
}

function lineOf(ranges: readonly Accuracy[], mark: DecimalMark): string {
  const widest = ranges.reduce((one, other) => (other.upTo > one.upTo ? other : one));
  const { mode, upTo, percent, counts, resolution } = widest;
  const unit = MODE_UNITS[mode];
  const several = ranges.length === 1 ? '' : ` in ${countOf(ranges.length, 'range', mark)}`;
  // Of several ranges each has its own last digit, which the profile states.
  const digit =
    ranges.length > 1 || resolution === undefined ? '' : `, last digit ${limitText(resolution, unit, mark)}`;
  return `${mode} up to ${limitText(upTo, unit, mark)}${several}: ± (${numberField(percent, mark)} % + ${countOf(counts, 'count', mark)})${digit}`;
}
